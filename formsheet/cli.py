"""The command line."""

from __future__ import annotations

import atexit
import gc
import sys
from collections.abc import Sequence

#: Number of new objects after which Python collects reference cycles. The default is 700; a lesson
#: and the import of a library make thousands of objects, few of them in cycles.
_NEW_OBJECTS = 50_000


def main(argv: Sequence[str] | None = None) -> int:
    """Run a command; returns the exit status."""
    gc.set_threshold(_NEW_OBJECTS)
    atexit.register(gc.freeze)  # skip the collection at exit
    from formsheet.commands.command_line import run_command  # its imports are objects too

    return run_command(sys.argv[1:] if argv is None else argv)


if __name__ == "__main__":
    sys.exit(main())
