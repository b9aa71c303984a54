"""Licks for the screen: their names, their frame, their ground, their words."""

from __future__ import annotations

import io
from functools import cache
from xml.etree import ElementTree

import pytest
from PIL import Image

from formsheet.sheet.cards import card_files, png
from formsheet.sheet.draw.look import Look
from formsheet.sheet.draw.screen import (
    HEIGHT,
    SAFE,
    WIDTH,
    draw_lowers,
    draw_screens,
    lower_svg,
    screen_svg,
)
from formsheet.sheet.draw.screen_layout import LEGIBLE, WISHED
from formsheet.sheet.make_view import make_view
from formsheet.sheet.view import Card, Sheet
from tests.helpers import examined, lesson_text, over
from tests.lessons import NAMES, demo
from tests.sheet.contrast import contrast, luminance
from tests.sheet.gallery import GALLERY

SVG = "{http://www.w3.org/2000/svg}"
# What stays on every screen, by SMPTE ST 2046-1 (from memory): 90 per cent each way.
SAFE_BOX = (96, 54, 1824, 1026)
# The same for a plate: 93 per cent each way.
ACTION_BOX = (67, 37, 1853, 1043)


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


def test_another_lick_before_them_changes_letters_and_no_name_of_a_file() -> None:
    text = over("I | I", "w 2d | w 3d")
    later = text.replace("lick run", "lick new on I\n w 4d\nlick run").replace(
        "play\n", "play\n bars 1-2 new\nplay\n"
    )
    assert [card.letter for card in view_of(text).cards] == ["A"]
    assert {card.name: card.letter for card in view_of(later).cards} == {"new": "A", "run": "B"}
    old, new = (dict(card_files(view_of(each))) for each in (text, later))
    assert set(old) < set(new)
    assert {name.partition(".")[0] for name in old} == {
        "cards/run",
        "cards/run-solid",
        "cards/run-lower",
    }


@cache
def files() -> dict[str, bytes]:
    two = (
        "lick porch on I\n q 2d e 3d' 4d q 4d' -\nlick Gate on IV\n q 4b 5d 4b -\n"
        "play\n bars 1-2 porch\n bar 3 Gate"
    )
    return dict(card_files(view_of(lesson_text(two, form='"Own"\n | I7 | I7 | IV7 |'))))


def test_each_lick_has_cards_on_two_grounds_and_a_lower_third() -> None:
    endings = (".svg", ".png", "-solid.svg", "-solid.png", "-lower.svg", "-lower.png")
    assert sorted(files()) == sorted(
        f"cards/{lick}{ending}" for lick in ("porch", "gate") for ending in endings
    )


def test_a_lick_named_like_a_lower_third_has_files_of_its_own() -> None:
    text = lesson_text(
        "lick porch on I\n w 2d\nlick porch-lower on IV\n w 4b\nplay\n bar 1 porch\n"
        " bar 2 porch-lower",
        form='"Own"\n | I7 | IV7 |',
    )
    names = [name for name, _ in card_files(view_of(text))]
    assert len(names) == len(set(names)) == 12


def test_a_picture_has_the_size_of_the_frame() -> None:
    sizes = {picture(data).size for name, data in files().items() if name.endswith(".png")}
    assert sizes == {(1920, 1080)}


@pytest.mark.parametrize("name", ["cards/porch.png", "cards/porch-lower.png"])
def test_there_is_nothing_round_the_plate(name: str) -> None:
    alpha = picture(files()[name]).getchannel("A")
    left, top, right, bottom = alpha.getbbox() or (0, 0, 0, 0)
    assert left >= ACTION_BOX[0]
    assert top >= ACTION_BOX[1]
    assert right <= ACTION_BOX[2]
    assert bottom <= ACTION_BOX[3]
    assert alpha.getextrema() == (0, 255)


def test_a_solid_ground_is_whole() -> None:
    assert picture(files()["cards/porch-solid.png"]).getchannel("A").getextrema() == (255, 255)


@pytest.mark.parametrize("name", [*NAMES, "wide-cards", "dense", "blocks"])
def test_a_lower_third_leaves_the_upper_half_of_the_picture_clear(name: str) -> None:
    card = cards(name)[0]
    for lower in draw_lowers(card):
        alpha = picture(png(lower_svg(lower, "en"))).getchannel("A")
        _, top, _, bottom = alpha.getbbox() or (0, 0, 0, 0)
        assert top >= HEIGHT / 2
        assert bottom <= ACTION_BOX[3]


@pytest.mark.parametrize("name", ["cards/porch.png", "cards/porch-lower.png"])
@pytest.mark.parametrize("behind", ["black", "white", "red", "blue"])
def test_ink_is_read_over_any_picture(behind: str, name: str) -> None:
    card = picture(files()[name])
    scene = Image.new("RGBA", card.size, behind)
    scene.alpha_composite(card)
    left, _, _, bottom = card.getchannel("A").getbbox() or (0, 0, 0, 0)
    inside = scene.convert("RGB").crop(card.getchannel("A").point(lambda a: a // 200).getbbox())
    light = scene.convert("RGB").getpixel((left + 60, bottom - 8))
    assert contrast(light, darkest(inside)) >= 7  # WCAG 2.2, success criterion 1.4.6


def test_a_draw_box_is_filled_and_a_blow_box_is_not() -> None:
    dark = {}
    for breath in ("d", "b"):
        card = one_card(over("I7", f"w 4{breath}"))
        image = picture(png(screen_svg(draw_screens(card)[0], "solid", "en"))).convert("L")
        dark[breath] = sum(image.histogram()[:128])
    # The box of a whole note: 165 px high, nearly as wide as the screen.
    assert dark["d"] - dark["b"] > 0.8 * 165 * 1600


def test_the_teachers_colours_are_on_the_cards() -> None:
    card = one_card(over("I7", "h 2d 4b"))
    (screen,) = draw_screens(card, Look(blow="#205080", draw="#802020"))
    svg = screen_svg(screen, "clear", "en")
    assert 'fill="#802020"' in svg
    assert 'stroke="#205080"' in svg


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
            assert screen.figure >= LEGIBLE


@pytest.mark.parametrize("name", NAMES)
def test_figures_of_the_demos_are_large(name: str) -> None:
    for card in cards(name):
        for screen in draw_screens(card):
            assert screen.figure >= WISHED or len(screen.card.bars) == 1


def test_a_bar_of_eighths_has_figures_of_113_pixels() -> None:
    (screen,) = draw_screens(one_card(over("I7", "e [ 2d 3d 4d 5d ]x2")))
    assert screen.figure == pytest.approx(113, abs=1)


@pytest.mark.parametrize("name", [*NAMES, "dense", "blocks"])
def test_no_word_is_too_small(name: str) -> None:
    """18 px on a screen of 640 by 360 (own choice), which is 54 on the whole frame."""
    for card in cards(name):
        for screen in (*draw_screens(card), *draw_lowers(card)):
            for system, _ in screen.lines:
                plan = system.plans[0]
                sizes = [plan.measures.count, plan.measures.part, plan.measures.letter]
                sizes += [plan.syllable_size]
                assert min(sizes) * 25.4 / 72 * 18 >= 54


def test_a_lick_too_long_for_one_screen_is_shared_out() -> None:
    run = " | ".join(["s 3d' 3d'' 3d''' 2d 2d'' 2d' 1d 2d 3d' 3d'' 3d''' 2d 2d'' 2d' 1d 2d"] * 6)
    screens = draw_screens(one_card(over(" | ".join(["I7"] * 6), run)))
    assert len(screens) > 1
    assert [len(one.card.bars) for one in screens] == [6 // len(screens)] * len(screens)
    assert f"on I7, 2 of {len(screens)}" in screen_svg(screens[1], "clear", "en")


def test_a_screen_says_itself_in_words() -> None:
    root = ElementTree.fromstring(files()["cards/porch.svg"])
    assert root.findtext(f"{SVG}title") == "A, Porch, on I"
    assert root.findtext(f"{SVG}desc") == (
        "Bar 1, one chord G 7, lick A: 2 draw, quarter; 3 draw bent a half step, eighth; 4 draw, "
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
    assert root.findtext(f"{SVG}title") == "A, Fish & <chips>, on I7"


def test_what_our_faces_lack_is_left_as_text() -> None:
    text = over("I7", "w 2d").replace("lick run", 'lick run "שלום"')
    root = ElementTree.fromstring(svg_of(one_card(text)))
    assert [element.text for element in root.iter(f"{SVG}text")] == ["שלום"]


def test_the_same_lick_gives_the_same_bytes() -> None:
    svg = svg_of(cards("slow-barge")[1])
    assert svg == svg_of(make_again("slow-barge"))
    assert png(svg) == png(svg)


def make_again(name: str) -> Card:
    found = demo(name)
    assert found.tune
    return make_view(found.tune, found.fits, name).cards[1]
