"""Reading ahead: the next bar is whole in view before it sounds; the player takes little room.

`tests/browser/ahead.py` goes over all demos, sizes and tempos; here are the hard cases.
"""

from __future__ import annotations

import pytest

from formsheet.engine.parts import page as pages
from formsheet.sheet.options import Options
from tests.browser.ahead import LEAST, SIZES, SOUNDED, lesson_of, played, watch, worst
from tests.browser.conftest import Opener
from tests.browser.test_page import FAST, TUNE
from tests.browser.window import Window
from tests.helpers import over
from tests.lessons import demo

MOST_DOCK = 0.15  # of the height: as asked for
DENSE = "s [ 10d 9d 10d 9d ]x4"
TWICE = over(
    "I | IV | V | I", " | ".join([DENSE, "q 2d 3d 4d -", "q 2d - - 4b", "w 2d"]), tempo="120"
)
TWICE = TWICE.replace("play\n", "play x2\n").replace("tempo 120", "tempo 120\nlevel any")


def least(window: Window, percent: int, seconds: float) -> float:
    """The least of all bars that sounded, in beats; several have to."""
    seen = worst(window, percent, seconds)
    assert len({each.cell for each in seen}) > 1
    return min(each.beats for each in seen)


def in_view_on_play(window: Window) -> set[int]:
    """The bars whole in view at once on Play, from the end of a page that was scrolled down."""
    window.page.evaluate("window.scrollTo(0, document.body.scrollHeight)")
    window.play(0.3)
    watch(window)
    window.run(0.15)
    return {*window.page.evaluate("watched")[0][1]}


@pytest.mark.parametrize(
    ("width", "height", "percent"), [*((*size, 120) for size in SIZES), (320, 568, 40)]
)
def test_the_next_bar_is_in_view_two_beats_before(
    opened: Opener, width: int, height: int, percent: int
) -> None:
    """The tune round and round, past its return: 12 bars of 4 beats and the count."""
    window = opened(TUNE, viewport={"width": width, "height": height})
    window.page.locator("#loop").evaluate("each => each.click()")
    assert least(window, percent, 60 * 4 * 15 / (1.2 * percent)) >= LEAST


@pytest.mark.parametrize(("width", "height"), [(320, 568), (844, 390)])
def test_a_chorus_that_is_printed_once_is_ready_the_second_time(
    opened: Opener, width: int, height: int
) -> None:
    text = over("I | IV | V | I | I | IV", " | ".join(["q 2d 3d 4d -"] * 6), tempo="120")
    window = opened(
        text.replace("play\n", "play x2\n"), viewport={"width": width, "height": height}
    )
    assert least(window, 100, 4 * 13 * 0.5) >= LEAST


@pytest.mark.parametrize("again", [False, True], ids=["on", "counted in"])
def test_loops_and_joins_are_ready_when_they_return(opened: Opener, again: bool) -> None:
    window = opened(FAST, viewport={"width": 390, "height": 844})
    if again:
        window.page.locator("#more").click()
        window.page.locator("#count-again").check()
        window.page.locator("#more").click()
    for name in ("Creek › Porch", "Gate › Creek"):
        option = window.page.locator("#what option", has_text=name.split()[0]).last
        window.page.locator("#what").select_option(value=str(option.get_attribute("value")))
        window.page.locator("#play").click()
        window.run(0.1)
        watch(window)
        window.page.evaluate(SOUNDED)
        window.run(20)
        tempo = float(window.text("#tempo-words").split()[0])
        seen = list(played(window, tempo))
        assert min(each.beats for each in seen) >= LEAST
        window.page.locator("#play").click()


def test_a_range_that_is_taller_than_the_window_returns_in_view(opened: Opener) -> None:
    window = opened(TUNE, viewport={"width": 320, "height": 568})
    window.page.locator(".bar").nth(3).click()
    end = window.page.get_by_role("slider", name="Last bar")
    end.focus()
    for _ in range(5):
        window.page.keyboard.press("ArrowRight")
    watch(window)
    window.page.evaluate(SOUNDED)
    window.run(4 * 15 * 0.5)
    cells = [each.cell for each in played(window, 120)]
    assert cells[:8] == [3, 4, 5, 6, 7, 8, 3, 4]
    assert min(each.beats for each in played(window, 120)) >= LEAST


@pytest.mark.parametrize("start", [(390, 844), (844, 390)])
def test_what_sounds_and_what_comes_is_in_view_after_rotation(
    opened: Opener, start: tuple[int, int]
) -> None:
    window = opened(TUNE, viewport={"width": start[0], "height": start[1]})
    window.play(2 + 2 * 7 + 0.5)  # in bar 8
    window.page.set_viewport_size({"width": start[1], "height": start[0]})
    window.run(0.3)
    watch(window)
    window.run(0.15)
    _, whole = window.page.evaluate("watched")[-1]
    assert {7, 8} <= {*whole}


def test_on_play_the_pick_up_is_in_view(opened: Opener) -> None:
    text = over("I | IV", "pickup e 1d 2b\n q 2d 3d 4d - | q 2d 3d 4d -", tempo="120")
    window = opened(text, viewport={"width": 844, "height": 390})
    assert {0, 1} <= in_view_on_play(window)


def test_bars_of_two_beats_are_ready_as_early(opened: Opener) -> None:
    """A bar ahead is just under two beats ahead: the last frame counts."""
    ((_, data),) = pages(demo("mill-in-winter"), Options())
    window = opened(data, viewport={"width": 320, "height": 568})
    assert least(window, 120, 20) >= LEAST


def test_on_play_the_first_bar_is_in_view(opened: Opener) -> None:
    window = opened(TUNE, viewport={"width": 320, "height": 568})
    assert {0, 1} <= in_view_on_play(window)


def test_lines_stand_still_between_steps(opened: Opener) -> None:
    """The window moves by whole lines, at once: it is never found on its way."""
    window = opened(TUNE, viewport={"width": 320, "height": 568})
    window.play(0.3)
    window.page.evaluate("window.tops = []; setInterval(() => tops.push(scrollY), 20)")
    window.run(2 + 24)
    tops = window.page.evaluate("tops")
    assert 3 <= len({*tops}) <= 12


def test_bars_stand_large_one_a_line_on_a_phone(opened: Opener) -> None:
    window = opened(TUNE, viewport={"width": 390, "height": 844})
    window.play(3)
    for number in (0, 1):
        box = window.page.locator(".bar").nth(number).bounding_box()
        assert box
        assert box["width"] >= 360


@pytest.mark.parametrize(
    ("width", "height"), [*SIZES, (360, 740), (375, 667), (1920, 1080), (768, 1024)]
)
def test_the_player_takes_little_of_the_height(opened: Opener, width: int, height: int) -> None:
    window = opened(FAST, viewport={"width": width, "height": height})
    assert _dock(window) <= MOST_DOCK * height
    window.page.locator("[data-practise='0']").evaluate("each => each.click()")
    window.run(1)
    assert _dock(window) <= MOST_DOCK * height
    assert window.page.evaluate("document.documentElement.scrollWidth") <= width


def _dock(window: Window) -> float:
    box = window.page.locator("#dock").bounding_box()
    assert box
    return box["height"]


@pytest.mark.parametrize(("width", "height"), [(1280, 720), (1366, 768), (1920, 1080)])
def test_the_full_view_shows_all_twelve_bars(opened: Opener, width: int, height: int) -> None:
    window = opened(TUNE, viewport={"width": width, "height": height})
    window.page.keyboard.press("f")
    window.play(3)
    watch(window)
    window.run(22)
    assert all(len(whole) == 12 for _, whole in window.page.evaluate("watched"))
    assert window.page.locator("h1").is_hidden()
    window.page.keyboard.press("f")
    assert window.page.locator("h1").is_visible()


def test_the_turn_of_breath_is_shown_a_beat_ahead(opened: Opener) -> None:
    """Bars 1 to 4 draw, bar 5 blows: beats 16 to 20 after the count of 4, at 120."""
    window = opened(TUNE)
    window.play(0.1)
    begin = window.clicks()[0] + 2.0
    signs = "[...document.querySelectorAll('.turning')].map(e => e.textContent)"
    for beat, shown in ((10.0, []), (14.9, ["↑ blow"]), (15.9, ["↑ blow"]), (16.5, [])):
        window.run(begin + beat * 0.5 - window.page.evaluate("listened.currentTime"))
        assert window.page.evaluate(signs) == shown
    assert lesson_of(window)["bars"][4]["start"] == 16
