"""Sheets of random lessons: a few here, any number by `python -m tests.sheet.many_sheets`."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import pytest

from formsheet.sheet.options import Options
from formsheet.sheet.view import Chorus
from tests.helpers import examined
from tests.random_lessons import random_lesson
from tests.sheet.faults import faults, leaf
from tests.sheet.gallery import gallery_sheet
from tests.sheet.many_sheets import (
    SHARES,
    has,
    is_roomy,
    keeps_together,
    needs_pages,
    options_of,
    own_bars,
    random_sheet,
    shares,
)

FEW = range(16)
SETTINGS = ("portrait letter", "light letters", "large", "arrows", "signs portrait light")
COUNTED = range(100)


@pytest.mark.parametrize("seed", FEW)
def test_a_random_sheet_has_no_fault(seed: int) -> None:
    sheet = random_sheet(seed)
    if sheet:
        assert list(faults(sheet)) == []


@pytest.mark.parametrize("words", SETTINGS)
@pytest.mark.parametrize("seed", [100, 101, 102])
def test_nor_has_it_in_another_setting(seed: int, words: str) -> None:
    sheet = random_sheet(seed)
    if sheet:
        assert list(faults(sheet, options_of(words.split()))) == []


def test_most_random_lessons_are_in_order() -> None:
    """The others end a lick in a sounding note where a pick-up needs the room."""
    valid = sum(examined(random_lesson(seed)).in_order for seed in range(60))
    assert valid >= 30


def test_a_seed_gives_one_lesson() -> None:
    assert random_lesson(7) == random_lesson(7) != random_lesson(8)


@cache
def counted() -> dict[str, float]:
    return shares(sheet for seed in COUNTED if (sheet := random_sheet(seed)))


@pytest.mark.parametrize("name", SHARES)
def test_the_generator_has_not_become_easier(name: str) -> None:
    assert counted()[name] >= SHARES[name]


def test_lessons_that_need_no_second_page_keep_each_chorus_on_one() -> None:
    """Our own choice: 95 in 100 of those with room enough."""
    sheets = [sheet for seed in COUNTED if (sheet := random_sheet(seed))]
    roomy = [sheet for sheet in sheets if is_roomy(sheet) and not needs_pages(sheet)]
    assert len(roomy) >= 10
    whole = sum(keeps_together(leaf(sheet)) for sheet in roomy)
    assert 100 * whole >= 95 * len(roomy)


def test_what_a_sheet_has_is_read_from_its_bars() -> None:
    assert {"hole 10", "bends", "sixteenths", "blocks"} <= set(has(gallery_sheet("hole-ten")))
    assert "splits" not in set(has(gallery_sheet("hole-ten")))
    assert {"12/8"} <= set(has(gallery_sheet("compound")))
    assert "pick-ups" in set(has(gallery_sheet("pickup")))
    assert {"triplets"} <= set(has(gallery_sheet("triplets")))
    assert {"techniques", "syllables"} <= set(has(gallery_sheet("techniques")))
    assert "last times" in set(has(gallery_sheet("last-bars")))
    assert set(has(gallery_sheet("eight"))) == {"bends"}


def test_room_is_12_onsets_a_bar_and_16_bars() -> None:
    sheet = gallery_sheet("sixteen")
    assert is_roomy(sheet)
    assert not is_roomy(gallery_sheet("twenty-four"))
    assert not is_roomy(gallery_sheet("sixteen-dense"))
    (chorus,) = sheet.choruses
    longer = Chorus("", "", (*chorus.lines, chorus.lines[0][:1]))
    assert len(own_bars(longer)) == 17
    assert not is_roomy(replace(sheet, choruses=(longer,)))


def test_a_broken_chorus_is_seen() -> None:
    assert keeps_together(leaf(gallery_sheet("common")))
    assert not keeps_together(leaf(gallery_sheet("sixteen-dense")))


def test_options_of_the_command_line() -> None:
    assert options_of([]) == Options()
    made = options_of(["20", "portrait", "letter", "light", "large", "signs"])
    assert (made.page_size, made.light, made.large) == ("Letter portrait", True, True)
    assert made.marks.name == "signs"
