"""Titles of choruses of any length: one line, then smaller, then two lines."""

from __future__ import annotations

from formsheet.sheet.draw.chorus_title import HEIGHT, set_title
from formsheet.sheet.draw.metrics import Font, width

ROOM = 270.0  # mm


def test_it_fits_and_gets_smaller_as_it_gets_longer() -> None:
    titles = ["orchard gate " * words for words in range(1, 40, 3)]
    found = [set_title(title, "", ROOM) for title in titles]
    assert [each.size for each in found] == sorted((each.size for each in found), reverse=True)
    for title, each in zip(titles, found, strict=True):
        assert width(title, Font("bold", each.size)) <= each.lines * ROOM
        assert each.lines == (1 if each.size >= 10 else 2)
    assert {each.lines for each in found} == {1, 2}


def test_a_long_note_counts_too() -> None:
    alone, noted = (set_title("orchard gate " * 9, note, ROOM) for note in ("", "the last " * 9))
    assert noted.size < alone.size


def test_it_takes_the_same_height() -> None:
    assert {set_title("gate " * n, "", ROOM).leading * set_title("gate " * n, "", ROOM).lines
            for n in (1, 50, 99)} == {HEIGHT}  # fmt: skip
