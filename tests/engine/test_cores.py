"""Work in portions on all cores: in order, and what goes wrong in a helper is seen."""

from __future__ import annotations

import errno
import os
import signal
from collections.abc import Sequence
from multiprocessing import parent_process

import pytest

from formsheet.engine import cores
from formsheet.engine.cores import in_portions


def with_process(numbers: Sequence[int]) -> list[tuple[int, int]]:
    return [(number, os.getpid()) for number in numbers]


def failing(numbers: Sequence[int]) -> list[int]:
    return [1 // (7 - number) for number in numbers]


@pytest.fixture(autouse=True)
def _two_cores(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(cores, "cores", lambda: 2)


def test_results_are_in_order_and_from_helpers() -> None:
    found = list(in_portions(with_process, range(50), portion=4, loaded=[]))
    assert [number for number, _ in found] == list(range(50))
    processes = {process for _, process in found}
    assert os.getpid() not in processes
    assert len(processes) <= 2


def test_little_work_needs_no_helper() -> None:
    found = list(in_portions(with_process, range(8), portion=4, loaded=[]))
    assert found == [(number, os.getpid()) for number in range(8)]


def test_a_mistake_in_a_helper_is_raised_here() -> None:
    with pytest.raises(ZeroDivisionError):
        list(in_portions(failing, range(40), portion=4, loaded=[]))


def test_helpers_end_where_no_more_is_wanted() -> None:
    results = in_portions(with_process, range(400), portion=4, loaded=[])
    _, process = next(results)
    results.close()  # type: ignore[attr-defined]
    with pytest.raises(ProcessLookupError):
        os.kill(process, 0)


def ended_at_thirty(numbers: Sequence[int]) -> list[int]:
    if 30 in numbers and parent_process() is not None:
        os.kill(os.getpid(), signal.SIGKILL)
    return list(numbers)


def test_what_a_killed_helper_owed_is_made_here() -> None:
    assert list(in_portions(ended_at_thirty, range(100), portion=4, loaded=[])) == [*range(100)]


# ---- Where no helper can be started --------------------------------------------------------------


def test_semaphores_that_cannot_be_made(monkeypatch: pytest.MonkeyPatch) -> None:
    """As where /dev/shm may be written by the system alone."""

    def refused(*_: object, **__: object) -> None:
        raise PermissionError(errno.EACCES, os.strerror(errno.EACCES))

    monkeypatch.setattr("multiprocessing.synchronize.SemLock.__init__", refused)
    sentences: list[str] = []
    found = list(
        in_portions(with_process, range(50), portion=4, loaded=[], notify=sentences.append)
    )
    assert found == [(number, os.getpid()) for number in range(50)]
    assert sentences == [
        "only one core is used, since processes cannot share the folder /dev/shm (Permission "
        "denied); to use all cores, make it writable for everyone, as with "
        "`sudo chmod 1777 /dev/shm`"
    ]
