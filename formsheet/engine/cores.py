"""Helper processes, and work given to them in portions."""

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

AHEAD = 3  # portions a helper that wait for it, so that memory stays flat


def cores() -> int:
    """The cores that this process may use."""
    if hasattr(os, "sched_getaffinity"):
        return len(os.sched_getaffinity(0))
    return os.cpu_count() or 1


def helpers(workers: int, loaded: Sequence[str]) -> ProcessPoolExecutor:
    """Helpers that are forked from a clean process in which the modules named are loaded already.

    Not from this one: it may hold threads, and open files of its own.
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
    """What `function` makes of portions of the items, in their order, on all cores.

    On this one alone, one by one as they are made, where there is no more than a portion for each.
    Should a helper be ended from outside, the rest is made here. `loaded`: see `helpers`.
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
    owed: deque[Sequence[T]] = deque()  # given to helpers, not had back
    running: deque[Future[list[R]]] = deque()
    try:
        while True:
            for each in islice(portions, workers * AHEAD - len(owed)):
                owed.append(each)
                running.append(pool.submit(_all, function, each))
            if not owed:
                return
            results = running.popleft().result()
            owed.popleft()
            yield from results
    except BrokenExecutor:
        for each in (*owed, *portions):
            yield from function(each)
    finally:
        pool.shutdown(cancel_futures=True)


def _all(function: Callable[[Sequence[T]], Iterable[R]], portion: Sequence[T]) -> list[R]:
    return list(function(portion))
