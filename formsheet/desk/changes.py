"""Changes of the lessons folder as they happen, in batches."""

from __future__ import annotations

import os
from collections.abc import Callable, Iterator
from pathlib import Path
from threading import Event

#: Milliseconds without another change that end a batch, and the longest duration of a batch.
_QUIET, _LONGEST = 15, 120
#: Interval in milliseconds of the check that the folder itself still exists.
_LOOK_UP = 500

#: Changed paths, links resolved. None: the folder does not exist. Empty: scan the whole folder.
Batch = frozenset[str] | None


def batches(home: Path, stop: Event) -> Iterator[Batch]:
    """Yield the changes below a folder until `stop` is set.

    An empty batch asks for a scan of the whole folder: before and after the system's watch starts,
    also when a removed folder is back. If the system's watch fails (too many folders, a name that
    is not valid text), empty batches are sent at intervals instead.
    """
    from watchfiles import watch

    while not stop.is_set():
        root = os.path.realpath(home)
        number = _number(root)
        if number is None:
            yield None
            _wait_for(root, stop)
            continue
        try:
            found = watch(
                root,
                watch_filter=None,  # folders matter too; the caller filters
                step=_QUIET,
                debounce=_LONGEST,
                rust_timeout=_LOOK_UP,
                yield_on_timeout=True,
                stop_event=stop,
                raise_interrupt=False,
                ignore_permission_denied=True,
            )
            yield frozenset()
            for round_number, changes in enumerate(found):
                if _number(root) != number:
                    break
                if changes or not round_number:
                    yield frozenset(path for _, path in changes)
        except FileNotFoundError:
            continue
        except (OSError, RuntimeError):
            yield frozenset()
            stop.wait(_LOOK_UP / 1000)


def feed(home: Path, stop: Event, take: Callable[[Batch], None]) -> None:
    """Pass every batch to `take`; runs in its own thread."""
    for batch in batches(home, stop):
        take(batch)


def _number(folder: str) -> tuple[int, int] | None:
    """Device and inode of a folder: they differ if another folder has taken its name."""
    try:
        found = os.stat(folder)
    except OSError:
        return None
    return found.st_dev, found.st_ino


def _wait_for(folder: str, stop: Event) -> None:
    while not os.path.isdir(folder) and not stop.wait(_LOOK_UP / 1000):
        pass
