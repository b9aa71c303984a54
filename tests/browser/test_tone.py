"""The page's reed and band beside those of the clips: partials, levels, balance."""

from __future__ import annotations

from base64 import b64decode
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING

import numpy as np
import pytest
from playwright.sync_api import Browser

from formsheet.music.pitch import hertz
from formsheet.page.page_data import sound_data
from formsheet.sound.events import Event
from formsheet.sound.loudness import loudness
from formsheet.sound.reed import guide_tone
from formsheet.sound.samples import RATE
from tests.lessons import NAMES, demo

if TYPE_CHECKING:
    from formsheet.sound.samples import Samples

SCRIPTS = Path(__file__).parents[2] / "templates" / "page"
#: The levels of the page as it opens: sliders at 0.8 and 0.5, squared (player.js).
GUIDE, BAND = 0.8**2, 0.5**2
SECONDS = 16.0

RENDER = """async ([sound, events, seconds, beat, level]) => {
  %s
  const context = new OfflineAudioContext(1, Math.round(44100 * seconds), 44100);
  const out = context.createGain();
  out.gain.value = level;
  out.connect(context.destination);
  for (const event of events) {
    const [when, length] = [event.start * beat, event.length * beat];
    const shape = sound.shapes[event.technique] ?? sound.plain;
    if (event.voice === "guide") playReed(context, out, event, sound.reed, shape, when, length, 0);
    else playBand(context, out, event, when, length, 0, sound.balance);
  }
  const bytes = new Uint8Array((await context.startRendering()).getChannelData(0).buffer);
  let text = "";
  for (let i = 0; i < bytes.length; i += 8192) {
    text += String.fromCharCode(...bytes.subarray(i, i + 8192));
  }
  return btoa(text);
}"""


@cache
def data(name: str) -> dict[str, object]:
    tune = demo(name).tune
    assert tune
    return sound_data(tune)


def rendered(
    browser: Browser, sound: object, events: object, seconds: float, beat: float, level: float = 1.0
) -> Samples:
    """What the scripts of the page play of some events, from beat 0."""
    scripts = "".join((SCRIPTS / name).read_text("utf-8") for name in ("tone.js", "band.js"))
    page = browser.new_page()
    try:
        text = page.evaluate(RENDER % scripts, [sound, events, seconds, beat, level])
    finally:
        page.close()
    return np.frombuffer(b64decode(text), dtype="<f4").astype(np.float64)


def partials(samples: Samples, midi: int) -> Samples:
    """Decibels of partials 1 to 8 of a settled note, against the strongest."""
    piece = samples[round(0.3 * RATE) : round(0.9 * RATE)]
    power = np.abs(np.fft.rfft(piece * np.hanning(len(piece)))) ** 2
    at = np.fft.rfftfreq(len(piece), 1 / RATE)
    found = np.array([power[np.abs(at / hertz(midi) - n) < 0.2].sum() for n in range(1, 9)])
    decibels: Samples = 10 * np.log10(found / found.max())
    return decibels


@pytest.mark.parametrize("draw", [False, True])
@pytest.mark.parametrize("midi", [55, 67, 74, 84])
def test_the_reed_is_that_of_the_clips(browser: Browser, midi: int, draw: bool) -> None:
    """Each partial within 1.5 dB, and the level in the same proportion for all notes."""
    note = {"voice": "guide", "start": 0, "length": 1.0, "midi": [midi], "draw": draw}
    page = rendered(browser, data("slow-barge"), [note], 1.1, 1.0)
    clip = guide_tone(Event("guide", 0, 1.0, (midi,), draw=draw), 1.0)
    heard = partials(clip, midi) > -40
    apart = (partials(page, midi) - partials(clip, midi))[heard]
    assert np.max(np.abs(apart)) < 1.5
    level = 20 * np.log10(np.std(page[13_000:40_000]) / np.std(clip[13_000:40_000]))
    assert level == pytest.approx(20 * np.log10(0.25), abs=0.5)


def test_a_bend_slides_in_on_the_page_too(browser: Browser) -> None:
    """The wave of the first 40 ms is shorter than that of the settled note."""
    note = {"voice": "guide", "start": 0, "length": 0.6, "midi": [58], "draw": True, "slide": 110.0}

    def period(start: float, end: float) -> float:
        piece = page[round(start * RATE) : round(end * RATE)]
        spectrum = np.abs(np.fft.rfft(piece * np.hanning(len(piece)), 1 << 18))
        low, high = (round(hertz(58) * x * (1 << 18) / RATE) for x in (0.8, 1.25))
        return float((low + np.argmax(spectrum[low:high])) * RATE / (1 << 18))

    page = rendered(browser, data("slow-barge"), [note], 0.7, 1.0)
    assert 1200 * np.log2(period(0.0, 0.04) / hertz(58)) > 15
    assert abs(1200 * np.log2(period(0.1, 0.55) / hertz(58))) < 3


@pytest.mark.parametrize("name", NAMES)
def test_the_band_is_4_to_6_under_the_guide_as_the_page_opens(browser: Browser, name: str) -> None:
    tune = demo(name).tune
    assert tune
    sound = data(name)
    beat = 60 / float(tune.lesson.facts.tempo)
    found = []
    for voice, level in (("guide", GUIDE), ("band", BAND)):
        events = [e for e in sound[voice] if 0 <= e["start"] * beat < SECONDS]  # type: ignore[attr-defined]
        found.append(loudness(rendered(browser, sound, events, SECONDS, beat, level)))
    assert 4 <= found[0] - found[1] <= 6
