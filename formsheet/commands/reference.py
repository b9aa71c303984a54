"""`formsheet reference`: all that there is to know, drawn from the code itself."""

from __future__ import annotations

import argparse

from formsheet.commands.declared import Command, Option
from formsheet.commands.files import FINE
from formsheet.commands.parser import all_declared

LAYOUTS = ("text", "markdown", "man")


def run(arguments: argparse.Namespace) -> int:
    """Print it."""
    from formsheet.commands.reference_content import reference
    from formsheet.commands.reference_layout import laid_out

    print(laid_out(reference(all_declared()), arguments.layout))
    return FINE


COMMAND = Command(
    "reference",
    "print every command, option, fact, form, tuning and problem",
    run,
    options=(
        Option(
            "--as",
            "plain text, Markdown, or the source of a manual page",
            field="layout",
            choices=LAYOUTS,
            default="text",
        ),
    ),
    examples=(
        "formsheet reference",
        "formsheet reference --as man > formsheet.1",
        "formsheet reference --as markdown",
    ),
)
