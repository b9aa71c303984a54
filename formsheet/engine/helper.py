"""Set-up of a worker process: it ends with the command that started it and ignores Ctrl-C."""

from __future__ import annotations

import os
import signal
from multiprocessing import connection, parent_process
from threading import Thread


def begin() -> None:
    """Set up this worker."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    Thread(target=_end_with_the_command, daemon=True).start()


def _end_with_the_command() -> None:
    """Exit when the parent ends. Without this a worker of a killed command would wait for ever."""
    parent = parent_process()
    if parent is not None:
        connection.wait([parent.sentinel])
        os._exit(1)
