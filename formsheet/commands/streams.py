"""Standard input, output and error: opened where they are closed, and given up where they fail."""

from __future__ import annotations

import io
import os
import sys
from contextlib import suppress
from typing import TextIO, cast


def prepare_streams() -> None:
    """Make the standard streams fit to be used, whatever this process was started with.

    A stream that is closed (`>&-`) is None in Python: it reads nothing, or writes nowhere. A
    character that the encoding of the output does not have is printed as its number, `\\u266d`.
    """
    sys.stdin = sys.stdin or _nowhere("r")
    sys.stdout = sys.stdout or _nowhere("w")
    sys.stderr = sys.stderr or _nowhere("w")
    if isinstance(sys.stdout, io.TextIOWrapper) and sys.stdout.errors == "strict":
        sys.stdout.reconfigure(errors="backslashreplace")


def _nowhere(mode: str) -> TextIO:
    return cast(TextIO, open(os.devnull, mode, encoding="utf-8"))


def flush_output() -> None:
    """Write what is still in the buffers; OSError where it cannot be written."""
    sys.stdout.flush()
    sys.stderr.flush()


def say_failed(sentence: str) -> None:
    """Say on standard error why the command ends, where anything can be said there."""
    try:
        print(f"formsheet: {sentence}", file=sys.stderr, flush=True)
    except OSError:
        give_up_output()


def details_file() -> str:
    """Write the traceback of the exception that is being handled to a file; returns its name."""
    import tempfile
    import traceback

    try:
        with tempfile.NamedTemporaryFile(
            "w", prefix="formsheet-", suffix=".txt", delete=False, encoding="utf-8"
        ) as file:
            file.write(traceback.format_exc())
    except OSError:
        traceback.print_exc()
        return "the lines above"
    return file.name


def give_up_output() -> None:
    """Discard what is still in the buffers of standard output and error.

    Python would write it once more at exit, fail, and report that in words of its own. See the
    note on SIGPIPE in the documentation of Python's `signal` module.
    """
    for stream in (sys.stdout, sys.stderr):
        with suppress(OSError):  # a stream in memory has no descriptor
            nowhere = os.open(os.devnull, os.O_WRONLY)
            os.dup2(nowhere, stream.fileno())
            os.close(nowhere)
