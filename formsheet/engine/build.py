"""Make the stale targets of a plan, on several cores where that is faster."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from time import time_ns
from typing import TYPE_CHECKING

from formsheet.engine.cores import AHEAD, NoHelpers, Notify, cores, helpers, silent
from formsheet.engine.event import Event, Outcome
from formsheet.engine.plan import Plan
from formsheet.engine.target import Target
from formsheet.engine.tool import Tool

if TYPE_CHECKING:
    from concurrent.futures import Future, ProcessPoolExecutor

_FEW = 4  # stale targets from which on starting worker processes pays
#: Modules that the fork server imports once for all workers, by part.
_HEAVY = {"sheet": "formsheet.sheet.setter", "clips": "numpy"}


def build(
    plan: Plan,
    tool: Tool,
    *,
    jobs: int | None = None,
    again: bool = False,
    notify: Notify = silent,
) -> Iterator[Event]:
    """Make the stale targets of a plan; yields one event a target as it is finished.

    `jobs` is the number of worker processes (default: one per core). `again` makes all parts,
    stale or not. A failure of one target is an event and does not stop the others. If no worker
    can be started, this process makes everything, and `notify` is called with the reason.
    """
    if not plan.stale:
        return
    workers = min(jobs or cores(), len(plan.stale))
    if workers > 1 and len(plan.stale) >= _FEW:
        parts = {part for target in plan.stale for part in target.parts}
        heavy = [_HEAVY[part] for part in _HEAVY if part in parts]
        try:
            pool = helpers(workers, ["formsheet.engine.make", *heavy])
        except NoHelpers as caught:
            notify(str(caught))
        else:
            yield from _build_on_cores(plan.stale, tool, pool, workers, again)
            return
    from formsheet.engine.make import make

    started_ns = time_ns()
    for target in plan.stale:
        yield make(target, tool, started_ns=started_ns, again=again)


def _build_on_cores(
    targets: Sequence[Target], tool: Tool, pool: ProcessPoolExecutor, workers: int, again: bool
) -> Iterator[Event]:
    from concurrent.futures import FIRST_COMPLETED, wait

    from formsheet.engine.make import make

    _ = tool.seen, tool.digest  # computed once here, not in each worker
    started_ns = time_ns()
    waiting = iter(targets)
    running: dict[Future[Event], Target] = {}
    try:
        while True:
            while len(running) < workers * AHEAD and (target := next(waiting, None)):
                future = pool.submit(make, target, tool, started_ns=started_ns, again=again)
                running[future] = target
            if not running:
                return
            for future in wait(running, return_when=FIRST_COMPLETED).done:
                yield _event(future, running.pop(future))
    finally:
        pool.shutdown(cancel_futures=True)


def _event(future: Future[Event], target: Target) -> Event:
    from concurrent.futures import BrokenExecutor

    try:
        return future.result()
    except BrokenExecutor:
        return Event(target, Outcome.FAILED, reason="the worker process was killed")
