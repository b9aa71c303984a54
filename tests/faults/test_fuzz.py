"""A few of the altered lessons; `python -m tests.faults.fuzz` does as many as wanted."""

from __future__ import annotations

import pytest

from formsheet.lesson.shelves import Shelves
from formsheet.stages import examine_file
from tests.faults import trying
from tests.faults.fuzz import batch
from tests.faults.seeds import SHORT
from tests.faults.trying import Kind, tried


def test_altered_lessons_raise_nothing_and_end_soon() -> None:
    failures, tries = batch(seed=11, count=400)
    assert [failure.reason for failure in failures] == []
    assert set(tries) == set(Kind)


@pytest.mark.parametrize("kind", Kind)
def test_a_failure_would_be_seen(kind: Kind) -> None:
    reason = tried(kind, None)  # type: ignore[arg-type]
    assert reason
    assert "Error" in reason


def test_an_input_that_takes_long_would_be_seen(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(trying, "LONGEST_S", 0.0)
    text = (SHORT / "endings.lesson").read_text(encoding="utf-8")
    reason = [tried(Kind.LESSON, text) for _ in range(20)]  # the clock may be coarse
    assert any(each and each.startswith("took") for each in reason)


@pytest.mark.parametrize("path", sorted(SHORT.rglob("*.l*")), ids=lambda path: path.stem)
def test_what_it_begins_with_is_in_order(path: object) -> None:
    assert isinstance(path, type(SHORT))
    each = examine_file(path, path.name, Shelves(SHORT))
    assert [p.code for p in each.problems if p.severity > 1] == []
