"""Lick cards for the screen: their names, their frame, their ground, their words."""

from __future__ import annotations

import io
from functools import cache
from xml.etree import ElementTree

import pytest
from PIL import Image

from formsheet.sheet.cards import card_files, png
from formsheet.sheet.draw.screen import HEIGHT, SAFE, WIDTH, draw_screens, screen_svg
from formsheet.sheet.draw.screen_layout import LEGIBLE
from formsheet.sheet.make_view import make_view
from formsheet.sheet.view import Card, Sheet
from tests.helpers import examined, lesson_text, over
from tests.lessons import NAMES, demo
from tests.sheet.contrast import contrast, luminance
from tests.sheet.gallery import GALLERY

SVG = "{http://www.w3.org/2000/svg}"
# What stays on every screen, by SMPTE ST 2046-1 (from memory): 90 per cent each way.
SAFE_BOX = (96, 54, 1824, 1026)


def view_of(text: str) -> Sheet:
    found = examined(text)
    assert found.tune
    return make_view(found.tune, found.fits, "test.lesson")


@cache
def cards(name: str) -> tuple[Card, ...]:
    """The cards of a demo lesson, or of a sheet of the gallery."""
    if name in GALLERY:
        return GALLERY[name]().cards
    found = demo(name)
    assert found.tune
    return make_view(found.tune, found.fits, name).cards


def one_card(text: str) -> Card:
    (card,) = view_of(text).cards
    return card


def svg_of(card: Card) -> str:
    (screen,) = draw_screens(card)
    return screen_svg(screen, "clear", "en")


def picture(data: bytes) -> Image.Image:
    return Image.open(io.BytesIO(data)).convert("RGBA")


@cache
def files() -> dict[str, bytes]:
    two = (
        "lick porch on I\n q 2d e 3d' 4d q 4d' -\nlick Gate on IV\n q 4b 5d 4b -\n"
        "play\n bars 1-2 porch\n bar 3 Gate"
    )
    return dict(card_files(view_of(lesson_text(two, form='"Own"\n | I7 | I7 | IV7 |'))))


def test_each_lick_has_two_grounds_in_two_formats() -> None:
    endings = (".svg", ".png", "-solid.svg", "-solid.png")
    assert sorted(files()) == sorted(
        f"cards/{lick}{ending}" for lick in ("porch", "gate") for ending in endings
    )


def test_a_picture_has_the_size_of_the_frame() -> None:
    sizes = {picture(data).size for name, data in files().items() if name.endswith(".png")}
    assert sizes == {(1920, 1080)}


def test_there_is_nothing_round_the_plate() -> None:
    alpha = picture(files()["cards/porch.png"]).getchannel("A")
    left, top, right, bottom = alpha.getbbox() or (0, 0, 0, 0)
    assert (left, top) >= SAFE_BOX[:2]
    assert right <= SAFE_BOX[2]
    assert bottom <= SAFE_BOX[3]
    assert alpha.getextrema() == (0, 255)


def test_a_solid_ground_is_whole() -> None:
    assert picture(files()["cards/porch-solid.png"]).getchannel("A").getextrema() == (255, 255)


@pytest.mark.parametrize("behind", ["black", "white", "red", "blue"])
def test_ink_is_read_over_any_picture(behind: str) -> None:
    card = picture(files()["cards/porch.png"])
    scene = Image.new("RGBA", card.size, behind)
    scene.alpha_composite(card)
    inside = scene.convert("RGB").crop(card.getchannel("A").point(lambda a: a // 200).getbbox())
    light, dark = inside.getpixel((60, inside.height - 8)), darkest(inside)
    assert contrast(light, dark) >= 7  # WCAG 2.2, success criterion 1.4.6


def darkest(image: Image.Image) -> object:
    return min((colour for _, colour in image.getcolors(1 << 22) or ()), key=luminance)


@pytest.mark.parametrize(
    ("name", "index"),
    [("dense", 1), ("blocks", 0), ("wide-cards", 0), ("slow-barge", 1), ("gantry-crane", 2)],
)
def test_all_ink_stays_in_the_safe_area(name: str, index: int) -> None:
    for screen in draw_screens(cards(name)[index]):
        ink = picture(png(screen_svg(screen, "solid", "en"))).convert("L").point(lambda p: 255 - p)
        left, top, right, bottom = ink.getbbox() or (0, 0, 0, 0)
        assert min(left - SAFE_BOX[0], top - SAFE_BOX[1]) >= 0
        assert max(right - SAFE_BOX[2], bottom - SAFE_BOX[3]) <= 0
        assert right - left > 0.5 * SAFE * WIDTH or bottom - top > 0.5 * SAFE * HEIGHT


@pytest.mark.parametrize("name", [*NAMES, "wide-cards", "dense", "blocks"])
def test_hole_numbers_are_legible_from_afar(name: str) -> None:
    for card in cards(name):
        for screen in draw_screens(card):
            assert screen.laid.figure >= LEGIBLE
            assert screen.laid.planned


def test_a_lick_too_long_for_one_screen_is_shared_out() -> None:
    run = " | ".join(["s 3d' 3d'' 3d''' 2d 2d'' 2d' 1d 2d 3d' 3d'' 3d''' 2d 2d'' 2d' 1d 2d"] * 6)
    screens = draw_screens(one_card(over(" | ".join(["I7"] * 6), run)))
    assert len(screens) > 1
    assert [len(one.card.bars) for one in screens] == [6 // len(screens)] * len(screens)
    assert f"on I7 · 2 of {len(screens)}" in screen_svg(screens[1], "clear", "en")


def test_a_screen_says_itself_in_words() -> None:
    root = ElementTree.fromstring(files()["cards/porch.svg"])
    assert root.findtext(f"{SVG}title") == "Porch, on I"
    assert root.findtext(f"{SVG}desc") == (
        "Bar 1, one chord G 7, Porch: 2 draw, quarter; 3 draw bent a half step, eighth; 4 draw, "
        "eighth; 4 draw bent a half step, quarter; rest, quarter."
    )


def test_a_pickup_is_drawn_and_told() -> None:
    text = lesson_text(
        "lick run on I\n pickup e 1d 2b\n q 2d 2d 2d -\nplay\n every I run",
        form='"Own"\n | I7 | I7 |',
    )
    assert "<desc>Pick-up, one chord G 7: 1 draw, eighth; 2 blow, eighth. Bar 1" in svg_of(
        one_card(text)
    )


def test_an_svg_needs_no_face() -> None:
    for name, data in files().items():
        assert name.endswith(".png") or (b"<text" not in data and b"font" not in data)


def test_texts_are_escaped() -> None:
    text = over("I7", "w 2d").replace("lick run", 'lick run "Fish & <chips>"')
    root = ElementTree.fromstring(svg_of(one_card(text)))
    assert root.findtext(f"{SVG}title") == "Fish & <chips>, on I7"


def test_what_our_faces_lack_is_left_as_text() -> None:
    text = over("I7", "w 2d").replace("lick run", 'lick run "שלום"')
    root = ElementTree.fromstring(svg_of(one_card(text)))
    assert [element.text for element in root.iter(f"{SVG}text")] == ["שלום"]


def test_the_same_lick_gives_the_same_bytes() -> None:
    svg = svg_of(cards("slow-barge")[0])
    assert svg == svg_of(make_again("slow-barge"))
    assert png(svg) == png(svg)


def make_again(name: str) -> Card:
    found = demo(name)
    assert found.tune
    return make_view(found.tune, found.fits, name).cards[0]
