"""Helper processes, and work given to them in portions."""

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

#: Called with one sentence, where the user should know that the work takes longer than it need.
Notify: TypeAlias = Callable[[str], None]

#: Where Linux keeps semaphores, without which processes cannot share a queue (sem_overview(7)).
_SEMAPHORES = "/dev/shm"
_FOR_EVERYONE = f"make it writable for everyone, as with `sudo chmod 1777 {_SEMAPHORES}`"
AHEAD = 3  # portions a helper that wait for it, so that memory stays flat


def cores() -> int:
    """The cores that this process may use."""
    if hasattr(os, "sched_getaffinity"):
        return len(os.sched_getaffinity(0))
    return os.cpu_count() or 1


class NoHelpers(Exception):
    """This system does not let helpers be started; the text says why, and what to do."""


def silent(sentence: str) -> None:
    """Notify nobody."""


def helpers(workers: int, loaded: Sequence[str]) -> ProcessPoolExecutor:
    """Helpers that are forked from a clean process in which the modules named are loaded already.

    Not from this one: it may hold threads, and open files of its own. NoHelpers where a folder
    that processes need in common cannot be written to.
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
        pool.submit(int)  # starts them: they meet at a socket in the temporary folder
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
    """What `function` makes of portions of the items, in their order, on all cores.

    On this one alone, one by one as they are made, where there is no more than a portion for each.
    Should a helper be ended from outside, the rest is made here; all of it where no helper can be
    started, and `notify` is given the reason. `loaded`: see `helpers`.
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
