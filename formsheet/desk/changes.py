"""Changes of the lessons folder, as they happen, told in batches."""

from __future__ import annotations

import os
from collections.abc import Callable, Iterator
from pathlib import Path
from threading import Event

#: Milliseconds without another change that end a batch, and the longest that one is gathered.
_QUIET, _LONGEST = 15, 120
#: Milliseconds after which it is seen whether the folder itself is still there.
_LOOK_UP = 500

#: The paths that have changed, without links; None: the folder is not there. Empty: look at all.
Batch = frozenset[str] | None


def batches(home: Path, stop: Event) -> Iterator[Batch]:
    """What changes below a folder until `stop` is set.

    An empty batch asks for a look at the whole folder: when the watch is about to begin, when it
    has begun, and the same where a folder that had gone is back. Where the system's own watch fails
    (too many folders for it, a name that is no text), they come again and again in its stead.
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
                watch_filter=None,  # folders count too, and what counts is known elsewhere
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
    """Hand on every batch; for a thread of its own."""
    for batch in batches(home, stop):
        take(batch)


def _number(folder: str) -> tuple[int, int] | None:
    """What tells a folder from another one that has taken its name."""
    try:
        found = os.stat(folder)
    except OSError:
        return None
    return found.st_dev, found.st_ino


def _wait_for(folder: str, stop: Event) -> None:
    while not os.path.isdir(folder) and not stop.wait(_LOOK_UP / 1000):
        pass
