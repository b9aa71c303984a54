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
from tests.sheet.gallery import SETTINGS, gallery_sheet, setting_pdf
from tests.sheet.placed import placed_bars
from tests.sheet.printed import read

README = Path(__file__).parents[2] / "README.md"
FIGURE = Font("bold", 22.0)
SIDE = 40.0  # mm of a canvas in whose middle a mark is drawn
PIXELS = 800  # of its side
SLACK = 0.1  # mm: a pixel, and rounding

each_style = pytest.mark.parametrize("style", MARK_STYLES, ids=attrgetter("name"))
each_marked = pytest.mark.parametrize("style", MARK_STYLES[1:], ids=attrgetter("name"))


def ink(style: MarkStyle, drawn: bool) -> tuple[list[float], bytes] | None:
    """A mark's ink: its left, top, right and bottom edge (mm from where it is drawn), its shape."""
    canvas = Canvas(SIDE, SIDE)
    style.draw(canvas, SIDE / 2, SIDE / 2, drawn, FIGURE)
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
    assert {"blow", "above"} <= set(style.blow_words.replace(",", "").replace(":", "").split())
    assert {"draw", "below"} <= set(style.draw_words.replace(",", "").replace(":", "").split())


@each_style
def test_a_style_has_ink_and_room_beside_the_figure_or_neither(style: MarkStyle) -> None:
    inked = [ink(style, drawn) is not None for drawn in (False, True)]
    assert inked == [style is not MARK_STYLES[0]] * 2
    assert bool(style.beside) == inked[0]


@each_marked
def test_blow_and_draw_have_marks_of_their_own(style: MarkStyle) -> None:
    blow, draw = ink(style, drawn=False), ink(style, drawn=True)
    assert blow
    assert draw
    assert blow[1] != draw[1]


@each_marked
@pytest.mark.parametrize("drawn", [False, True], ids=["blow", "draw"])
def test_a_mark_keeps_to_its_room_and_clear_of_the_figure(style: MarkStyle, drawn: bool) -> None:
    """As wide as the style says, no higher than the figure."""
    found = ink(style, drawn)
    assert found
    left, top, right, bottom = found[0]
    half = FIGURE.figure_height / 2
    assert 0.02 * FIGURE.mm < left < right <= style.beside * FIGURE.mm + SLACK
    assert -half - SLACK <= top < bottom <= half + SLACK


@each_marked
def test_a_mark_is_large_enough_to_be_read(style: MarkStyle) -> None:
    """Our own choice: its larger side is 5 minutes of arc at 80 cm or more, 1.2 mm."""
    for drawn in (False, True):
        found = ink(style, drawn)
        assert found
        left, top, right, bottom = found[0]
        assert max(right - left, bottom - top) >= 1.2


@each_marked
@pytest.mark.parametrize("sheet", ["common", "blocks", "overbends"])
def test_each_figure_of_a_sheet_has_its_mark(style: MarkStyle, sheet: str) -> None:
    name = f"{style.name}-{sheet}"
    made, (_, options) = gallery_sheet(sheet), SETTINGS[name]
    data = setting_pdf(name)
    seen = 0
    for placed in placed_bars(made, data, read(data)):
        for box, note in zip(placed.boxes, placed.sounding, strict=True):
            if not note.struck:
                continue
            inside = [each for each in placed.shapes if box.holds(each)]
            letters = [c.text for c in placed.chars if box.holds(c) and c.text in "bd"]
            if style.name == "letters":
                assert letters == ["bd"[note.tab.draw]]
            elif style.name == "signs":
                lines = [
                    each for each in inside
                    if each.steps == "ml" and each.right - each.left < box.right - box.left
                ]  # fmt: skip
                assert len(lines) == (1 if note.tab.draw else 2)
            else:
                (tip,) = [each for each in inside if each.steps in ("mllh", "mlllh")
                          and len({round(y, 1) for _, y in each.points}) == 2
                          and len({round(x, 1) for x, _ in each.points}) == 3]  # fmt: skip
                level = sorted(y for _, y in dict.fromkeys(tip.points))
                points_down = level[-1] - level[-2] > 1
                assert points_down == note.tab.draw
            seen += 1
    assert options.marks is style
    assert seen > 10


@each_style
def test_the_readme_says_what_is_printed(style: MarkStyle) -> None:
    [row] = [r for r in README.read_text("utf-8").splitlines() if r.startswith("| `--marks")]
    assert f"`{style.name}`, {style.about}" in row
