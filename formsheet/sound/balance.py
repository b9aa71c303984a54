"""How loud the band plays under the guide: by loudness, the same in clips and page.

The loudness of both is reckoned from the events of the whole tune, without playing it: what each
sound adds to the weighted power of each tenth of a second. Measured on the played tune this is
true within 1 LU.
"""

from __future__ import annotations

from collections.abc import Iterable
from functools import lru_cache
from typing import TYPE_CHECKING

from formsheet.music.pitch import hertz
from formsheet.sound.backing import backing_events
from formsheet.sound.events import Event, guide_events
from formsheet.sound.loudness import gated, powers, weight
from formsheet.sound.mix import LEVELS, band_sound
from formsheet.sound.motion import sounding
from formsheet.sound.recipe import level, partials
from formsheet.sound.samples import moments
from formsheet.sound.shapes import PLAIN, along
from formsheet.tune.timeline import Tune

if TYPE_CHECKING:
    from formsheet.sound.samples import Samples

UNDER = 5.0  # LU by which the band is softer than the guide
_STEP = 0.1  # seconds
_EDGES = 0.86  # of a note's power is left by its edges, its swaying and its brightness; measured


def band_gain(tune: Tune) -> float:
    """What the band is multiplied by so that it lies `UNDER` the guide over the whole tune."""
    seconds_a_beat = 60 / float(tune.lesson.facts.tempo)
    guide = _loudness(guide_events(tune), seconds_a_beat)
    band = _loudness(backing_events(tune), seconds_a_beat)
    return float(10 ** ((guide - UNDER - band) / 20))


def _loudness(events: Iterable[Event], seconds_a_beat: float) -> float:
    import numpy as np

    added = [(event, _powers(event, seconds_a_beat)) for event in events]
    first = min(event.start for event, _ in added) * seconds_a_beat
    starts = [round((event.start * seconds_a_beat - first) / _STEP) for event, _ in added]
    steps = np.zeros(max(at + len(each) for at, (_, each) in zip(starts, added, strict=True)) + 4)
    for at, (_, each) in zip(starts, added, strict=True):
        steps[at : at + len(each)] += each
    return gated(steps)


def _powers(event: Event, seconds_a_beat: float) -> Samples:
    """The weighted power of a sound in each tenth of a second, at its level in the mix."""
    import numpy as np

    if event.voice != "guide":
        seconds = event.length * seconds_a_beat if event.voice in ("bass", "chord") else 0.0
        power = _band_powers(event.voice, event.midi, round(seconds, 2))
    else:
        seconds = sounding(event, seconds_a_beat)
        swell = np.interp(moments(4410), *along(PLAIN.loudness, 0.1, 1.0))
        steps, left = divmod(seconds, _STEP)
        shares = np.append(np.ones(int(steps)), left / _STEP)
        reeds = sum(_reed_power(midi, event.draw) for midi in event.midi)
        power = shares * reeds * len(event.midi) ** -1.2 * _EDGES * float(np.mean(swell**2))
    return np.asarray(power * (event.loudness * LEVELS[event.voice]) ** 2)


@lru_cache(maxsize=512)
def _band_powers(voice: str, midi: tuple[int, ...], seconds: float) -> Samples:
    return powers(band_sound(voice, midi, seconds))


@lru_cache(maxsize=256)
def _reed_power(midi: int, draw: bool) -> float:
    import numpy as np

    strengths = partials(midi, draw, 1.0)
    weights = weight(np.arange(1.0, len(strengths) + 1, dtype=np.float64) * hertz(midi))
    return float(level(midi) ** 2 * np.sum(strengths**2 / 2 * weights))
