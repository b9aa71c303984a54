"""The command line: one command run, and its failures said in a sentence."""

from __future__ import annotations

import sys
from collections.abc import Sequence

from formsheet.commands.files import CLOSED_EARLY, FAILED, INTERRUPTED, USAGE, UsageError
from formsheet.commands.parser import COMMANDS, all_declared, declared, parsed, whole_parser
from formsheet.commands.streams import (
    details_file,
    flush_output,
    give_up_output,
    prepare_streams,
    say_failed,
)


def run_command(words: Sequence[str]) -> int:
    """Run a command; returns the exit status."""
    prepare_streams()
    try:
        try:
            return _run(words)
        finally:  # also after --help, which raises SystemExit
            flush_output()
    except UsageError as caught:
        from formsheet.commands.slips import explained

        say_failed(explained(words, str(caught)))
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
    except Exception as caught:  # a bug: the teacher gets a sentence, the details go into a file
        say_failed(
            f"formsheet itself has failed ({type(caught).__name__}); your files are not the cause. "
            f"Please send {details_file()} to whoever looks after it"
        )
        return FAILED


def _run(words: Sequence[str]) -> int:
    """Parse the command line and run the command that it names."""
    if not words:
        from formsheet.commands.help import FIRST_PAGE

        print(FIRST_PAGE, end="", file=sys.stderr)
        return USAGE
    if words[0] in COMMANDS:
        arguments = parsed(declared(words[0]), words[1:])
    elif words[0].startswith("-"):
        arguments = whole_parser(all_declared()).parse_args(words)
    else:
        raise UsageError(f"{words[0]} is not a command")
    status: int = arguments.run(arguments)
    return status
