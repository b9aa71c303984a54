"""What the page plays, held against the lesson: when, how high, how long a loop is."""

from __future__ import annotations

from itertools import pairwise
from pathlib import Path

import numpy as np
import parselmouth
import pytest

from formsheet.music.pitch import hertz
from formsheet.tune.timeline import Tune
from tests.browser.conftest import Opener
from tests.browser.window import Heard, Window
from tests.helpers import lesson_text, over, tune_of

LESSONS = Path(__file__).parents[2] / "lessons"
EXACT = 0.002  # seconds, as the page promises
START = 3.0  # seconds within which a bar of count-in at 60 is not over

SHUFFLE = lesson_text(
    """
lick porch on I
  q 2d e 3d' 4d q 2d -
lick creek on IV
  e 4b 5b q 6b h -
lick gate on V
  pickup e 1d 2b
  q 4d e3 4d 3d 2d q 1d -
play
  every I porch
  every IV creek
  every V gate
""",
    tempo="120",
    feel="swing",
)
TWELVE_EIGHT = over("I | IV", "e 2d 3d 4d q. 2d 3d 1d | q. 4b 5b h. -", meter="12/8", tempo="60")
LED_IN = over("I | I", "pickup e 1d 2b\n e 2d 2d - 4d = 3d q - | q 1d 2d h -", tempo="96")
PLAIN = over("I | IV | V | I", "q 2d 3d 4d 5d | q 4b 5b 6b - | w 4d | h 2d -", tempo="120")


def begins(window: Window, tune: Tune) -> float:
    """When the first bar line was heard: after a bar of clicks."""
    beat = 60 / float(tune.lesson.facts.tempo)
    return window.clicks()[0] + tune.lesson.facts.meter.beats * beat


def onsets(reeds: list[Heard], begin: float = 0.0) -> list[float]:
    """The moments at which notes begin, one for each note however many reeds it has."""
    return sorted({round(reed.when - begin, 6) for reed in reeds})


def pitches(reeds: list[Heard]) -> list[float]:
    return [reed.hertz or 0.0 for reed in reeds]


def periods(reeds: list[Heard]) -> list[float]:
    """From each note to the next."""
    return [other - one for one, other in pairwise(onsets(reeds))]


@pytest.mark.parametrize("text", [SHUFFLE, TWELVE_EIGHT, LED_IN], ids=["swing", "12/8", "pick-up"])
def test_a_chorus_sounds_when_the_lesson_says(opened: Opener, text: str) -> None:
    window, tune = opened(text), tune_of(text)
    window.play(START + tune.notes[-1].end_s + 2)
    begin = begins(window, tune)
    assert onsets(window.heard(), begin) == pytest.approx(
        [note.start_s for note in tune.notes], abs=EXACT
    )


def test_a_whole_demo_chorus_with_chords_and_techniques(opened: Opener) -> None:
    text = (LESSONS / "gantry-crane.lesson").read_text(encoding="utf-8")
    window, tune = opened(text), tune_of(text)
    window.play(START + 1 + tune.notes[-1].end_s)
    begin = begins(window, tune)
    reeds = window.heard()
    assert onsets(reeds, begin) == pytest.approx([n.start_s for n in tune.notes], abs=EXACT)
    assert pitches(reeds) == pytest.approx(
        [hertz(midi) for note in tune.notes for midi in note.midi], rel=1e-6
    )


def test_notes_end_where_the_lesson_ends_them(opened: Opener) -> None:
    window, tune = opened(PLAIN), tune_of(PLAIN)
    window.play(START + 7)  # and not to the end, which stops all
    begin = begins(window, tune)
    ends = [reed.until - begin for reed in window.heard()]
    assert ends == pytest.approx([note.end_s for note in tune.notes], abs=0.011)


def test_a_loop_returns_exactly(opened: Opener) -> None:
    window = opened(PLAIN)
    window.page.locator(".bar").nth(1).click()
    window.run(40)
    times = onsets(window.heard())
    rounds = [times[i : i + 3] for i in range(0, len(times), 3)]
    assert len(rounds) > 15
    for number, each in enumerate(rounds):
        begin = rounds[0][0] + number * 2.0  # a bar of four at 120
        assert each == pytest.approx([begin, begin + 0.5, begin + 1.0][: len(each)], abs=1e-5)


def test_a_range_of_bars_loops(opened: Opener) -> None:
    window = opened(PLAIN)
    window.page.locator(".bar").nth(1).click()
    window.page.keyboard.press("Shift+ArrowRight")
    assert window.page.locator("#what option:checked").inner_text() == "Bars 2 to 3"
    window.forget()
    window.run(START + 10)
    # Bars 2 and 3: three quarters, a rest, a whole note.
    assert periods(window.heard())[:8] == pytest.approx([0.5, 0.5, 1.0, 2.0] * 2, abs=1e-5)


def test_a_pick_up_is_heard_before_each_time_round(opened: Opener) -> None:
    window = opened(LED_IN)
    window.page.locator("[data-lick='0']").click()
    window.run(START + 14)
    times = onsets(window.heard())
    notes = len(tune_of(LED_IN).notes)
    assert times[notes] - times[0] == pytest.approx(8 * 60 / 96, abs=1e-5)


def test_a_pick_up_that_is_played_once_is_heard_once(opened: Opener) -> None:
    text = over("I", "pickup once e 1d 2b\n w 2d", tempo="96")
    window = opened(text)
    window.page.locator("[data-lick='0']").click()
    window.run(START + 14)
    times = onsets(window.heard())
    bar = 4 * 60 / 96
    assert times[2] - times[0] == pytest.approx(bar / 4, abs=1e-5)
    assert periods(window.heard())[2:5] == pytest.approx([bar] * 3, abs=1e-5)


def test_a_loop_with_a_count_in_each_time(opened: Opener) -> None:
    window = opened(PLAIN)
    window.page.locator(".bar").nth(1).click()
    window.page.locator("#more").click()
    window.page.locator("#count-again").check()
    window.run(START + 10)
    assert periods(window.heard())[:5] == pytest.approx([0.5, 0.5, 3.0, 0.5, 0.5], abs=1e-5)


def test_tempo_changes_time_and_not_pitch(opened: Opener) -> None:
    window = opened(PLAIN)
    window.play(START + 8)
    full = window.heard()
    window.page.keyboard.press("Escape")
    window.forget()
    window.slide("#tempo", 50)
    window.play(2 * START + 16)
    half = window.heard()
    assert pitches(half) == pitches(full)
    assert periods(half) == pytest.approx([2 * each for each in periods(full)], abs=1e-5)


def test_a_new_tempo_holds_from_the_next_beats_on(opened: Opener) -> None:
    window = opened(PLAIN)
    window.play(3.2)
    early = len(window.heard())
    window.slide("#tempo", 60)
    window.run(14)
    steps = periods(window.heard())
    usual = [0.5, 0.5, 0.5, 0.5, 0.5, 0.5, 1.0, 2.0]
    assert len(steps) == len(usual)  # none lost, none twice
    assert steps[: early - 1] == pytest.approx(usual[: early - 1], abs=1e-5)
    assert steps[early:] == pytest.approx([each / 0.6 for each in usual[early:]], abs=1e-5)
    assert usual[early - 1] < steps[early - 1] < usual[early - 1] / 0.6


def test_another_harp_changes_pitch_and_not_time(opened: Opener) -> None:
    window = opened(PLAIN)
    window.play(START + 8)
    own = window.heard()
    window.page.keyboard.press("Escape")
    window.forget()
    window.page.locator("#harp").select_option(label="A")
    assert window.text("#song-key") == "E"
    window.play(START + 8)
    other = window.heard()
    assert periods(other) == pytest.approx(periods(own), abs=1e-5)
    assert pitches(other) == pytest.approx([p * 2 ** (-3 / 12) for p in pitches(own)], rel=1e-6)


def test_clicks_keep_to_the_beat(opened: Opener) -> None:
    window = opened(PLAIN)
    window.play(START + 8)
    clicks = window.clicks()
    assert len(clicks) == 4 + 16
    assert [b - a for a, b in pairwise(clicks)] == pytest.approx([0.5] * 19, abs=1e-5)


def test_sounds_are_handed_over_in_time(opened: Opener) -> None:
    window = opened(SHUFFLE)
    window.play(START + 24)
    late = [each for each in window.page.evaluate("heard") if each["when"] < each["now"]]
    assert late == []


def test_the_tone_is_in_tune_and_not_clipped(opened: Opener) -> None:
    # A scale with bends of each depth and an overblow; pitch as Praat hears it.
    music = "h 1b 2d | h 2d' 2d'' | h 3d''' 4d' | h 6b 6ob | h 8b' 10b''"
    text = over(" | ".join(["I"] * 5), music, tempo="120")
    window, tune = opened(text), tune_of(text)
    window.page.locator("#more").click()
    for name in ("band", "clicks"):
        window.slide(f"#level-{name}", 0)
    window.slide("#level-guide", 100)
    window.play(START + 10)
    begin = begins(window, tune)
    samples = window.rendered()
    assert 0.05 < np.abs(samples).max() < 1.0
    for note in tune.notes:
        start, end = begin + note.start_s + 0.2, begin + note.end_s - 0.2
        sound = parselmouth.Sound(samples[int(start * 44100) : int(end * 44100)], 44100)
        found = sound.to_pitch_ac(pitch_floor=150, pitch_ceiling=3000, very_accurate=True)
        heard = np.median(found.selected_array["frequency"])
        cents = 1200 * np.log2(heard / hertz(note.midi[0]))
        assert abs(cents) < 3, f"{note.tab}: {cents:.2f} cents"


def test_stop_silences_everything(opened: Opener) -> None:
    window = opened(PLAIN)
    window.play(4)
    window.page.keyboard.press("Escape")
    now = window.page.evaluate("listened.currentTime")
    assert max(reed.until for reed in window.heard()) <= now + 0.05
    window.run(3)
    assert window.text("#play-word") == "Play"
