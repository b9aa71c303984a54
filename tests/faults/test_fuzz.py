"""A few of the altered lessons; `python -m tests.faults.fuzz` does as many as wanted."""

from __future__ import annotations

from tests.faults.fuzz import batch, checked


def test_altered_lessons_raise_nothing_and_end_soon() -> None:
    assert [failure.reason for failure in batch(seed=11, count=150)] == []


def test_a_failure_would_be_seen() -> None:
    reason = checked(None)  # type: ignore[arg-type]
    assert reason
    assert "Error" in reason
