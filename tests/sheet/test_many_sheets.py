"""Sheets of random lessons: a few here, any number by `python -m tests.sheet.many_sheets`."""

from __future__ import annotations

import pytest

from tests.helpers import examined
from tests.random_lessons import random_lesson
from tests.sheet.faults import faults
from tests.sheet.many_sheets import random_sheet

FEW = range(12)


@pytest.mark.parametrize("seed", FEW)
def test_a_random_sheet_has_no_fault(seed: int) -> None:
    sheet = random_sheet(seed)
    if sheet:
        assert list(faults(sheet)) == []


def test_most_random_lessons_are_in_order() -> None:
    """The others end a lick in a sounding note where a pick-up needs the room."""
    valid = sum(examined(random_lesson(seed)).in_order for seed in range(60))
    assert valid >= 30


def test_a_seed_gives_one_lesson() -> None:
    assert random_lesson(7) == random_lesson(7) != random_lesson(8)
