"""The guide tone: reeds, made with numpy from the recipe.

The pitch of a note is exact once it has settled, unless its technique moves it.
"""

from __future__ import annotations

from dataclasses import replace
from functools import lru_cache
from typing import TYPE_CHECKING

from formsheet.music.pitch import hertz
from formsheet.sound.events import Event
from formsheet.sound.motion import Stretch, brightness, cents, loudness, sounding, stretches
from formsheet.sound.noise import breath
from formsheet.sound.recipe import RECIPE, level, partials
from formsheet.sound.samples import RATE, edges, moments, whole
from formsheet.sound.shapes import Shape, shape_of

if TYPE_CHECKING:
    from formsheet.sound.samples import Samples

_TABLE = 16_384  # samples of one period: fine enough to be read without interpolation
_BREATH = 0.004  # breath noise, as a share of the tone
_PUFF = 0.015  # seconds in which the noise at a note's start decays by a factor of e
_TOGETHER = 0.6  # several reeds at once: each is divided by their number to this power
_SEAM = 0.006  # seconds: fades at the changes of hole in a shake
_GOLDEN = 0.381966  # of a period: difference of phase between neighbouring reeds
_KEPT = 256  # notes: the licks of a lesson come again and again


def guide_tone(event: Event, seconds_a_beat: float) -> Samples:
    """One note at root mean square about 1; not to be changed, for it is kept."""
    return _note(replace(event, start=0.0, bar=-1, syllable="", once=False), seconds_a_beat)


@lru_cache(maxsize=_KEPT)
def _note(event: Event, seconds_a_beat: float) -> Samples:
    import numpy as np

    length = sounding(event, seconds_a_beat)
    shape = shape_of(event.technique)
    at = moments(whole(length))
    opening = np.minimum(1.0, RECIPE.dull + (1 - RECIPE.dull) * at / RECIPE.opening)
    bright = opening * brightness(shape, at, length)
    ratio = 2.0 ** ((cents(shape, at, length) + _slid(event, shape, at, length)) / 1200)
    tone = np.zeros(len(at))
    parts = [*stretches(event, seconds_a_beat)]
    for each in parts:
        part = slice(whole(each.start), min(whole(each.start + each.length), len(at)))
        reeds = _reeds(each, event.draw, ratio[part], bright[part])
        tone[part] = reeds * edges(len(reeds), _SEAM, _SEAM) if len(parts) > 1 else reeds
    lowest = event.midi[0]
    tone += breath(len(at), lowest) * (_BREATH + shape.puff * np.exp(-at / _PUFF))
    moved = tone * loudness(shape, at, length) * _swaying(lowest, at)
    attack = shape.attack * 2 ** (RECIPE.slower * (RECIPE.middle - lowest) / 12)
    return np.asarray(event.loudness * moved * edges(len(at), attack, shape.release))


def _slid(event: Event, shape: Shape, at: Samples, length: float) -> Samples:
    """Cents by which a bend is still on its way; none where the technique moves the pitch."""
    import numpy as np

    if not event.slide or shape.pitch:
        return np.zeros(len(at))
    in_at, in_share = zip(*RECIPE.slide_in, strict=True)
    out_at, out_share = zip(*RECIPE.let_go, strict=True)
    coming = np.interp(at, in_at, in_share)
    going = np.interp(at - length, out_at, out_share)
    return np.asarray(event.slide * np.maximum(coming, going))


def _swaying(midi: int, at: Samples) -> Samples:
    """The slow movement of a note's loudness about 1; each pitch has its own course."""
    import numpy as np

    grown = np.minimum(1.0, at / RECIPE.settling)
    course = np.zeros(len(at))
    for number, each in enumerate(RECIPE.swaying, start=1):
        turns = each.hertz * at + midi * number * _GOLDEN
        course += each.loudness * np.sin(2 * np.pi * turns)
    return np.asarray(1 + grown * course)


def _reeds(stretch: Stretch, draw: bool, ratio: Samples, bright: Samples) -> Samples:
    """The reeds of one stretch; `ratio` to the written pitch and `bright` (0 to 1), per sample."""
    import numpy as np

    tone = np.zeros(len(ratio))
    turned = np.cumsum(ratio) - ratio[:1]
    for midi, away in zip(stretch.midi, beating(len(stretch.midi)), strict=True):
        # Reeds start at different phases, so that their peaks do not add up.
        turns = turned * (hertz(midi) * 2 ** (away / 1200) / RATE) + midi * _GOLDEN
        places = (turns * _TABLE).astype(np.intp) & (_TABLE - 1)
        dark, full = _period(midi, draw)
        tone += level(midi) * (dark[places] * (1 - bright) + full[places] * bright)
    return np.asarray(tone * len(stretch.midi) ** -_TOGETHER)


def beating(reeds: int) -> list[float]:
    """Cents by which each of so many reeds, low to high, is out; a single one is exact."""
    if reeds == 1:
        return [0.0]
    return [RECIPE.beating if number % 2 else -RECIPE.beating for number in range(reeds)]


@lru_cache(maxsize=_KEPT)
def _period(midi: int, draw: bool) -> tuple[Samples, Samples]:
    """One period of a reed at brightness 0 and at 1."""
    import numpy as np

    turn = 2 * np.pi * np.arange(_TABLE) / _TABLE
    tables = (np.zeros(_TABLE), np.zeros(_TABLE))
    strengths = zip(partials(midi, draw, 0.0), partials(midi, draw, 1.0), strict=True)
    for number, both in enumerate(strengths, start=1):
        wave = np.sin(number * turn + RECIPE.turn * number * number)
        for table, strength in zip(tables, both, strict=True):
            table += strength * wave
    return tables
