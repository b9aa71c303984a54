"""All ways of playing one sound on a harp, each with its cost."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from functools import cache

from formsheet.arrange.cost import STIFF, UNBENDING, Cost, burden, strain
from formsheet.arrange.fallbacks import Kept, Pitches, Reach, fallbacks
from formsheet.arrange.sounds import Sound
from formsheet.judge.harmony import blocks, splits
from formsheet.music.harp import Harp
from formsheet.music.tab import WIDEST_REACH, Shape, Tab


@dataclass(frozen=True, slots=True)
class Choice:
    """A way of playing a sound."""

    tab: Tab
    midi: Pitches  # what it sounds
    kept: Kept
    cost: Cost
    slow: float = 0.0  # extra seconds for a move to or from it, see `cost.UNBENDING`


@cache
def reach(harp: Harp, overbends: bool) -> Reach:
    """Everything that a harp can sound: pitches (low to high) and the tabs that sound them."""
    found: dict[Pitches, list[Tab]] = {}
    for tab, midi in harp.single_notes(overbends):
        found.setdefault((midi,), []).append(tab)
    for size in range(2, WIDEST_REACH + 1):
        for tab in blocks(size):
            found.setdefault(harp.pitches(tab), []).append(tab)
    for tab in splits():
        found.setdefault(harp.pitches(tab), []).append(tab)
    return {midi: tuple(tabs) for midi, tabs in found.items()}


def joined(first: Choice, second: Choice, gap: Fraction) -> Cost:
    """The cost of the move from one choice to the next; `gap` is in quarters between onsets."""
    return Cost(strain=strain(first.tab, second.tab, gap, first.slow + second.slow))


@cache
def choices(
    midi: Pitches, harp: Harp, overbends: bool, bends: bool, melody: bool
) -> tuple[Choice, ...]:
    """All ways of playing some pitches, else of the nearest substitute; never empty.

    `bends` and `melody` are those of the sound, see `sounds.Sound`.
    """
    known = reach(harp, overbends)
    for kept, sounding in fallbacks(midi, known, melody):
        found = [(tab, each) for each in sounding for tab in known[each]]
        if found:
            some_bend = any(_bent(tab, harp) for tab, _ in found)
            return tuple(
                Choice(
                    tab=tab,
                    midi=each,
                    kept=kept,
                    cost=_cost(tab, kept, bends, harp),
                    slow=UNBENDING * (some_bend and not _bent(tab, harp)),
                )
                for tab, each in found
            )
    raise AssertionError("a harp sounds something")


def sound_choices(sound: Sound, harp: Harp, overbends: bool) -> tuple[Choice, ...]:
    """All ways of playing a sound, see `choices`."""
    return choices(sound.midi, harp, overbends, sound.bends, sound.melody)


def _cost(tab: Tab, kept: Kept, bends: bool, harp: Harp) -> Cost:
    missing = kept is Kept.STAND_IN
    stiff = bends and not harp.bends(tab)
    return Cost(int(missing), 0 if missing else int(kept), burden(tab) + STIFF * stiff)


def _bent(tab: Tab, harp: Harp) -> bool:
    """Whether a note is bent, or can be bent by at least a half step."""
    if tab.shape is not Shape.SINGLE:
        return False
    return tab.bend > 0 or tab.overbend or harp.deepest_bend(tab.holes[0], tab.breath) > 0
