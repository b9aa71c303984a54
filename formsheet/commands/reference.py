"""`formsheet reference`: all that there is to know, drawn from the code itself."""

from __future__ import annotations

import argparse

from formsheet.commands.files import FINE
from formsheet.commands.parser import Commands, whole_parser

LAYOUTS = ("text", "markdown", "man")


def add(commands: Commands) -> None:
    """The command and its options."""
    command = commands.add_parser(
        "reference", help="print every command, option, fact, form, tuning and problem"
    )
    command.add_argument(
        "--as", dest="layout", choices=LAYOUTS, default="text",
        help="plain text, Markdown, or the source of a manual page (default: %(default)s)",
    )  # fmt: skip
    command.set_defaults(run=run)


def run(arguments: argparse.Namespace) -> int:
    """Print it."""
    from formsheet.commands.reference_content import reference
    from formsheet.commands.reference_layout import laid_out

    print(laid_out(reference(whole_parser(arguments)), arguments.layout))
    return FINE
