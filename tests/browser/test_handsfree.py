"""Playing with both hands on the harp: media keys, a lit screen, steps by themselves, answers.

Headset and lock screen are simulated: the handlers that the page gives to the browser are called.
A real phone's lock screen and silent switch are untried.
"""

from __future__ import annotations

from itertools import pairwise
from pathlib import Path

import pytest

from tests.browser.conftest import Opener
from tests.browser.test_page import FAST, TUNE, marked
from tests.browser.test_sound import PLAIN, onsets
from tests.browser.window import Window
from tests.helpers import over

#: Takes note of what the page asks of the browser, before the page's own script.
ASKED = """
window.keys = {};
navigator.mediaSession.setActionHandler = (name, handler) => { keys[name] = handler; };
window.lit = 0;
Object.defineProperty(navigator, 'wakeLock', { value: { request: kind => {
    window.lit += 1;
    return Promise.resolve({ released: false, kind,
        release() { this.released = true; window.lit -= 1; return Promise.resolve(); } });
} } });
Object.defineProperty(navigator, 'audioSession', { value: { type: 'auto' } });
const play = HTMLMediaElement.prototype.play;
HTMLMediaElement.prototype.play = function () { window.silence = this; return play.call(this); };
"""


@pytest.fixture
def asked(opened: Opener) -> Window:
    """A page that is opened in a browser with all of it."""
    window = opened(TUNE)
    window.page.add_init_script(ASKED)
    window.page.reload()
    return window


def press(window: Window, key: str) -> None:
    """A key of a headset."""
    window.page.evaluate("key => keys[key]()", key)


def tempo(window: Window) -> float:
    """Beats a minute, as shown."""
    return float(window.text("#tempo-words").split()[0])


def settings(window: Window, **values: str | bool) -> None:
    """Set controls of the panel."""
    window.page.locator("#more").click()
    for name, value in values.items():
        control = window.page.locator(f"#{name.replace('_', '-')}")
        if isinstance(value, bool):
            control.set_checked(value)
        else:
            control.select_option(value)
    window.page.locator("#more").click()


def test_headset_keys_play_stop_and_lead_on(asked: Window) -> None:
    press(asked, "play")
    assert asked.text("#play-word") == "Stop"
    press(asked, "pause")
    assert asked.text("#play-word") == "Play"
    said = []
    for key in ("nexttrack", "nexttrack", "nexttrack", "nexttrack", "previoustrack"):
        press(asked, key)
        said.append(asked.text("#what option:checked"))
        assert asked.text("#play-word") == "Stop"
    assert said == ["A, Front porch", "B, Creek", "C, Gate", "A, Front porch", "C, Gate"]
    title = asked.page.evaluate("[navigator.mediaSession.metadata.title, document.title]")
    assert title == ["C, Gate", "Test Blues"]


def test_a_silent_element_plays_and_is_silent(asked: Window) -> None:
    asked.play(1)
    state = "[silence.paused, silence.loop, silence.src.slice(0, 15), silence.error]"
    asked.page.wait_for_function("!silence.paused && silence.readyState >= 3")
    assert asked.page.evaluate(state) == [False, True, "data:audio/wav;", None]
    assert asked.page.evaluate("[...atob(silence.src.split(',')[1])].slice(44)"
                               ".every(each => each.charCodeAt(0) === 128)")  # fmt: skip
    assert asked.page.evaluate("silence.duration") >= 5
    asked.page.keyboard.press("Escape")
    assert asked.page.evaluate("silence.paused")


def test_stopping_the_silence_from_outside_stops_the_page(asked: Window) -> None:
    asked.play(1)
    asked.page.wait_for_function("!silence.paused && silence.readyState >= 3")
    asked.page.evaluate("silence.pause()")
    asked.page.wait_for_function("!document.documentElement.matches('.playing')")


def test_the_screen_stays_lit_while_it_plays(asked: Window) -> None:
    assert asked.page.evaluate("lit") == 0
    asked.play(1)
    assert asked.page.evaluate("lit") == 1
    asked.page.evaluate("document.dispatchEvent(new Event('visibilitychange'))")
    assert asked.page.evaluate("lit") == 1  # it still holds
    asked.page.keyboard.press("Escape")
    assert asked.page.evaluate("lit") == 0
    assert asked.page.evaluate("navigator.audioSession.type") == "playback"


def test_the_tempo_steps_up_by_itself(opened: Opener) -> None:
    """A bar of 4 at 72 is 3.3 s; after each two of them, a step of 4 per cent of 120."""
    window = opened(PLAIN)
    settings(window, step_every="2")
    window.slide("#tempo", 60)
    window.page.locator(".bar").nth(1).click()
    window.run(0.1)
    begin = window.clicks()[0] + 4 * 60 / 72
    notes = [begin + 2.5 * 4 * 60 / 72, begin + 9 * 60 / 72 * 1]
    window.run(notes[0] - window.page.evaluate("listened.currentTime"))
    assert tempo(window) == 77  # 76.8
    window.page.keyboard.press("Shift+ArrowDown")
    window.page.keyboard.press("Shift+ArrowDown")
    assert tempo(window) == 67
    window.run(2 * 4 * 60 / 67 + 0.3)
    assert tempo(window) == 72  # on from what sounds


def test_it_does_not_step_beyond_the_tempo_of_the_tune(opened: Opener) -> None:
    window = opened(PLAIN)
    settings(window, step_every="2")
    window.slide("#tempo", 98)
    window.page.locator(".bar").nth(1).click()
    window.run(30)
    assert tempo(window) == 120


def test_a_join_steps_up_its_own_ladder(opened: Opener) -> None:
    window = opened(FAST)
    settings(window, step_every="2")
    rungs = [float(each) for each in
             window.page.locator("[data-join='0'] .ladder span").all_inner_texts()]  # fmt: skip
    window.page.locator("[data-practise='0']").click()
    seen = [tempo(window)]
    for _ in range(60):
        window.run(1)
        if tempo(window) != seen[-1]:
            seen.append(tempo(window))
    assert len(seen) >= 3
    assert seen == rungs[: len(seen)]
    window.page.reload()
    at = window.page.locator("[data-join='0'] .ladder .at").inner_text()
    assert float(at) == seen[-1]


def test_call_and_answer_by_turns(opened: Opener) -> None:
    """The bar sounds in its first, third, fifth time round; the band plays on in all."""
    window = opened(PLAIN)
    settings(window, answers=True)
    window.page.locator(".bar").nth(1).click()
    window.run(2 + 2 * 6.5)
    times = onsets(window.heard())
    starts = [one for before, one in pairwise([-9.0, *times]) if one - before > 1.1]
    assert [later - one for one, later in pairwise(starts)] == pytest.approx([4.0] * 3, abs=1e-5)
    basses = onsets(window.heard("triangle"))
    assert max(later - one for one, later in pairwise(basses)) < 2.1


def test_the_answer_says_whose_turn_it_is(opened: Opener) -> None:
    window = opened(PLAIN)
    settings(window, answers=True)
    window.page.locator(".bar").nth(1).click()
    window.run(3.0)
    assert window.text("#now") == "Bar 2"
    window.run(2.0)
    assert window.text("#now") == "Your turn: Bar 2"
    assert marked(window) == [1]


def test_a_call_that_is_not_repeated_has_its_answer(opened: Opener) -> None:
    window = opened(over("I | IV", "q 2d 3d 4d 5d | q 4b 5b 6b -", tempo="120"))
    settings(window, answers=True)
    window.play(2 + 4 + 3)
    assert window.text("#play-word") == "Stop"
    assert len(onsets(window.heard())) == 7
    window.run(3)
    assert window.text("#play-word") == "Play"
    assert len(onsets(window.heard())) == 7


def test_the_pick_up_of_an_answer_is_silent(opened: Opener) -> None:
    window = opened(over("I", "pickup e 1d 2b\n h. 2d q -", tempo="120"))
    settings(window, answers=True)
    window.page.locator("[data-lick='0']").click()
    window.run(2 + 2 * 4.2)
    times = onsets(window.heard())
    rounds = [one for before, one in pairwise([-9.0, *times]) if one - before > 1.4]
    assert all(later - one == pytest.approx(2 * (rounds[1] - rounds[0]) / 2, abs=1e-4)
               for one, later in pairwise(rounds))  # fmt: skip
    assert len(times) == 3 * len(rounds)


def test_two_pages_never_sound_together(opened: Opener, tmp_path: Path) -> None:
    """Two windows of one browser, from the disk."""
    one = opened(TUNE)
    other = Window(one.page.context.new_page(), tmp_path / "page.html", by_clock=True)
    one.play(1)
    other.play(1)
    one.page.wait_for_function("!document.documentElement.matches('.playing')")
    assert other.text("#play-word") == "Stop"
    assert one.text("#live") == "Stopped: another page plays"
    one.play(0.5)
    other.page.wait_for_function("!document.documentElement.matches('.playing')")
    assert one.text("#play-word") == "Stop"
    assert other.complaints == []


@pytest.mark.parametrize("name", ["gantry-crane", "slow-barge"])
def test_all_levels_at_full_do_not_clip(opened: Opener, name: str) -> None:
    text = (Path(__file__).parents[2] / "lessons" / f"{name}.lesson").read_text(encoding="utf-8")
    window = opened(text)
    window.page.locator("#more").click()
    for level in ("guide", "band", "clicks"):
        window.slide(f"#level-{level}", 100)
    window.play(14)
    peak = abs(window.rendered()).max()
    assert 0.5 < peak < 1.0
