"""Tunings against what is published and what players know."""

from __future__ import annotations

import pytest

from formsheet.music.tunings import (
    COUNTRY,
    HARMONIC_MINOR,
    HOLES,
    NATURAL_MINOR,
    RICHTER,
    TUNINGS,
    Tuning,
)

# OEIS A291810, Wikipedia "Richter-tuned harmonica": semitones above hole 1 blow. From memory.
PUBLISHED_BLOW = (0, 4, 7, 12, 16, 19, 24, 28, 31, 36)
PUBLISHED_DRAW = (2, 7, 11, 14, 17, 21, 23, 26, 29, 33)


def notes(row: tuple[int, ...]) -> str:
    """A row of reeds as note names on a C harp."""
    names = ("C", "Db", "D", "Eb", "E", "F", "Gb", "G", "Ab", "A", "Bb", "B")
    return " ".join(names[reed % 12] for reed in row)


def test_richter_blow_as_published() -> None:
    assert RICHTER.blow == PUBLISHED_BLOW


def test_richter_draw_as_published() -> None:
    assert RICHTER.draw == PUBLISHED_DRAW


# Notes of a C harp. Richter: Wikipedia, as above, from memory. The others: common practice.
@pytest.mark.parametrize(
    ("tuning", "blow", "draw"),
    [(RICHTER, "C E G C E G C E G C", "D G B D F A B D F A"),
     (COUNTRY, "C E G C E G C E G C", "D G B D Gb A B D F A"),
     (NATURAL_MINOR, "C Eb G C Eb G C Eb G C", "D G Bb D F A Bb D F A"),
     (HARMONIC_MINOR, "C Eb G C Eb G C Eb G C", "D G B D F Ab B D F Ab")],
    ids=lambda value: getattr(value, "name", ""),
)  # fmt: skip
def test_notes_of_a_c_harp(tuning: Tuning, blow: str, draw: str) -> None:
    assert (notes(tuning.blow), notes(tuning.draw)) == (blow, draw)


@pytest.mark.parametrize("name", TUNINGS)
def test_every_tuning_has_ten_holes_and_goes_by_its_name(name: str) -> None:
    tuning = TUNINGS[name]
    assert (tuning.name, len(tuning.blow), len(tuning.draw)) == (name, HOLES, HOLES)


@pytest.mark.parametrize("name", TUNINGS)
def test_rows_rise_from_hole_to_hole(name: str) -> None:
    tuning = TUNINGS[name]
    assert (list(tuning.blow), list(tuning.draw)) == (sorted(tuning.blow), sorted(tuning.draw))


# On a C harp, the second-position home chord is 2 3 4 draw: G and its thirds. Common practice.
@pytest.mark.parametrize(
    ("tuning", "triad"),
    [(RICHTER, [0, 4, 7]), (COUNTRY, [0, 4, 7]), (NATURAL_MINOR, [0, 3, 7]),
     (HARMONIC_MINOR, [0, 4, 7])],
    ids=lambda value: getattr(value, "name", ""),
)  # fmt: skip
def test_home_chord_of_second_position(tuning: Tuning, triad: list[int]) -> None:
    assert [reed - tuning.draw[1] for reed in tuning.draw[1:4]] == triad
