"""The command line."""

from __future__ import annotations

import argparse
import atexit
import gc
import sys
from collections.abc import Sequence
from functools import partial
from importlib import import_module

from formsheet import __version__
from formsheet.commands.examples import add_examples
from formsheet.commands.files import CLOSED_EARLY, EXITS, INTERRUPTED, USAGE, UsageError
from formsheet.commands.help import FIRST_PAGE
from formsheet.commands.streams import flush_output, give_up_output, prepare_streams, say_failed

#: In the order of the day: begin, look, understand, make. Each is a module in `commands/`, which is
#: imported only when it is called or when help is asked for.
COMMANDS = (
    "new", "check", "show", "joins", "fit", "chords", "uses", "retab", "recast", "tab", "tidy",
    "build", "watch", "explain", "completion", "reference", "help",
)  # fmt: skip

#: New objects after which Python looks for unreachable circles. Its own number is 700; a lesson
#: makes thousands of objects, few of them in circles, and so does the import of a library.
_NEW_OBJECTS = 50_000


def _parser(called: Sequence[str]) -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        prog="formsheet",
        description="From a plain-text harmonica lesson to a handout a student can learn from.",
        epilog="Exit status: " + "; ".join(f"{status} {says}" for status, says in EXITS.items()),
    )
    parser.add_argument("--version", action="version", version=f"formsheet {__version__}")
    commands = parser.add_subparsers(required=True, metavar="COMMAND")
    for name in called:
        import_module(f"formsheet.commands.{name}").add(commands)
    add_examples(commands)
    parser.set_defaults(whole_parser=partial(_parser, COMMANDS))
    return parser


def main(argv: Sequence[str] | None = None) -> int:
    """Run a command; returns the exit status."""
    gc.set_threshold(_NEW_OBJECTS)
    atexit.register(gc.freeze)  # no last look through all that goes with the process anyway
    prepare_streams()
    try:
        try:
            return _run(sys.argv[1:] if argv is None else argv)
        finally:  # also after --help, which raises SystemExit
            flush_output()
    except UsageError as caught:
        say_failed(str(caught))
        return USAGE
    except BrokenPipeError:  # `head` has read enough
        give_up_output()
        return CLOSED_EARLY
    except KeyboardInterrupt:
        return INTERRUPTED
    except OSError as caught:
        if caught.filename:  # a folder that may not be written to
            say_failed(f"{caught.filename}: {caught.strerror}")
        else:
            say_failed(f"the output cannot be written: {caught.strerror or caught}")
            give_up_output()
        return USAGE


def _run(words: Sequence[str]) -> int:
    """Parse the command line and run the command that it names."""
    if not words:
        print(FIRST_PAGE, end="", file=sys.stderr)
        return USAGE
    parser = _parser([words[0]] if words and words[0] in COMMANDS else COMMANDS)
    arguments, others = parser.parse_known_args(words)
    if hasattr(arguments, "licks"):  # names may stand after the options too
        arguments.licks += [word for word in others if not word.startswith("-")]
        others = [word for word in others if word.startswith("-")]
    if others:
        parser.error(f"unrecognized arguments: {' '.join(others)}")
    status: int = arguments.run(arguments)
    return status


if __name__ == "__main__":
    sys.exit(main())
