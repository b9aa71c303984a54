"""The command line."""

from __future__ import annotations

import atexit
import gc
import sys
from collections.abc import Sequence

from formsheet.commands.files import FINE, INTERRUPTED, USAGE, UsageError
from formsheet.commands.parser import COMMANDS, all_declared, declared, parser_of, whole_parser

#: New objects after which Python looks for unreachable circles. Its own number is 700; a lesson
#: makes thousands of objects, few of them in circles, and so does the import of a library.
_NEW_OBJECTS = 50_000


def main(argv: Sequence[str] | None = None) -> int:
    """Run a command; returns the exit status."""
    gc.set_threshold(_NEW_OBJECTS)
    atexit.register(gc.freeze)  # no last look through all that goes with the process anyway
    words = sys.argv[1:] if argv is None else argv
    if words and words[0] in COMMANDS:
        parser, words = parser_of(declared(words[0])), words[1:]
    else:
        parser = whole_parser(all_declared())
    arguments, others = parser.parse_known_args(words)
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
    except KeyboardInterrupt:
        return INTERRUPTED
    except OSError as caught:  # a full disk, a folder that may not be written to
        print(f"formsheet: {caught.filename or 'output'}: {caught.strerror}", file=sys.stderr)
        return USAGE
    return status


if __name__ == "__main__":
    sys.exit(main())
