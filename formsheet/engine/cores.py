"""Worker processes, and work given to them in portions."""

from __future__ import annotations

import os
from collections import deque
from collections.abc import Callable, Iterable, Iterator, Sequence
from itertools import islice
from typing import TYPE_CHECKING, TypeAlias, TypeVar

if TYPE_CHECKING:
    from concurrent.futures import Future, ProcessPoolExecutor

T = TypeVar("T")
R = TypeVar("R")

#: Called with a sentence for the user if the work takes longer than it needs to.
Notify: TypeAlias = Callable[[str], None]

#: Where Linux keeps semaphores, without which processes cannot share a queue (sem_overview(7)).
_SEMAPHORES = "/dev/shm"
_FOR_EVERYONE = f"make it writable for everyone, as with `sudo chmod 1777 {_SEMAPHORES}`"
AHEAD = 3  # portions queued for each worker: a limit that keeps memory flat


def cores() -> int:
    """The number of cores that this process may use, at least 1."""
    if hasattr(os, "sched_getaffinity"):
        return len(os.sched_getaffinity(0))
    return os.cpu_count() or 1


class NoHelpers(Exception):
    """No worker process can be started on this system; the text has the reason and a remedy."""


def silent(sentence: str) -> None:
    """Ignore a sentence."""


def helpers(workers: int, loaded: Sequence[str]) -> ProcessPoolExecutor:
    """A pool of worker processes, forked from a fork server that has imported `loaded`.

    They are not forked from this process, which may have threads and open files. NoHelpers if a
    folder that the processes share cannot be written to.
    """
    import multiprocessing
    import tempfile
    from concurrent.futures import ProcessPoolExecutor

    from formsheet.engine.helper import begin

    way = "forkserver" if "forkserver" in multiprocessing.get_all_start_methods() else "spawn"
    context = multiprocessing.get_context(way)
    if way == "forkserver":
        context.set_forkserver_preload(list(loaded))
    try:
        pool = ProcessPoolExecutor(workers, context, initializer=begin)
    except (OSError, NotImplementedError) as caught:
        raise _no_helpers(_SEMAPHORES, caught, _FOR_EVERYONE) from caught
    try:
        pool.submit(int)  # starts the workers, which connect to a socket in the temporary folder
    except OSError as caught:
        pool.shutdown(wait=False)
        remedy = "set TMPDIR to a folder with a short path that you may write to"
        raise _no_helpers(tempfile.gettempdir(), caught, remedy) from caught
    return pool


def _no_helpers(folder: str, caught: Exception, remedy: str) -> NoHelpers:
    reason = getattr(caught, "strerror", None) or str(caught)
    return NoHelpers(
        f"only one core is used, since processes cannot share the folder {folder} ({reason}); "
        f"to use all cores, {remedy}"
    )


def in_portions(
    function: Callable[[Sequence[T]], Iterable[R]],
    items: Sequence[T],
    *,
    portion: int,
    loaded: Sequence[str],
    notify: Notify = silent,
) -> Iterator[R]:
    """The results of `function` for portions of the items, in order, computed on all cores.

    Small inputs (at most one portion a core) run in this process. If a worker is killed, the rest
    runs in this process too; if none can be started, all of it does, and `notify` is called with
    the reason. `portion` is a number of items; `loaded`: see `helpers`.
    """
    portions = (items[start : start + portion] for start in range(0, len(items), portion))
    workers = cores()
    if workers < 2 or len(items) <= portion * workers:
        pool = None
    else:
        try:
            pool = helpers(workers, loaded)
        except NoHelpers as caught:
            pool = None
            notify(str(caught))
    if pool:
        yield from _by_helpers(function, portions, workers, pool)
    else:
        for each in portions:
            yield from function(each)


def _by_helpers(
    function: Callable[[Sequence[T]], Iterable[R]],
    portions: Iterator[Sequence[T]],
    workers: int,
    pool: ProcessPoolExecutor,
) -> Iterator[R]:
    from concurrent.futures import BrokenExecutor

    pending: deque[Sequence[T]] = deque()  # given to workers, results not yet read
    running: deque[Future[list[R]]] = deque()
    try:
        while True:
            for each in islice(portions, workers * AHEAD - len(pending)):
                pending.append(each)
                running.append(pool.submit(_all, function, each))
            if not pending:
                return
            results = running.popleft().result()
            pending.popleft()
            yield from results
    except BrokenExecutor:
        for each in (*pending, *portions):
            yield from function(each)
    finally:
        pool.shutdown(cancel_futures=True)


def _all(function: Callable[[Sequence[T]], Iterable[R]], portion: Sequence[T]) -> list[R]:
    return list(function(portion))
