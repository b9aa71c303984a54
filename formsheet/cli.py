"""The command line."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Sequence

from formsheet import __version__
from formsheet.commands import build, check, show
from formsheet.commands.files import FINE, USAGE, UsageError


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        prog="formsheet",
        description="From a plain-text harmonica lesson to a handout a student can learn from.",
        epilog="Exit status: 0 fine (warnings included), 1 errors in a lesson, 2 usage.",
    )
    parser.add_argument("--version", action="version", version=f"formsheet {__version__}")
    commands = parser.add_subparsers(required=True, metavar="COMMAND")

    command = commands.add_parser("check", help="say what is wrong with lessons, bar by bar")
    command.add_argument("paths", nargs="+", metavar="FILE|DIR")
    command.add_argument("--json", action="store_true", help="the report as data")
    command.set_defaults(run=check.run)

    command = commands.add_parser("show", help="print the assembled tune of a lesson")
    command.add_argument("file", metavar="FILE")
    command.add_argument("--json", action="store_true", help="the tune as data")
    command.set_defaults(run=show.run)

    command = commands.add_parser("build", help="make the handouts")
    command.add_argument("paths", nargs="+", metavar="FILE|DIR")
    command.add_argument("--out", default="handouts", metavar="DIR",
                         help="where the handouts go (default: %(default)s)")  # fmt: skip
    command.add_argument("--page", choices=("A4", "Letter"), default="A4", help="paper size")
    command.set_defaults(run=build.run)
    return parser


def main(argv: Sequence[str] | None = None) -> int:
    """Run a command; returns the exit status."""
    arguments = _parser().parse_args(argv)
    try:
        status: int = arguments.run(arguments)
    except UsageError as caught:
        print(f"formsheet: {caught}", file=sys.stderr)
        return USAGE
    except BrokenPipeError:
        sys.stderr.close()  # the reader of a pipe has gone; nothing is wrong
        return FINE
    return status


if __name__ == "__main__":
    sys.exit(main())
