"""Two colours of the teacher's own: dark enough, and read as they are written."""

from __future__ import annotations

from pathlib import Path

import pytest

from formsheet.commands.build import named_colours
from formsheet.commands.files import UsageError
from formsheet.sheet.colour import contrast
from formsheet.sheet.options import BLACK_INK
from tests.helpers import lesson_text


@pytest.mark.parametrize(
    ("colour", "ratio"),
    # Of white paper, by the formula of WCAG 2.2; black is 21 to 1, as the standard says.
    [("#000000", 21.0), ("#ffffff", 1.0), ("#767676", 4.54), ("#777777", 4.48)],
)
def test_contrast_with_white(colour: str, ratio: float) -> None:
    assert contrast(colour, "#ffffff") == pytest.approx(ratio, abs=0.005)
    assert contrast("#ffffff", colour) == contrast(colour, "#ffffff")


@pytest.mark.limit("sheet.colour.LEAST_CONTRAST")
def test_a_colour_must_be_dark_enough_for_text() -> None:
    assert named_colours("#767676,#000000") == ("#767676", "#000000")
    with pytest.raises(UsageError, match="#777777 is too light on white paper: its contrast is 4"):
        named_colours("#000000,#777777")


@pytest.mark.parametrize("words", ["", "#123456", "red,blue", "#12345,#123456", "#1,#2,#3"])
def test_what_is_not_two_colours_is_said(words: str) -> None:
    with pytest.raises(UsageError, match="write two colours as in CSS, blow first"):
        named_colours(words)


def test_without_the_option_all_is_black() -> None:
    assert named_colours(None) == BLACK_INK


def test_a_wrong_colour_builds_nothing(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    from formsheet.cli import main

    lesson = tmp_path / "a.lesson"
    lesson.write_text(lesson_text("lick a on I\n  w 2d\nplay\n  bar 1 a"))
    assert main(["build", str(lesson), "--colours", "red,blue", "--out", str(tmp_path / "out")])
    assert "blow first: #rrggbb,#rrggbb" in capsys.readouterr().err
    assert not (tmp_path / "out").exists()
