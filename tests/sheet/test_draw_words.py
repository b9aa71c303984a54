"""Texts in the drawing: accidentals, places, measures, escapes."""

from __future__ import annotations

from fractions import Fraction as F

import pytest

from formsheet.sheet.draw.canvas import Canvas, number
from formsheet.sheet.draw.holes import NumberStyle, best_style, extent, fits
from formsheet.sheet.draw.metrics import Font, covered, width
from formsheet.sheet.draw.scale import INSET, bar_scale, part_scale
from formsheet.sheet.draw.svg import svg
from formsheet.sheet.draw.words import accidentals, place, rows
from tests.sheet.gallery import marks


@pytest.mark.parametrize(
    ("plain", "printed"),
    [
        ("Bb7", "B♭7"),
        ("F#m7", "F♯m7"),
        ("bVII7", "♭VII7"),
        ("b3", "♭3"),
        ("#4", "♯4"),
        ("Bm7b5", "Bm7♭5"),
        ("I7 = Eb7, bIII = Gb", "I7 = E♭7, ♭III = G♭"),
        ("Ab", "A♭"),
        ("blow bars 1-4", "blow bars 1-4"),
        ("Absent", "Absent"),
    ],
)
def test_accidentals(plain: str, printed: str) -> None:
    assert accidentals(plain) == printed


def test_words_that_would_touch_take_another_row() -> None:
    words = place([(10, "vibrato"), (14, "shake"), (40, "wah")], Font("italic", 9), 60)
    assert [word.row for word in words] == [0, 1, 0]
    assert rows(words) == 2


def test_words_stay_inside_their_bar() -> None:
    font = Font("regular", 9)
    first, last = place([(1, "tucka"), (59, "tucka")], font, 60)
    assert first.x >= 0.5
    assert last.x + width("tucka", font) <= 59.5


def test_width_is_the_sum_of_the_faces_own_advances() -> None:
    assert width("10", Font("regular", 72)) == pytest.approx((0.407 + 0.648) * 25.4)
    assert width("4", Font("bold", 12)) > width("4", Font("regular", 12))


def test_extent_counts_both_figures_and_the_ticks() -> None:
    style = NumberStyle(14)
    plain, bent = marks("q 10b 10b''")
    assert extent(bent, style)[1] == pytest.approx(
        extent(plain, style)[1] + width("''", Font("regular", 14))
    )
    assert extent(bent, NumberStyle(14, roof=True))[1] == extent(plain, style)[1]


def test_numbers_that_would_touch_do_not_fit() -> None:
    scale = bar_scale(68.75, F(4))
    row = marks("s " + "10b'' " * 16)
    assert not fits(row, scale, NumberStyle(11, roof=True))
    assert best_style(row, scale) is None
    assert fits(row, bar_scale(137.5, F(4)), NumberStyle(11))


def test_blow_and_draw_numbers_may_share_an_x() -> None:
    scale = bar_scale(68.75, F(4))
    turning = marks("s " + "10b 10d " * 8)
    assert fits(turning, scale, NumberStyle(13))
    assert not fits(marks("s " + "10b " * 16), scale, NumberStyle(13))


def test_dense_bars_carry_their_ticks_over_the_number() -> None:
    scale = bar_scale(68.75, F(4))
    eighths, sixteenths = marks("e " + "3d'' " * 8), marks("s " + "3d'' " * 16)
    plain, dense = best_style(eighths, scale), best_style(sixteenths, scale)
    assert plain is not None
    assert (plain.roof, plain.size >= 14) == (False, True)
    assert dense is not None
    assert (dense.roof, dense.size >= 11) == (True, True)


def test_a_part_of_a_bar_has_the_scale_of_the_whole() -> None:
    whole = bar_scale(64, F(4))
    part = part_scale(whole.unit, F(3), F(4))
    assert part.x(F(7, 2)) - part.x(F(3)) == pytest.approx(whole.x(F(7, 2)) - whole.x(F(3)))
    assert part.x(F(3)) == whole.x(F(0)) == INSET


def test_drawn_text_is_escaped() -> None:
    canvas = Canvas(10, 10)
    canvas.text(1, 5, 'a<b>&"c', Font("regular", 9))
    drawn = svg(canvas)
    assert "a&lt;b&gt;&amp;" in drawn
    assert "<b>" not in drawn


def test_texts_of_one_style_are_one_element() -> None:
    canvas = Canvas(10, 10)
    for x in range(3):
        canvas.text(x, 5, "4", Font("regular", 9))
    canvas.text(5, 5, "4", Font("bold", 9))
    assert svg(canvas).count("<text") == 2


def test_coordinates_are_short() -> None:
    assert [number(v) for v in (1.0, 0.126, -0.001, 12.5)] == ["1", "0.13", "0", "12.5"]


@pytest.mark.parametrize(
    ("text", "known"),
    [("Road 7", True), ("I♭", True), ("a\u3000b", True), ("川", False), ("a 川", False)],
)
def test_text_that_our_faces_cover(text: str, known: bool) -> None:
    assert covered(text, "regular") is known
