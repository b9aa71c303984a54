"""The rhythm row and the breath path: which strokes are drawn, and from where to where."""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction as F
from typing import Any, cast

import pytest

from formsheet.sheet.draw import glyphs
from formsheet.sheet.draw.breath import BLOW, DRAW, HOLD, STEP, draw_path, draw_tab
from formsheet.sheet.draw.canvas import Canvas
from formsheet.sheet.draw.holes import NumberStyle
from formsheet.sheet.draw.rhythm import BEAM, STUB, draw_rhythm
from formsheet.sheet.draw.rows import Rows
from formsheet.sheet.draw.scale import bar_scale
from formsheet.sheet.view import HoleMark
from tests.sheet.gallery import marks

SCALE = bar_scale(64, F(4))
ROWS = Rows(0, 0, 0, stem_top=10, head=17, count=0, height=20)
Place = tuple[float, float]


@dataclass
class Recorder:
    """Stands in for a canvas and keeps what is drawn."""

    fills: list[str] = field(default_factory=list)
    rectangles: list[tuple[float, float, float, float]] = field(default_factory=list)
    lines: list[tuple[float, tuple[Place, ...]]] = field(default_factory=list)
    texts: list[tuple[float, float, str]] = field(default_factory=list)

    def fill(self, path: str) -> None:
        if path:
            self.fills.append(path)

    def rectangle(self, x: float, y: float, wide: float, high: float) -> None:
        self.rectangles.append((x, y, wide, high))

    def line(self, weight: float, *points: Place) -> None:
        self.lines.append((weight, points))

    def text(self, x: float, y: float, text: str, *_: Any) -> float:
        self.texts.append((x, y, text))
        return x

    def beams(self) -> list[tuple[float, float]]:
        """Beams as left end and width, highest first."""
        found = [r for r in self.rectangles if r[3] == BEAM]
        return [(r[0], r[2]) for r in sorted(found, key=lambda r: r[1])]


def rhythm(text: str, beat: F = F(1)) -> Recorder:
    recorder = Recorder()
    draw_rhythm(cast(Canvas, recorder), SCALE, ROWS, marks(text), beat)
    return recorder


def path(text: str, **changes: Any) -> Recorder:
    recorder = Recorder()
    options = {"before": None, "runs_in": False, "runs_on": False} | changes
    draw_path(
        cast(Canvas, recorder),
        SCALE,
        20.0,
        marks(text),
        length=F(4),
        edge=64.0,
        style=NumberStyle(14),
        **options,
    )
    return recorder


def test_a_beam_runs_from_stem_to_stem() -> None:
    left, wide = rhythm("e 4d 4d").beams()[0]
    assert left == pytest.approx(SCALE.x(F(0)) + glyphs.STEM_X - glyphs.STEM / 2)
    assert wide == pytest.approx(SCALE.unit / 2 + glyphs.STEM)


def test_a_sixteenth_after_a_dotted_eighth_has_its_stub_on_the_left() -> None:
    _, (left, wide) = rhythm("e. 4d s 4d").beams()
    stem = SCALE.x(F(3, 4)) + glyphs.STEM_X
    assert left == pytest.approx(stem - STUB)
    assert left + wide == pytest.approx(stem + glyphs.STEM / 2)


def test_a_sixteenth_before_a_dotted_eighth_has_its_stub_on_the_right() -> None:
    _, (left, wide) = rhythm("s 4d e. 4d").beams()
    assert left + wide == pytest.approx(SCALE.x(F(0)) + glyphs.STEM_X + STUB)


def test_a_lone_eighth_has_a_flag_and_no_beam() -> None:
    lone, quarter = rhythm("e 4d -"), rhythm("q 4d")
    assert lone.beams() == []
    assert len(lone.fills) == len(quarter.fills) + 2  # the flag and the rest


def test_whole_notes_have_no_stem_and_long_notes_are_hollow() -> None:
    assert rhythm("w 4d").rectangles == []
    assert [rhythm(f"{value} 4d").fills[0].count("z") for value in "whqes"] == [2, 2, 1, 1, 1]


def test_each_rest_has_its_own_shape() -> None:
    assert len({rhythm(f"{value} -").fills[0] for value in "whqes"}) == 5


def test_ties_reach_over_the_bar_line_on_both_sides() -> None:
    out = rhythm("w 4d ~").fills[-1]
    assert out == glyphs.half_tie(SCALE.x(F(0)) + 0.3, 64.0, ROWS.head + 1.35)
    into = rhythm("w =").fills[-1]
    assert into == glyphs.half_tie(SCALE.x(F(0)) - 0.3, 0.0, ROWS.head + 1.35)


def test_a_hold_is_tied_to_its_note_and_a_new_note_is_not() -> None:
    assert len(rhythm("q 4d =").fills) == len(rhythm("q 4d 4d").fills) + 1


def test_dots_and_triplets_are_drawn() -> None:
    assert rhythm("q.. 4d").fills[1].count("z") == 2
    assert [text for *_, text in rhythm("e3 4d 4d 4d q3 4d - 4d").texts] == ["3", "3"]


def test_the_breath_is_light_above_the_line_and_heavy_below_it() -> None:
    levels = {(weight, points[0][1]) for weight, points in path("h 4b 4d").lines[1:3]}
    uprights = [p for _, p in path("h 4b 4d").lines if p[0][0] == p[1][0]]
    assert levels >= {(BLOW, 20 - STEP)}
    assert (DRAW, 20 + STEP) in {(w, p[0][1]) for w, p in path("h 4b 4d").lines}
    assert len(uprights) == 1
    assert SCALE.x(F(0)) < uprights[0][0][0] < SCALE.x(F(2))


def test_a_rest_parts_the_path_and_is_no_turn() -> None:
    lines = path("q 4b - 4d -").lines
    assert not [p for _, p in lines if p[0][0] == p[1][0]]
    assert len(lines) == 3


def test_the_path_runs_over_the_bar_line_with_a_hold() -> None:
    tab = HoleMark((4,), draw=True)
    _, points = path("w =", before=tab, runs_in=True, runs_on=True).lines[1]
    assert (points[0][0], points[1][0]) == (0.0, 64.0)


def test_a_hold_prints_a_line_and_no_number() -> None:
    recorder = Recorder()
    draw_tab(
        cast(Canvas, recorder),
        SCALE,
        20.0,
        marks("q 4d = 5d -"),
        NumberStyle(14),
        before=None,
        dropped=0.0,
    )
    assert [text for *_, text in recorder.texts] == ["4", "5"]
    [(weight, points)] = recorder.lines
    assert weight == HOLD
    assert SCALE.x(F(0)) < points[0][0] < points[1][0] < SCALE.x(F(2))


def test_numbers_stand_on_their_breaths_side_highest_hole_on_top() -> None:
    recorder = Recorder()
    draw_tab(
        cast(Canvas, recorder),
        SCALE,
        20.0,
        marks("q 123d 45b"),
        NumberStyle(14),
        before=None,
        dropped=0.0,
    )
    heights = {text: y for _, y, text in recorder.texts}
    assert 20 < heights["3"] < heights["2"] < heights["1"]
    assert heights["5"] < heights["4"] < 20
