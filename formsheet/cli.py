"""The command line."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Sequence

from formsheet import __version__
from formsheet.commands import (
    build,
    check,
    chords,
    fit,
    joins,
    new,
    recast,
    retab,
    show,
    tab,
    tidy,
    uses,
)
from formsheet.commands.files import FINE, USAGE, UsageError

#: In the order of the day: begin, look, understand, make.
COMMANDS = (new, check, show, joins, fit, chords, uses, retab, recast, tab, tidy, build)


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        prog="formsheet",
        description="From a plain-text harmonica lesson to a handout a student can learn from.",
        epilog="Exit status: 0 fine (warnings included), 1 errors in a lesson, 2 usage.",
    )
    parser.add_argument("--version", action="version", version=f"formsheet {__version__}")
    commands = parser.add_subparsers(required=True, metavar="COMMAND")
    for module in COMMANDS:
        module.add(commands)
    return parser


def main(argv: Sequence[str] | None = None) -> int:
    """Run a command; returns the exit status."""
    parser = _parser()
    arguments, others = parser.parse_known_args(argv)
    if hasattr(arguments, "licks"):  # names may stand after the options too
        arguments.licks += [word for word in others if not word.startswith("-")]
        others = [word for word in others if word.startswith("-")]
    if others:
        parser.error(f"unrecognized arguments: {' '.join(others)}")
    try:
        status: int = arguments.run(arguments)
    except UsageError as caught:
        print(f"formsheet: {caught}", file=sys.stderr)
        return USAGE
    except BrokenPipeError:
        sys.stderr.close()  # the reader of a pipe has gone; nothing is wrong
        return FINE
    except OSError as caught:  # a full disk, a folder that may not be written to
        print(f"formsheet: {caught.filename}: {caught.strerror}", file=sys.stderr)
        return USAGE
    return status


if __name__ == "__main__":
    sys.exit(main())
