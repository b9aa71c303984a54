"""The self-check on the page, with a microphone that is simulated; by the real audio clock."""

from __future__ import annotations

import pytest

from tests.browser.conftest import Opener
from tests.browser.window import Window
from tests.helpers import over

TUNE = over("I | IV", "q 2d 3d 4d 2d | q 4b 5b 6b -", tempo="150", count_in="1")

#: A microphone that hears one pitch all the time.
HUMMING = """
navigator.mediaDevices.getUserMedia = async wish => {
    window.asked = wish.audio;
    const context = new AudioContext(), tone = context.createOscillator();
    tone.frequency.value = 392; // 2 draw of a C harp
    const level = context.createGain(), out = context.createMediaStreamDestination();
    level.gain.value = 0.2;
    tone.connect(level).connect(out);
    tone.start();
    return out.stream;
};
"""
#: A microphone before the loudspeaker: it hears what the page plays.
NEAR_THE_SPEAKER = """
const connect = AudioNode.prototype.connect;
AudioNode.prototype.connect = function (to, ...rest) {
    if (to === this.context.destination) {
        window.played ??= this.context.createMediaStreamDestination();
        connect.call(this, window.played);
    }
    return connect.call(this, to, ...rest);
};
navigator.mediaDevices.getUserMedia = async () => window.played.stream;
"""


def with_microphone(opened: Opener, script: str) -> Window:
    """A page in a browser whose microphone is this."""
    window = opened(TUNE, by_clock=False)
    window.page.add_init_script(script)
    window.page.reload()
    return window


def listen(window: Window) -> None:
    """Press the button, and wait for the microphone."""
    window.page.locator("#listen").click()
    window.page.locator("#listen[aria-pressed='true']").wait_for()


def results(window: Window) -> list[str]:
    """What was heard, in order."""
    return window.page.locator("#check-list li").all_inner_texts()[::-1]


def test_notes_are_told_as_they_are_heard(opened: Opener) -> None:
    window = with_microphone(opened, HUMMING)
    listen(window)
    assert window.page.evaluate("asked") == {
        "echoCancellation": False, "noiseSuppression": False, "autoGainControl": False,
    }  # fmt: skip
    window.page.locator("#play").click()
    window.page.locator("html:not(.playing)").wait_for(timeout=15000)
    found = results(window)
    assert found[:2] == ["Bar 1, 2 draw: right", "Bar 1, 3 draw: 2 draw or 3 blow was heard"]
    assert window.text("#check-words").startswith("Right: 2 of ")
    assert window.page.locator(".bar .verdict.right").count() == 2


def test_calibrated_it_hears_the_page_itself_in_time(opened: Opener) -> None:
    """The guide through the loudspeaker is right and in time, if the page's sound is exact."""
    window = with_microphone(opened, NEAR_THE_SPEAKER)
    listen(window)
    window.page.locator("#calibrate").click()
    window.page.locator("#check-words", has_text="Calibrated").wait_for(timeout=8000)
    window.page.locator("#check-with").select_option("all")
    window.page.locator("#more").click()
    for level in ("band", "clicks"):
        window.slide(f"#level-{level}", 0)
    window.page.locator("#play").click()
    window.page.locator("html:not(.playing)").wait_for(timeout=15000)
    found = results(window)
    assert len(found) >= 6
    right = [each for each in found if each.endswith(": right, in time")]
    assert len(right) >= len(found) - 1


def test_only_clicks_sound_while_it_listens(opened: Opener) -> None:
    """The harmonica that is heard is the student's."""
    window = with_microphone(opened, NEAR_THE_SPEAKER)
    listen(window)
    window.page.locator("#play").click()
    window.page.locator("html:not(.playing)").wait_for(timeout=15000)
    found = results(window)
    assert found
    assert not any("right" in each for each in found)
    window.page.locator("#listen").click()
    assert window.page.locator("#listen").get_attribute("aria-pressed") == "false"
    assert window.text("#check-words") == "The microphone is off."


@pytest.mark.parametrize(
    ("script", "words"),
    [
        ("Object.defineProperty(navigator, 'mediaDevices', { value: undefined });",
         "This browser gives no microphone to a page that is opened as a file."),
        ("navigator.mediaDevices.getUserMedia = () =>"
         " Promise.reject(new DOMException('no', 'NotAllowedError'));",
         "The browser refused the microphone."),
        ("navigator.mediaDevices.getUserMedia = () =>"
         " Promise.reject(new DOMException('no', 'NotFoundError'));", "No microphone was found."),
    ],
    ids=["file", "refused", "none"],
)  # fmt: skip
def test_a_refusal_is_told_with_what_to_do(opened: Opener, script: str, words: str) -> None:
    window = with_microphone(opened, script)
    window.page.locator("#listen").click()
    window.page.locator("#check-words", has_text=words).wait_for()
    assert window.page.locator("#listen").get_attribute("aria-pressed") == "false"
    window.page.locator("#play").click()  # the page plays on without
    window.page.locator("html.playing").wait_for()
