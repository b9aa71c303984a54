"""The sweep itself: what it takes for a limit, what a step is, that every limit has a test.

Whether these tests fail when a limit moves is what `python -m tests.limits` finds out.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.limits import found
from tests.limits.found import Limit, limits, limits_of
from tests.limits.named import named_tests, slips

MODULE = '''"""A module."""

from fractions import Fraction

MOST, _LEAST = 8, 0.24  # two of them
STEP: Fraction = Fraction(1, 8)
TABLE = {"a": Row(1, False, deep=[20_000, *range(4)])}
WORD = f"{MOST + 1}"
NAMES = ("a", "b")
spare = 7


def least(first: int = 3) -> int:
    return first + 5
'''


@pytest.fixture
def of_module(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> list[Limit]:
    path = tmp_path / "judge" / "level.py"
    path.parent.mkdir()
    path.write_text(MODULE, encoding="utf-8")
    monkeypatch.setattr(found, "PACKAGE", tmp_path)
    return list(limits_of(path))


def test_numbers_of_constants_are_limits(of_module: list[Limit]) -> None:
    assert [(limit.name.rpartition(".")[2], limit.written) for limit in of_module] == [
        ("MOST", "8"), ("_LEAST", "0.24"), ("STEP", "8"),
        ("TABLE", "1"), ("TABLE", "False"), ("TABLE", "20_000"), ("TABLE", "4"),
    ]  # fmt: skip
    assert {limit.module for limit in of_module} == {"formsheet.judge.level"}


def test_a_step_alters_one_number(of_module: list[Limit]) -> None:
    least = of_module[1]
    assert least.source("0.25").decode() == MODULE.replace("0.24", "0.25")


@pytest.mark.parametrize(
    ("written", "steps"),
    [
        ("8", ["9", "7"]),
        ("20_000", ["20001", "19999"]),
        ("0.24", ["0.25", "0.23"]),
        ("0.1", ["0.11", "0.09"]),
        ("1.1", ["1.2", "1.0"]),
        ("134.0", ["144.0", "124.0"]),
        ("False", ["True"]),
    ],
)
def test_one_step(written: str, steps: list[str]) -> None:
    assert Limit("a.b.C", Path("c.py"), 1, 0, len(written), written).steps == steps


def test_what_each_level_is_asked_is_swept() -> None:
    assert [limit.written for limit in limits() if limit.name == "judge.level.LIMITS"] == [
        "1", "False", "False", "80", "2", "4", "0.24", "1.1", "0.5", "1", "0.3", "12", "5", "4",
        "3", "False", "False", "86", "3", "6", "0.15", "0.85", "0.4", "3", "0.2", "16", "10", "8",
        "3", "True", "True", "100", "5", "10", "0.1", "0.6", "0.3", "5", "0.14", "22", "14", "12",
    ]  # fmt: skip


def test_every_limit_has_a_test_and_every_mark_a_limit() -> None:
    assert slips(limits(), named_tests()) == []
