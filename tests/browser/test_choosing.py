"""What is played round and round: chosen by taps, by dragging, by handles and by keys."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from tests.browser.conftest import Opener
from tests.browser.test_page import TUNE, marked
from tests.browser.window import Window

PHONE: dict[str, object] = {"viewport": {"width": 390, "height": 844}, "has_touch": True}


def chosen(window: Window) -> str:
    """What the page says is played."""
    return window.text("#what option:checked")


def within(window: Window) -> list[int]:
    """The bars that are seen to be played, by their place on the page."""
    found: list[int] = window.page.evaluate(
        "[...document.querySelectorAll('.bar[data-bar]')].flatMap((bar, i) => bar.matches("
        "'.within[aria-pressed=true]') ? [i] : [])"
    )
    return found


def middle(window: Window, selector: str) -> tuple[float, float]:
    """The middle of an element in the window."""
    locator = window.page.locator(selector)
    locator.scroll_into_view_if_needed()
    box = locator.bounding_box()
    assert box
    return box["x"] + box["width"] / 2, box["y"] + box["height"] / 2


def drag(window: Window, start: str, end: str) -> None:
    """Drag with the mouse from the middle of an element to that of another."""
    x, y = middle(window, start)
    to_x, to_y = middle(window, end)
    window.page.mouse.move(x, y)
    window.page.mouse.down()
    window.page.mouse.move((x + to_x) / 2, (y + to_y) / 2)
    window.page.mouse.move(to_x, to_y)
    window.page.mouse.up()


def bar(number: int) -> str:
    """The selector of a bar."""
    return f".bar[data-bar='{number - 1}']"


def test_a_tap_plays_that_bar_round_and_round(opened: Opener) -> None:
    window = opened(TUNE, **PHONE)
    window.page.locator(bar(2)).tap()
    assert window.text("#play-word") == "Stop"
    assert chosen(window) == "Bar 2"
    for _ in range(3):
        window.run(2.5)
        assert marked(window) == [1]
    assert within(window) == [1]


def test_every_tap_means_the_same(opened: Opener) -> None:
    window = opened(TUNE)
    for number in (2, 5, 5, 3):
        window.page.locator(bar(number)).click()
        assert chosen(window) == f"Bar {number}"
        assert within(window) == [number - 1]
        assert window.text("#play-word") == "Stop"


@pytest.mark.parametrize(("start", "end"), [(2, 6), (6, 2)])
def test_a_drag_plays_a_range(opened: Opener, start: int, end: int) -> None:
    window = opened(TUNE, viewport={"width": 1440, "height": 1200})
    drag(window, bar(start), bar(end))
    assert chosen(window) == "Bars 2 to 6"
    assert within(window) == [1, 2, 3, 4, 5]
    assert window.text("#play-word") == "Stop"


def test_a_finger_that_scrolls_chooses_nothing(opened: Opener) -> None:
    """A drag by touch scrolls the page: the browser then cancels the pointer."""
    window = opened(TUNE, **PHONE)
    window.page.locator(bar(2)).dispatch_event(
        "pointerdown", {"pointerType": "touch", "button": 0, "pointerId": 7}
    )
    window.page.locator(bar(3)).dispatch_event("pointermove", {"pointerType": "touch"})
    assert within(window) == []
    assert window.text("#play-word") == "Play"


def test_handles_move_the_ends(opened: Opener) -> None:
    window = opened(TUNE, viewport={"width": 1440, "height": 1200})
    window.page.locator(bar(2)).click()
    drag(window, ".handle.end", bar(4))
    assert chosen(window) == "Bars 2 to 4"
    drag(window, ".handle.start", bar(3))
    assert chosen(window) == "Bars 3 to 4"
    drag(window, ".handle.start", bar(8))  # an end does not pass the other
    assert chosen(window) == "Bar 4"


def test_handles_stand_at_the_ends_after_rotation(opened: Opener) -> None:
    window = opened(TUNE, **PHONE)
    window.page.locator(bar(2)).tap()
    window.page.set_viewport_size({"width": 844, "height": 390})
    window.run(0.3)
    place = window.page.locator(bar(2)).bounding_box()
    x, _ = middle(window, ".handle.end")
    place = window.page.locator(bar(2)).bounding_box()
    assert place
    assert x == pytest.approx(place["x"] + place["width"], abs=13)


def test_a_handle_is_a_slider_for_keys(opened: Opener) -> None:
    window = opened(TUNE)
    window.page.locator(bar(2)).click()
    end = window.page.get_by_role("slider", name="Last bar")
    end.focus()
    window.page.keyboard.press("ArrowRight")
    window.page.keyboard.press("ArrowRight")
    assert chosen(window) == "Bars 2 to 4"
    assert end.get_attribute("aria-valuetext") == "Bar 4"
    assert end.get_attribute("aria-valuenow") == "4"
    window.page.keyboard.press("ArrowLeft")
    assert chosen(window) == "Bars 2 to 3"
    window.page.keyboard.press("Space")  # a slider does not use it
    assert window.text("#play-word") == "Play"


def test_keys_in_the_sheet_choose_bars(opened: Opener) -> None:
    window = opened(TUNE)
    window.page.locator(bar(1)).focus()
    window.page.keyboard.press("ArrowRight")
    window.page.keyboard.press("Enter")
    assert chosen(window) == "Bar 2"
    assert window.text("#play-word") == "Stop"
    window.page.keyboard.press("Shift+ArrowRight")
    assert chosen(window) == "Bars 2 to 3"
    window.page.keyboard.press("ArrowDown")
    window.page.keyboard.press("Shift+Enter")
    assert chosen(window) == "Bars 2 to 7"
    assert within(window) == [1, 2, 3, 4, 5, 6]
    window.run(2.5)
    assert marked(window) == [1]


@pytest.mark.parametrize(
    ("focus", "plays"),
    [
        (lambda window: window.page.locator(bar(3)).focus(), True),
        (lambda window: window.page.locator("#tempo").focus(), True),
        (lambda window: window.page.locator("#more").focus(), False),
        (lambda window: window.page.locator("#what").focus(), False),
        (lambda window: window.page.locator("[data-lick='0']").focus(), None),
    ],
    ids=["bar", "slider", "button", "list", "lick"],
)
def test_space_plays_unless_a_control_uses_it(
    opened: Opener, focus: Callable[[Window], None], plays: bool | None
) -> None:
    window = opened(TUNE)
    focus(window)
    window.page.keyboard.press("Space")
    assert (window.text("#play-word") == "Stop") == (plays is not False)
    if plays is None:  # the button's own: its lick
        assert chosen(window) == "A, Front porch"
