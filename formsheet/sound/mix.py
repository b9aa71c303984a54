"""A take as samples: voices mixed at their levels, silence at both ends, peaks limited."""

from __future__ import annotations

from typing import TYPE_CHECKING

from formsheet.sound.drums import DRUMS, struck
from formsheet.sound.events import Event
from formsheet.sound.reed import guide_tone
from formsheet.sound.samples import whole
from formsheet.sound.strings import BASS, KEYS, rung
from formsheet.sound.takes import Take

if TYPE_CHECKING:
    from formsheet.sound.samples import Samples

BEFORE, AFTER = 0.25, 0.5  # seconds of silence
_LONGEST_RING = max(drum.seconds for drum in DRUMS.values())  # seconds after the end of the take
LOUDEST = 10 ** (-1 / 20)  # highest peak: -1 dBFS
#: Gain of each voice. The band is well below the guide tone. Our own choice.
LEVELS = {"guide": 0.2, "bass": 0.13, "chord": 0.055, "drum": 0.16, "click": 0.45}


def samples_of(taken: Take, tempo: float) -> Samples:
    """The take as samples from -1 to 1; `tempo` is in beats of the meter a minute."""
    import numpy as np

    seconds_a_beat = 60 / tempo
    end = whole(BEFORE + taken.beats * seconds_a_beat)
    mixed = np.zeros(end + whole(_LONGEST_RING + AFTER))
    for number, event in enumerate(taken.events):
        sound = _sound(event, seconds_a_beat, number)
        at = whole(BEFORE + event.start * seconds_a_beat)
        mixed[at : at + len(sound)] += sound
        end = max(end, at + len(sound))
    peak = max(float(mixed.max()), -float(mixed.min()))
    if peak > LOUDEST:
        mixed *= LOUDEST / peak
    return mixed[: end + whole(AFTER)]


def _sound(event: Event, seconds_a_beat: float, number: int) -> Samples:
    match event.voice:
        case "guide":
            sound = guide_tone(event, seconds_a_beat)
        case "drum" | "click":
            sound = event.loudness * struck(event.midi[0])
        case "bass" | "chord":
            string = BASS if event.voice == "bass" else KEYS
            count = whole(event.length * seconds_a_beat)
            sound = event.loudness * rung(string, event.midi, count)
    return sound * LEVELS[event.voice]
