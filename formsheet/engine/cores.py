"""Worker processes, and work given to them in portions."""

from __future__ import annotations

import os
from collections import deque
from collections.abc import Callable, Iterable, Iterator, Sequence
from itertools import islice
from typing import TYPE_CHECKING, TypeVar

if TYPE_CHECKING:
    from concurrent.futures import Future, ProcessPoolExecutor

T = TypeVar("T")
R = TypeVar("R")

AHEAD = 3  # portions queued for each worker: a limit that keeps memory flat


def cores() -> int:
    """The number of cores that this process may use, at least 1."""
    if hasattr(os, "sched_getaffinity"):
        return len(os.sched_getaffinity(0))
    return os.cpu_count() or 1


def helpers(workers: int, loaded: Sequence[str]) -> ProcessPoolExecutor:
    """A pool of worker processes, forked from a fork server that has imported `loaded`.

    They are not forked from this process, which may have threads and open files.
    """
    import multiprocessing
    from concurrent.futures import ProcessPoolExecutor

    from formsheet.engine.helper import begin

    way = "forkserver" if "forkserver" in multiprocessing.get_all_start_methods() else "spawn"
    context = multiprocessing.get_context(way)
    if way == "forkserver":
        context.set_forkserver_preload(list(loaded))
    return ProcessPoolExecutor(workers, context, initializer=begin)


def in_portions(
    function: Callable[[Sequence[T]], Iterable[R]],
    items: Sequence[T],
    *,
    portion: int,
    loaded: Sequence[str],
) -> Iterator[R]:
    """The results of `function` for portions of the items, in order, computed on all cores.

    Small inputs (at most one portion a core) run in this process. If a worker is killed, the rest
    runs in this process too. `portion` is a number of items; `loaded`: see `helpers`.
    """
    portions = (items[start : start + portion] for start in range(0, len(items), portion))
    workers = cores()
    if workers < 2 or len(items) <= portion * workers:
        for each in portions:
            yield from function(each)
    else:
        yield from _by_helpers(function, portions, workers, loaded)


def _by_helpers(
    function: Callable[[Sequence[T]], Iterable[R]],
    portions: Iterator[Sequence[T]],
    workers: int,
    loaded: Sequence[str],
) -> Iterator[R]:
    from concurrent.futures import BrokenExecutor

    pool = helpers(workers, loaded)
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
