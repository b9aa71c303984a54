"""Every style of marks: its words, its ink, the room that it takes, its place in the README."""

from __future__ import annotations

import pickle
from io import BytesIO
from itertools import combinations
from operator import attrgetter
from pathlib import Path

import pytest
from PIL import Image, ImageOps
from resvg_py import svg_to_bytes

from formsheet.sheet import mark_styles
from formsheet.sheet.draw.canvas import Canvas
from formsheet.sheet.draw.metrics import Font
from formsheet.sheet.draw.svg import svg
from formsheet.sheet.draw.typeface import FACE_FILES, FONTS
from formsheet.sheet.mark_styles import MARK_STYLES, MarkStyle, mark_style
from formsheet.sheet.options import Options

README = Path(__file__).parents[2] / "README.md"
SIZE = 22.0  # pt of the numbers
SIDE = 40.0  # mm of a canvas in whose middle a mark is drawn
PIXELS = 800  # of its side

each_style = pytest.mark.parametrize("style", MARK_STYLES, ids=attrgetter("name"))
each_marked = pytest.mark.parametrize(
    "style", [style for style in MARK_STYLES if not style.path], ids=attrgetter("name")
)


def ink(style: MarkStyle, drawn: bool) -> tuple[list[float], bytes] | None:
    """A mark's ink: its left, top, right and bottom edge (mm from where it is drawn), its shape."""
    canvas = Canvas(SIDE, SIDE)
    style.draw(canvas, SIDE / 2, SIDE / 2, drawn, SIZE)
    png = svg_to_bytes(
        svg_string=svg(canvas), dpi=25.4 * PIXELS / SIDE, background="#ffffff",
        skip_system_fonts=True, font_files=[str(FONTS / FACE_FILES["regular"])],
    )  # fmt: skip
    with Image.open(BytesIO(png)) as image:
        dark = ImageOps.invert(image.convert("L")).point(lambda value: 255 * (value > 127))
    box = dark.getbbox()
    if box is None:
        return None
    return [edge * SIDE / PIXELS - SIDE / 2 for edge in box], dark.crop(box).tobytes()


def test_every_style_that_is_made_is_listed() -> None:
    made = [each for each in vars(mark_styles).values() if isinstance(each, MarkStyle)]
    assert {each.name for each in made} == {each.name for each in MARK_STYLES}
    assert len(made) == len(MARK_STYLES)


def test_the_first_is_used_where_none_is_chosen() -> None:
    assert Options().marks is MARK_STYLES[0]


@each_style
def test_a_style_is_found_by_its_name(style: MarkStyle) -> None:
    assert mark_style(style.name) is style
    assert style.name == style.name.casefold().replace(" ", "-")


@each_style
def test_a_style_is_the_same_in_another_process(style: MarkStyle) -> None:
    assert pickle.loads(pickle.dumps(Options(marks=style))) == Options(marks=style)


@pytest.mark.parametrize(("one", "other"), [*combinations(MARK_STYLES, 2)])
def test_no_two_styles_share_a_name_words_or_a_mark(one: MarkStyle, other: MarkStyle) -> None:
    assert one.name != other.name
    assert one.about != other.about
    assert {one.blow_words, one.draw_words}.isdisjoint({other.blow_words, other.draw_words})
    assert one.draw is not other.draw


@each_style
def test_the_legend_says_where_and_what(style: MarkStyle) -> None:
    assert style.blow_words.endswith("above the line: blow, breath out")
    assert style.draw_words.endswith("below the line: draw, breath in")
    assert style.turn_words.endswith("the breath turns")


@each_style
def test_breath_is_shown_by_a_path_or_by_a_mark_at_each_number(style: MarkStyle) -> None:
    inked = [ink(style, drawn) is not None for drawn in (False, True)]
    assert inked == [not style.path] * 2
    assert bool(style.height) == bool(style.width(SIZE)) == (not style.path)
    assert not (style.path and style.letters)


@each_marked
def test_blow_and_draw_have_marks_of_their_own(style: MarkStyle) -> None:
    blow, draw = ink(style, drawn=False), ink(style, drawn=True)
    assert blow
    assert draw
    assert blow[1] != draw[1]
    assert style.letters is None or style.letters[0] != style.letters[1]


@each_marked
@pytest.mark.parametrize("drawn", [False, True], ids=["blow", "draw"])
def test_a_mark_keeps_to_its_room(style: MarkStyle, drawn: bool) -> None:
    found = ink(style, drawn)
    assert found
    left, top, right, bottom = found[0]
    half, high = style.width(SIZE) / 2, style.height * Font("regular", SIZE).mm
    slack = 0.1  # mm: a pixel, and half the weight of a stroke
    assert -half - slack <= left < right <= half + slack
    near, far = (top, bottom) if drawn else (-bottom, -top)
    assert -slack <= near < far <= high + slack


@each_style
def test_the_readme_says_what_is_printed(style: MarkStyle) -> None:
    [row] = [r for r in README.read_text("utf-8").splitlines() if r.startswith("| `--marks")]
    assert f"`{style.name}`, {style.about}" in row
