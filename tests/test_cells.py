"""How wide a text stands in a face of one width."""

from __future__ import annotations

import unicodedata

import pytest

from formsheet.cells import cells, filled


@pytest.mark.parametrize(
    ("text", "width"),
    [
        ("", 0),
        ("3d''", 4),
        ("Grüße", 5),
        ("ブルース", 8),  # wide, as Unicode Standard Annex 11 has it
        ("\uff21", 2),  # fullwidth A
        ("\uff71", 1),  # halfwidth katakana
        ("e\u0301", 1),  # an accent of its own
        ("か\u3099", 2),  # a voicing mark of its own, which is wide by itself
        ("\u0e01\u0e31", 1),  # a Thai vowel above
        ("a\u20dd", 1),  # an enclosing circle
        ("a\u200db", 2),  # a joiner
    ],
)
def test_cells(text: str, width: int) -> None:
    assert cells(text) == width


@pytest.mark.parametrize("text", ["Grüße", "が", "é", "Ångström"])
def test_a_letter_in_two_signs_is_as_wide_as_in_one(text: str) -> None:
    apart = unicodedata.normalize("NFD", text)
    assert len(apart) > len(text)
    assert cells(apart) == cells(text)


def test_filled() -> None:
    assert filled("幅", 4) == "幅  "
    assert filled("幅", 4, right=True) == "  幅"
    assert filled("e\u0301", 3) == "e\u0301  "
    assert filled("long", 2) == "long"
