"""The command line."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Sequence

from formsheet import __version__
from formsheet.commands import build, check, chords, fit, joins, show
from formsheet.commands.files import FINE, USAGE, UsageError
from formsheet.commands.schema import PrintSchema


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
    command.add_argument("--schema", action=PrintSchema, command="check")
    command.set_defaults(run=check.run)

    command = commands.add_parser("show", help="print the assembled tune of a lesson")
    command.add_argument("file", metavar="FILE")
    command.add_argument("--json", action="store_true", help="the tune as data")
    command.add_argument("--schema", action=PrintSchema, command="show")
    command.set_defaults(run=show.run)

    command = commands.add_parser("joins", help="rank the joins of a tune, with a tempo ladder")
    command.add_argument("file", metavar="FILE")
    command.add_argument("--json", action="store_true", help="the joins as data")
    command.set_defaults(run=joins.run)

    command = commands.add_parser("fit", help="say where licks may go in a form, and how well")
    command.add_argument("file", metavar="FILE", help="a lesson or a shelf")
    command.add_argument("licks", nargs="*", metavar="LICK", help="all of the file's if none")
    command.add_argument("--form", metavar="NAME",
                         help="a built-in form, or `all`; else the lesson's own")  # fmt: skip
    command.add_argument("--json", action="store_true", help="the table as data")
    command.set_defaults(run=fit.run)

    command = commands.add_parser("chords", help="say how a harp plays the chords of a form")
    command.add_argument("file", nargs="?", metavar="FILE", help="a lesson; or name the harp")
    command.add_argument("--harp", metavar="KEY", help="such as C, Bb or `low F`")
    command.add_argument("--position", metavar="Nth", help="1st to 12th (default: 2nd)")
    command.add_argument("--tuning", metavar="NAME", help="a built-in tuning")
    command.add_argument("--form", metavar="NAME", help="a built-in form")
    command.add_argument("--json", action="store_true", help="the table as data")
    command.set_defaults(run=chords.run)

    command = commands.add_parser("build", help="make the handouts")
    command.add_argument("paths", nargs="+", metavar="FILE|DIR")
    command.add_argument("--out", default="handouts", metavar="DIR",
                         help="where the handouts go (default: %(default)s)")  # fmt: skip
    command.add_argument("--page", choices=("A4", "Letter"), type=str.capitalize, default="A4",
                         help="paper size")  # fmt: skip
    command.set_defaults(run=build.run)
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
