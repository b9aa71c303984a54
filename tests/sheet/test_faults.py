"""The faults that `tests/sheet/faults.py` looks for are found where they are planted."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import Any

import pytest

from formsheet.sheet.draw import bar, bar_head, comb, feel, note_box, side_words
from formsheet.sheet.draw.canvas import Canvas
from formsheet.sheet.draw.figures import draw_figure
from formsheet.sheet.draw.look import Look
from formsheet.sheet.draw.metrics import Font
from formsheet.sheet.draw.systems import System
from formsheet.sheet.options import AS_USUAL, Options
from tests.sheet.faults import faults
from tests.sheet.gallery import gallery_sheet


def found(name: str, options: Options = AS_USUAL) -> str:
    return "\n".join(faults(gallery_sheet(name), options))


def shifted(by: float) -> Any:
    """Boxes drawn a little to the right."""
    usual = note_box.draw_box

    def draw(canvas: Canvas, box: note_box.Box, *others: Any) -> float:
        moved = replace(box, left=box.left + by, right=box.right + by)
        return usual(canvas, moved, *others)

    return draw


@pytest.mark.parametrize(
    ("module", "name", "value", "sheet", "words"),
    [
        (side_words, "RIGHT", 3.0, "eight", "less than 8.0 mm from the edge"),
        (feel, "STEM_WEIGHT", 0.2, "eight", "a line of 0.20 mm"),
        (comb, "LINE", 0.2, "eight", "a line of 0.20 mm"),
        (note_box, "ROUND", 0.0, "eight", "round"),
        (note_box, "TEETH", 1, "ties", "torn"),
        (note_box, "STUB", 0.0, "ties", "shows 0 stubs"),
        (note_box, "OVERLAP", -0.6, "ties", "does not reach the bar line"),
        (note_box, "SQUARE", 0.05, "blocks", "too small to be told apart"),
        (comb, "TOP", -0.6, "eight", "the comb reads"),
        (comb, "BEAM_GAP", -2.0, "eight", "meets a shape"),
        (comb, "LANDING", (2.1, 0.4), "eight", "thick teeth for"),
        (bar, "SIGN_GAP", -2.0, "techniques", "touches it"),
    ],
)  # fmt: skip
def test_a_size_that_is_wrong_is_named(
    module: object, name: str, value: object, sheet: str, words: str,
    monkeypatch: pytest.MonkeyPatch,
) -> None:  # fmt: skip
    monkeypatch.setattr(module, name, value)
    assert words in found(sheet)


def test_boxes_beside_their_onset_are_named(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(bar, "draw_box", shifted(0.3))
    assert "begins +0.30 mm from its onset" in found("eight")


def test_boxes_without_white_between_them_are_named(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(bar, "draw_box", _wider)
    told = found("eight")
    assert "mm before its end" in told
    assert "touch" in told


def _wider(canvas: Canvas, box: note_box.Box, *others: Any) -> float:
    return _DRAW_BOX(canvas, replace(box, right=box.right + 1.3), *others)


_DRAW_BOX = note_box.draw_box


def test_figures_of_another_hole_weight_or_size_are_named(monkeypatch: pytest.MonkeyPatch) -> None:
    def other(canvas: Canvas, middle: float, y: float, hole: int, font: Font) -> None:
        draw_figure(canvas, middle, y, hole % 9 + 1, replace(font, face="regular", size=12))

    monkeypatch.setattr(note_box, "draw_figure", other)
    assert "shows ['3']" in found("eight")

    def small(canvas: Canvas, middle: float, y: float, hole: int, font: Font) -> None:
        draw_figure(canvas, middle, y, hole, replace(font, face="regular", size=12))

    monkeypatch.setattr(note_box, "draw_figure", small)
    told = found("eight")
    assert "the figure 2 is 2.83 mm high" in told
    assert "the figure 2 is regular" in told


def test_a_bend_without_its_tick_is_named(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(note_box, "_sagging", lambda *_: None)
    assert "3d' at 1: 0 ticks" in found("eight")
    assert "6ob at 0: 0 rings" in found("overbends")


@pytest.mark.parametrize(("filled", "words"), [(True, "is filled"), (False, "is not filled")])
def test_blow_and_draw_that_look_alike_are_named(
    filled: bool, words: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(Look, "filled", lambda *_: filled)
    assert words in found("eight")


def test_light_ink_without_a_foot_is_named(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(note_box, "FOOT", 0.3)
    assert "has no foot" in found("eight", Options(light=True))


def test_lines_that_come_too_near_are_named(monkeypatch: pytest.MonkeyPatch) -> None:
    usual = System.step
    monkeypatch.setattr(System, "step", lambda self, other: usual(self, other) - 18)
    assert "bars 1 and 5 are " in found("eight")


def test_columns_that_are_not_true_are_named(monkeypatch: pytest.MonkeyPatch) -> None:
    usual = System.images

    def moved(self: System) -> Iterator[Any]:
        for image in usual(self):
            yield replace(image, x=image.x + (0.5 if self.plans[0].bar.number == 5 else 0.0))

    monkeypatch.setattr(System, "images", moved)
    assert "are not in one column" in found("eight")


def test_letters_of_licks_that_lack_their_circle_are_named(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(bar_head, "circle", lambda *_: "M0 0")
    assert "0 circles in place of 1" in found("eight")


def test_chords_that_are_not_printed_are_named(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(bar_head, "accidentals", lambda text: text.replace("7", ""))
    assert "its head reads" in found("eight")


# Our own choice: nothing is lighter than #222, so that a copier loses nothing.
@pytest.mark.parametrize(("ink", "named"), [("#222222", False), ("#232323", True)])
def test_ink_that_is_too_light_is_named(
    ink: str, named: bool, monkeypatch: pytest.MonkeyPatch
) -> None:
    usual = Canvas.line

    def line(self: Canvas, weight: float, *points: tuple[float, float], **_: str) -> None:
        usual(self, weight, *points, ink=ink)

    monkeypatch.setattr(Canvas, "line", line)
    assert (f"is {ink}" in found("eight")) == named


def test_colours_of_the_teachers_are_no_fault() -> None:
    assert found("eight", Options(colours=("#777777", "#000"))) == ""


def test_a_title_that_is_cut_is_named(monkeypatch: pytest.MonkeyPatch) -> None:
    made = gallery_sheet("long-title")
    assert list(faults(made)) == []
    monkeypatch.setattr(
        "tests.sheet.faults.sheet_pdf",
        lambda sheet, options: _printed(replace(sheet, title=sheet.title[:40]), options),
    )
    assert "not printed whole: The Very Long Walk Home" in "\n".join(faults(made))


def _printed(sheet: Any, options: Options) -> bytes:
    from formsheet.sheet.typeset import sheet_pdf

    return sheet_pdf(sheet, options)
