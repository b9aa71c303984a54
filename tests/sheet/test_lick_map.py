"""The comb of the lick map: where its teeth stand and where its line runs."""

from __future__ import annotations

from formsheet.sheet.draw.lick_map import THICK, THIN, TOOTH, comb_words, lick_comb
from formsheet.sheet.view import MapCell


def test_a_tooth_at_each_bar_is_thick_where_a_lick_begins() -> None:
    row = (MapCell("1-4", "a", "× 2", 0, 4, begins=(0, 2)),)
    comb = lick_comb(row, across=4, width=80)
    assert (comb.width, comb.height) == (80, TOOTH)
    assert teeth(comb.fills) == [(0, THICK), (20, THIN), (40, THICK), (60, THIN)]
    assert lines(comb.fills) == [(0, 80, THIN)]


def test_bars_that_differ_have_a_thick_line_and_bars_left_out_have_none() -> None:
    row = (
        MapCell("10", "rest", "", 1, 1, begins=(), changed=True),
        MapCell("11-12", "home", "", 2, 2),
    )
    comb = lick_comb(row, across=4, width=80)
    assert teeth(comb.fills) == [(20, THIN), (40, THICK), (60, THIN)]
    assert lines(comb.fills) == [(20, 20, THICK), (40, 40, THIN)]
    assert comb_words(row) == "bar 10, not as in the first chorus; bars 11-12"


def rectangles(fills: list[str]) -> list[tuple[float, float, float, float]]:
    """Left, top, width and height of each filled rectangle."""
    found = []
    for path in fills:
        place, rest = path.removeprefix("M").split("h", 1)
        wide, high = rest.split("h", 1)[0].split("v")
        left, top = place.split()
        found.append((float(left), float(top), float(wide), float(high)))
    return found


def teeth(fills: list[str]) -> list[tuple[float, float]]:
    """The left edge and the width of each tooth: they are as high as the comb."""
    return [(left, wide) for left, _, wide, high in rectangles(fills) if high == TOOTH]


def lines(fills: list[str]) -> list[tuple[float, float, float]]:
    """The left edge, length and weight of each line: they lie at the foot of the comb."""
    found = [each for each in rectangles(fills) if each[3] != TOOTH]
    assert all(top + high == TOOTH for _, top, _, high in found)
    return [(left, wide, high) for left, _, wide, high in found]
