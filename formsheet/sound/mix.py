"""A take as samples: voices mixed at their levels, and the whole at the loudness of all clips."""

from __future__ import annotations

from typing import TYPE_CHECKING

from formsheet.sound.drums import DRUMS, struck
from formsheet.sound.events import Event
from formsheet.sound.limiter import limited, peaks
from formsheet.sound.loudness import loudness
from formsheet.sound.reed import guide_tone
from formsheet.sound.samples import whole
from formsheet.sound.strings import BASS, KEYS, rung
from formsheet.sound.takes import BAND, Take

if TYPE_CHECKING:
    from formsheet.sound.samples import Samples

BEFORE, AFTER = 0.25, 0.5  # seconds of silence
_LONGEST_RING = max(drum.seconds for drum in DRUMS.values())  # seconds after the end of the take
#: Gain of each voice. What the band has beside the guide is in `balance.py`. Our own choice.
LEVELS = {"guide": 0.2, "bass": 0.13, "chord": 0.14, "drum": 0.09, "click": 0.26}
LOUDNESS = -16.0  # LUFS of every clip
#: Highest true peak: -1 dBTP (EBU R 128, 2020) is asked for; MP3 adds up to 1 dB.
LOUDEST = 10 ** (-2 / 20)
MOST_LIMITED = 10 ** (3 / 20)  # a peak is turned down by 3 dB at most; else the clip is softer


def samples_of(taken: Take, tempo: float, *, band: float = 1.0) -> Samples:
    """The take as samples; `tempo` in beats of the meter a minute, `band` the gain of the band."""
    import numpy as np

    seconds_a_beat = 60 / tempo
    end = whole(BEFORE + taken.beats * seconds_a_beat)
    mixed = np.zeros(end + whole(_LONGEST_RING + AFTER))
    for event in taken.events:
        gain = LEVELS[event.voice] * (band if event.voice in BAND else 1.0)
        sound = gain * _sound(event, seconds_a_beat)
        at = whole(BEFORE + event.start * seconds_a_beat)
        mixed[at : at + len(sound)] += sound
        end = max(end, at + len(sound))
    return mixed[: end + whole(AFTER)]


def mastered(samples: Samples) -> Samples:
    """Samples at `LOUDNESS` with no true peak above `LOUDEST`.

    Softer where peaks would have to be turned down by more than `MOST_LIMITED`.
    """
    found = peaks(samples)
    highest = float(found.max(initial=0.0))
    if not highest:
        return samples
    gain = 10 ** ((LOUDNESS - loudness(samples)) / 20)
    gain = min(gain, LOUDEST * MOST_LIMITED / highest)
    return limited(samples * gain, found * gain, LOUDEST)


def band_sound(voice: str, midi: tuple[int, ...], seconds: float) -> Samples:
    """A sound of the band or a click at full loudness; a drum's length is its own."""
    if voice in ("drum", "click"):
        return struck(midi[0])
    return rung(BASS if voice == "bass" else KEYS, midi, whole(seconds))


def _sound(event: Event, seconds_a_beat: float) -> Samples:
    if event.voice == "guide":
        return guide_tone(event, seconds_a_beat)
    return event.loudness * band_sound(event.voice, event.midi, event.length * seconds_a_beat)
