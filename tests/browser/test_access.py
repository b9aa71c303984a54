"""The page for everyone: an automated audit, room for thumbs, nothing that leaves the screen."""

from __future__ import annotations

import re

import pytest
from axe_playwright_python.sync_playwright import Axe

from formsheet.page.index import Entry, Link, library_page
from tests.browser.conftest import Opener
from tests.browser.test_page import TUNE
from tests.browser.test_selfcheck import HUMMING
from tests.browser.window import Window
from tests.helpers import over
from tests.sheet.contrast import contrast, luminance

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


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_nothing_serious_is_found_in_full_view_and_while_it_listens(
    opened: Opener, scheme: str
) -> None:
    window = opened(TUNE, by_clock=False, color_scheme=scheme)
    window.page.add_init_script(HUMMING)
    window.page.reload()
    window.page.locator("#listen").click()
    window.page.locator("#listen[aria-pressed='true']").wait_for()
    window.page.locator("#play").click()
    window.page.locator(".verdict").first.wait_for(timeout=10000)
    assert found(window) == []
    window.page.locator("#more").click()
    window.page.keyboard.press("f")
    assert window.page.locator("h1").is_hidden()
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
def test_bars_of_a_line_share_their_comb(opened: Opener, width: int) -> None:
    music = "q 5b 4d - - | e3 2d 3d 4d h 123d q 4b | q 4b{wah} - 6b - | q 2d h. -"
    text = over("I | I | IV | I", music, tempo="60")
    window = opened(text, viewport={"width": width, "height": 900})
    lines = window.page.evaluate(COMBS)
    across = window.page.evaluate("Number(document.documentElement.dataset.across)")
    assert across == (2 if width < 1000 else 4)
    for first in range(0, 4, across):
        row = lines[first : first + across]
        for other in row[1:]:
            assert other == pytest.approx(row[0], abs=1.0)


#: The top of the bar lines of each bar, and the foot of its drawing, in pixels of the window.
COMBS = """[...document.querySelectorAll('.bar')].map(bar => {
    const edge = bar.querySelector('.edge'), svg = bar.querySelector('svg');
    const [, y] = edge.getAttribute('d').match(/^M0 ([\\d.]+)/);
    const at = new DOMPoint(0, Number(y)).matrixTransform(svg.getScreenCTM());
    return [at.y, svg.getBoundingClientRect().bottom];
})"""

#: The heights of all figures of holes in pixels: they are bold and larger than other bold texts.
FIGURES = """[...document.querySelectorAll('.bar')].flatMap(bar => {
    const svgs = [...bar.querySelectorAll('svg')];
    return svgs.flatMap(svg => [...svg.querySelectorAll('g')]
        .filter(g => getComputedStyle(g).display !== 'none')
        .flatMap(g => [...g.querySelectorAll('text[fill="#fff"]')])
        .map(text => 0.668 * Number(text.getAttribute('font-size')) * svg.getScreenCTM().a));
})"""


@pytest.mark.parametrize("width", [320, 360, 600, 844, 1024, 1280, 1920])
@pytest.mark.parametrize(
    "bar",
    ["q 2d 3d 4d 5d", "s [ 2d 3d 4d 5d ]x4", "s3 [ 2d 3d 4d ]x2 h. 2d", "s [ 10d 9d 10d 9d ]x4"],
)
def test_figures_can_be_read_at_any_width(opened: Opener, width: int, bar: str) -> None:
    """15 px are 2 mm on a phone at arm's length; own choice."""
    text = over("I | I | I | I", " | ".join([bar] * 4), tempo="60")
    window = opened(text, viewport={"width": width, "height": 800})
    heights = window.page.evaluate(FIGURES)
    assert len(heights) >= 4
    assert min(heights) >= 14.5
    assert window.page.evaluate("document.documentElement.scrollWidth") <= width


def test_a_bar_broken_in_two_is_followed_from_half_to_half(opened: Opener) -> None:
    text = over("I", "s [ 10d 9d 10d 9d ]x4", tempo="60", count_in="0")
    window = opened(text, viewport={"width": 320, "height": 600})
    assert window.page.locator(".bar.folded").count() == 1
    part = "[...document.querySelectorAll('.part')].findIndex(p => p.querySelector('.cursor'))"
    window.play(1.0)
    assert window.page.evaluate(part) == 0
    window.run(2.0)
    assert window.page.evaluate(part) == 1
    window.page.set_viewport_size({"width": 1000, "height": 600})
    window.run(0.3)
    assert window.page.locator(".bar.folded").count() == 0
    assert window.page.evaluate(part) == 0


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_blow_and_draw_boxes_differ_on_any_paper(opened: Opener, scheme: str) -> None:
    window = opened(over("I", "h 2d 4b"), color_scheme=scheme)
    inks = window.page.evaluate(
        "[...document.querySelectorAll('.bar g text[font-weight]')].map(text => "
        "[text.getAttribute('fill'), getComputedStyle(text).fill])"
    )
    found = dict(map(tuple, inks))
    on_draw, on_blow = (_parts(found[ink]) for ink in ("#fff", "#000"))
    # A figure in a draw box has the colour of a blow box, and the other way round.
    assert contrast(on_draw, on_blow) >= 7  # WCAG 2.2, success criterion 1.4.6
    dark = luminance(on_draw) < luminance(on_blow)
    assert dark == (scheme == "dark")


def _parts(css: str) -> tuple[int, ...]:
    return tuple(map(int, re.findall(r"\d+", css)[:3]))


def test_the_player_is_under_the_thumb(opened: Opener) -> None:
    window = opened(TUNE, viewport=PHONE)
    for name in ("#play", "#what", "#loop", "#more", "#slower", "#faster"):
        box = window.page.locator(name).bounding_box()
        assert box
        assert box["y"] > PHONE["height"] - 200
        assert min(box["width"], box["height"]) >= 44


def test_each_bar_is_said_in_words(opened: Opener) -> None:
    first = opened(TUNE).page.locator(".bar").first
    assert first.locator("[data-spoken]").text_content() == (
        "Bar 1, one chord G 7, lick A, Front porch, time 1 of 4: 2 draw, quarter; "
        "3 draw bent a half step, quarter; 4 draw, quarter; 2 draw, quarter."
    )


def test_playing_and_stopping_are_told(opened: Opener) -> None:
    window = opened(TUNE)
    window.play(3)
    assert window.text("#live") == "Playing: The whole tune, 120 beats a minute"
    window.page.keyboard.press("Escape")
    assert window.text("#live") == "Stopped"
    window.page.locator("[data-lick='1']").click()
    assert window.text("#live").startswith("Playing: lick B, Creek, ")


def test_a_lick_is_headed_and_its_button_named_by_letter_and_title(opened: Opener) -> None:
    page = opened(TUNE, by_clock=False).page
    assert page.get_by_role("heading", name="lick B, Creek", exact=True).count() == 1
    assert page.get_by_role("button", name="Play lick B, Creek round and round").count() == 1


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
