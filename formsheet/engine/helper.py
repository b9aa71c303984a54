"""How a helper process behaves: it ends with the command that it helps, and leaves Ctrl-C to it."""

from __future__ import annotations

import os
import signal
from multiprocessing import connection, parent_process
from threading import Thread


def begin() -> None:
    """Set up this helper."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    Thread(target=_end_with_the_command, daemon=True).start()


def _end_with_the_command() -> None:
    """Without this a helper would wait for ever for work from a command that was killed."""
    parent = parent_process()
    if parent is not None:
        connection.wait([parent.sentinel])
        os._exit(1)
