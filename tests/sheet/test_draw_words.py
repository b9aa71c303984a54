"""Texts in the drawing: accidentals, places, measures, escapes."""

from __future__ import annotations

from fractions import Fraction as F

import pytest

from formsheet.sheet.draw.canvas import Canvas, number
from formsheet.sheet.draw.figures import KERN, draw_figure, room
from formsheet.sheet.draw.measures import INSET
from formsheet.sheet.draw.metrics import Font, covered, width
from formsheet.sheet.draw.scale import bar_scale, part_scale
from formsheet.sheet.draw.svg import svg
from formsheet.sheet.draw.typeface import typeface
from formsheet.sheet.draw.words import accidentals, fitted


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


def test_width_is_the_sum_of_the_faces_own_advances() -> None:
    assert width("10", Font("regular", 72)) == pytest.approx((0.407 + 0.648) * 25.4)
    assert width("4", Font("bold", 12)) > width("4", Font("regular", 12))


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


@pytest.mark.parametrize("hole", range(1, 10))
def test_all_single_figures_have_the_same_room(hole: int) -> None:
    assert room(hole) == room(1)
    assert width(str(hole), Font("bold", 72)) / 25.4 <= room(hole) + 0.06


def test_hole_10_is_kerned_and_its_figures_keep_their_shape() -> None:
    """It takes less room than its two figures set apart, by their sides alone."""
    canvas, font = Canvas(30, 20), Font("bold", 72)
    draw_figure(canvas, 15, 15, 10, font)
    (run,) = canvas.runs
    assert [word.text for word in run.words] == ["1", "0"]
    assert run.font == font
    face = typeface("bold")
    ink = []
    for word in run.words:
        glyph = face.font["glyf"][face.glyphs[word.text]]
        ink.append((word.x + glyph.xMin / face.em * 25.4, word.x + glyph.xMax / face.em * 25.4))
    assert ink[1][0] - ink[0][1] == pytest.approx(KERN * 25.4, abs=0.01)
    assert (ink[0][0] + ink[1][1]) / 2 == pytest.approx(15, abs=0.01)
    assert ink[1][1] - ink[0][0] == pytest.approx(room(10) * 25.4, abs=0.01)
    assert room(10) < width("10", font) / 25.4


def test_a_text_that_is_too_long_is_cut_between_words() -> None:
    font = Font("italic", 11)
    title = "Along the creek that nobody ever crosses by night or by day"
    assert fitted(title, font, 300) == title
    cut = fitted(title, font, 60)
    assert width(cut, font) <= 60
    assert cut.endswith("…")
    assert title.startswith(cut[:-1] + " ")
    assert fitted("m" * 100, font, 20).startswith("mmm")


def test_words_that_are_read_leftwards_are_left_to_the_setter() -> None:
    canvas = Canvas(20, 10)
    canvas.text(1, 5, "רחוב", Font("italic", 10))
    [text] = canvas.shaped
    assert (text.text, text.x, text.font.face) == ("רחוב", 1, "regular")
    assert ">רחוב</text>" in svg(canvas)
    assert "רחוב" not in svg(canvas, whole=False)
