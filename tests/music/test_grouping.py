"""Beams and triplet brackets: which marks belong together."""

from __future__ import annotations

import re
from fractions import Fraction as F

from formsheet.music.grouping import beams, second_beams, triplets
from formsheet.sheet.view import HoleMark, Mark

LENGTHS = {"w": F(4), "h": F(2), "q": F(1), "e": F(1, 2), "s": F(1, 4)}


def marks(text: str) -> list[Mark]:
    """Marks from a bar line on: values, then notes, rests (`-`) and holds (`=`)."""
    made: list[Mark] = []
    onset, value, dots, triplet = F(0), "q", 0, False
    for word in text.split():
        if found := re.fullmatch(r"([whqes])(\.*)(3?)", word):
            value, dots, triplet = found[1], len(found[2]), bool(found[3])
            continue
        length = LENGTHS[value] * (2 - F(1, 2**dots)) * (F(2, 3) if triplet else 1)
        tab = None if word in "-=" else HoleMark((int(word[0]),), word[1] == "d")
        made.append(Mark(onset, length, value, dots, triplet, tab, hold=word == "="))
        onset += length
    return made


def test_beams_keep_inside_a_quarter() -> None:
    assert beams(marks("e 4d 4d 4d 4d"), F(1)) == [[0, 1], [2, 3]]


def test_beams_keep_inside_a_dotted_quarter() -> None:
    assert beams(marks("e 4d 4d 4d 4d 4d 4d"), F(3, 2)) == [[0, 1, 2], [3, 4, 5]]


def test_a_rest_or_a_quarter_parts_a_beam() -> None:
    assert beams(marks("s 4d - 4d 4d q 4d"), F(1)) == [[2, 3]]


def test_off_beat_eighths_are_not_beamed_over_the_beat() -> None:
    assert beams(marks("e 4d q 4d e 4d"), F(1)) == []


def test_a_held_eighth_is_beamed() -> None:
    assert beams(marks("e 4d ="), F(1)) == [[0, 1]]


def test_sixteenths_share_a_second_beam_or_have_a_stub() -> None:
    written = marks("e 4d s 4d 4d e. 4d s 4d s 4d e 4d s 4d")
    groups = beams(written, F(1))
    assert [second_beams(group, written) for group in groups] == [
        [(1, 2)],
        [(4, 4)],
        [(5, 5), (7, 7)],
    ]


def test_triplet_brackets_close_when_the_time_comes_out_even() -> None:
    assert triplets(marks("e3 4d 4d 4d 4d - 4d q3 4d e3 4d q 4d")) == [(0, 2), (3, 5), (6, 7)]
    assert triplets(marks("q3 4d 4d 4d s3 4d 4d 4d")) == [(0, 2), (3, 5)]
    assert triplets(marks("e 4d 4d")) == []


def test_a_triplet_bracket_that_is_not_full_closes_at_the_end() -> None:
    assert triplets(marks("e3 4d 4d")) == [(0, 1)]
    assert triplets(marks("e3 4d 4d q 4d")) == [(0, 1)]
