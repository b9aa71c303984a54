"""The page for everyone: an automated audit, room for thumbs, nothing that leaves the screen."""

from __future__ import annotations

import pytest
from axe_playwright_python.sync_playwright import Axe

from formsheet.page.index import Entry, Link, library_page
from tests.browser.conftest import Opener
from tests.browser.test_page import TUNE
from tests.browser.window import Window
from tests.helpers import over

PHONE = {"width": 360, "height": 740}
SERIOUS = ("serious", "critical")


def found(window: Window) -> list[str]:
    """What the audit holds to be serious or worse."""
    with window.clock_running():  # the audit waits by the page's clock
        results = Axe().run(window.page)
    return [
        f"{each['id']}: {node['html'][:100]}"
        for each in results.response["violations"]
        if each["impact"] in SERIOUS
        for node in each["nodes"]
    ]


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_nothing_serious_is_found(opened: Opener, scheme: str) -> None:
    window = opened(TUNE, color_scheme=scheme)
    assert found(window) == []
    window.page.locator("#more").click()
    window.page.locator("[data-practise='0']").click()
    window.run(3)
    assert found(window) == []


def test_nothing_serious_is_found_on_a_phone(opened: Opener) -> None:
    window = opened(TUNE, viewport=PHONE, has_touch=True)
    window.page.locator("[data-practise='0']").click()
    window.run(3)
    assert found(window) == []


def test_nothing_leaves_the_screen_of_a_phone(opened: Opener) -> None:
    title = "Undercarriagewheelbarrowlampstandkettle and a Long Way Round to the Last Bar"
    text = over("I | IV", "q 2d 3d 4d 5d | q 4b 5b 6b -", tempo="120", title=title)
    window = opened(text, viewport={"width": 320, "height": 600})
    window.page.locator("#more").click()
    assert window.page.evaluate("document.documentElement.scrollWidth") <= 320


def test_bars_stand_side_by_side_where_there_is_room(opened: Opener) -> None:
    window = opened(TUNE)
    for width, across in ((360, 1), (768, 2), (1440, 4)):
        window.page.set_viewport_size({"width": width, "height": 800})
        window.run(0.1)
        boxes = [bar.bounding_box() for bar in window.page.locator(".bar").all()]
        tops = [box["y"] for box in boxes if box]
        assert [tops.count(top) for top in dict.fromkeys(tops)] == [across] * (12 // across)


@pytest.mark.parametrize("width", [768, 1440])
def test_bars_of_a_line_share_their_breath_line(opened: Opener, width: int) -> None:
    music = "s [ 2d 3d 4d 5d ]x4 | e3 2d 3d 4d h 123d q 4b | q 4b{wah} - 6b - | q 2d h. -"
    text = over("I | I | IV | I", music, tempo="60")
    window = opened(text, viewport={"width": width, "height": 900})
    lines = window.page.evaluate(
        "[...document.querySelectorAll('.bar')].map(bar => ["
        "  bar.querySelector('.tab svg').getBoundingClientRect().top,"
        "  bar.querySelector('.rhythm').getBoundingClientRect().bottom])"
    )
    side_by_side = 2 if width < 1000 else 4
    for first in range(0, 4, side_by_side):
        row = lines[first : first + side_by_side]
        for other in row[1:]:
            assert other == pytest.approx(row[0], abs=1.0)


def test_the_player_is_under_the_thumb(opened: Opener) -> None:
    window = opened(TUNE, viewport=PHONE)
    for name in ("#play", "#what", "#loop", "#more", "#slower", "#faster"):
        box = window.page.locator(name).bounding_box()
        assert box
        assert box["y"] > PHONE["height"] - 200
        assert min(box["width"], box["height"]) >= 44


def test_each_bar_is_said_in_words(opened: Opener) -> None:
    first = opened(TUNE).page.locator(".bar").first
    assert first.get_attribute("aria-label") == (
        "Bar 1, one chord G 7, Front porch, time 1 of 4: 2 draw, quarter; "
        "3 draw bent a half step, quarter; 4 draw, quarter; 2 draw, quarter."
    )


def test_playing_and_stopping_are_told(opened: Opener) -> None:
    window = opened(TUNE)
    window.play(3)
    assert window.text("#live") == "Playing: The whole tune, 120 beats a minute"
    window.page.keyboard.press("Escape")
    assert window.text("#live") == "Stopped"


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_the_library_page_is_sound(opened: Opener, scheme: str) -> None:
    links = (Link("Play along", "kettle song/page.html"), Link("Sheet", "kettle song/sheet.pdf"))
    entry = Entry(
        "Kettle <i>Song", "Bb", "2nd", "F", "12-bar standard", "104 beats a minute", links
    )
    window = opened(library_page([entry]), by_clock=False, color_scheme=scheme, viewport=PHONE)
    assert window.text("h2") == "Kettle <i>Song"
    assert window.page.locator("a").first.get_attribute("href") == "kettle%20song/page.html"
    assert window.page.evaluate("document.documentElement.scrollWidth") <= PHONE["width"]
    assert found(window) == []
