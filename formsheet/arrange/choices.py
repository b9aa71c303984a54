"""All ways of playing one sound on a harp, and what stands in for it where there is none."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from enum import IntEnum
from fractions import Fraction
from functools import cache
from typing import Any

from formsheet.arrange.cost import STIFF, UNBENDING, Cost, burden, strain
from formsheet.arrange.sounds import Sound
from formsheet.judge.harmony import blocks, splits
from formsheet.music.harp import Harp
from formsheet.music.tab import WIDEST_REACH, Shape, Tab

#: A stand-in this near, in half steps, is heard as the note played off; beyond it, the same note
#: in another octave is the better one.
NEAR = 2
#: Farther than this the same note in another octave is no stand-in.
_FAR = 24
#: Different notes from which on an interval is a chord.
_CHORD = 3
#: Another voicing of a chord keeps its top note within this many half steps.
_VOICING_REACH = 12
_OCTAVE = 12


class Kept(IntEnum):
    """How much of what was asked a choice keeps; the number is its cost in `Cost.replaced`."""

    EXACT = 0
    VOICING = 1  # the same notes in another order or octave
    PART = 2  # some of the chord, its top note kept
    TOP = 3  # the top note of the chord alone
    SOME = 4  # some of the chord, its top note lost: a doubled root, say
    TONE = 5  # another note of the chord alone
    STAND_IN = 6  # none of it: the nearest note that there is


@dataclass(frozen=True, slots=True)
class Choice:
    """One way of playing a sound."""

    tab: Tab
    midi: tuple[int, ...]  # what it sounds
    kept: Kept
    cost: Cost
    slow: float = 0.0  # seconds more for a move into or out of it, see `cost.UNBENDING`


Pitches = tuple[int, ...]  # MIDI numbers, low to high
Reach = Mapping[Pitches, tuple[Tab, ...]]


@cache
def reach(harp: Harp, overbends: bool) -> Reach:
    """Everything that a harp sounds: pitches, low to high, and the tabs that sound them."""
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
    """What the move from one choice to the next costs, `gap` quarters being between onsets."""
    return Cost(strain=strain(first.tab, second.tab, gap, first.slow + second.slow))


@cache
def choices(midi: Pitches, bends: bool, harp: Harp, overbends: bool) -> tuple[Choice, ...]:
    """All ways of playing some pitches, else of what keeps the most of them; never none."""
    known = reach(harp, overbends)
    for kept, sounding in _asked(midi, known):
        found = [(tab, each) for each in sounding for tab in known[each]]
        if found:
            some_bend = any(_bends(tab, harp) for tab, _ in found)
            return tuple(
                Choice(
                    tab=tab,
                    midi=each,
                    kept=kept,
                    cost=_cost(tab, kept, bends, harp),
                    slow=UNBENDING * (some_bend and not _bends(tab, harp)),
                )
                for tab, each in found
            )
    raise AssertionError("a harp sounds something")


def sound_choices(sound: Sound, harp: Harp, overbends: bool) -> tuple[Choice, ...]:
    """All ways of playing a sound, see `choices`."""
    return choices(sound.midi, sound.bends, harp, overbends)


def _asked(midi: Pitches, known: Reach) -> Iterator[tuple[Kept, list[Pitches]]]:
    """What to look for, the most faithful first, each with the pitches that there are of it."""
    yield Kept.EXACT, [each for each in (midi,) if each in known]
    if len(midi) > 1:
        chords = [each for each in known if len(each) > 1]
        yield Kept.VOICING, _voicings(midi, chords)
        yield Kept.PART, _parts(midi, chords)
        top = [each for each in (midi[-1:],) if each in known]
        yield Kept.TOP, [each for each in top if not all(tab.bend for tab in known[each])]
        yield Kept.SOME, _some(midi, chords)
        yield Kept.TOP, top
        tones = [midi[at : at + 1] for at in range(len(midi) - 1)]
        yield Kept.TONE, [each for each in tones if each in known][-1:]
    yield Kept.STAND_IN, stand_ins(midi[-1], known)


def _voicings(midi: Pitches, chords: list[Pitches]) -> list[Pitches]:
    """Chords of the same notes, the top one nearest to where it was, then the most alike."""
    classes = {each % _OCTAVE for each in midi}
    same = [
        each
        for each in chords
        if {note % _OCTAVE for note in each} == classes
        and abs(each[-1] - midi[-1]) <= _VOICING_REACH
    ]
    return _nearest(same, lambda each: (abs(each[-1] - midi[-1]), abs(len(each) - len(midi))))


def _parts(midi: Pitches, chords: list[Pitches]) -> list[Pitches]:
    """Chords of two or more of the notes below the same top note, the most of them first."""
    classes = {each % _OCTAVE for each in midi}
    some = [
        each
        for each in chords
        if each[-1] == midi[-1]
        and len({note % _OCTAVE for note in each} & classes) > 1
        and {note % _OCTAVE for note in each} <= classes
    ]
    return _nearest(some, lambda each: (-len({note % _OCTAVE for note in each}), len(each)))


def _some(midi: Pitches, chords: list[Pitches]) -> list[Pitches]:
    """Of three notes or more, chords of some of them, the top one nearest to where it was."""
    classes = {each % _OCTAVE for each in midi}
    if len(classes) < _CHORD:
        return []
    some = [
        each
        for each in chords
        if {note % _OCTAVE for note in each} <= classes
        and abs(each[-1] - midi[-1]) <= _VOICING_REACH
    ]
    return _nearest(
        some, lambda each: (-len({note % _OCTAVE for note in each}), abs(each[-1] - midi[-1]))
    )


def stand_ins(asked: int, known: Reach) -> list[Pitches]:
    """The notes that come nearest to one that the harp does not have."""
    single: list[Pitches] = [each for each in known if len(each) == 1]
    near = _nearest(single, lambda each: abs(each[0] - asked))
    if abs(near[0][0] - asked) <= NEAR:
        return near
    octaves = [
        each for each in single if (each[0] - asked) % _OCTAVE == 0 and abs(each[0] - asked) <= _FAR
    ]
    return _nearest(octaves, lambda each: abs(each[0] - asked)) or near


def _nearest(found: list[Pitches], distance: Callable[[Pitches], Any]) -> list[Pitches]:
    """Those of the least distance."""
    if not found:
        return []
    least = min(map(distance, found))
    return [each for each in found if distance(each) == least]


def _cost(tab: Tab, kept: Kept, bends: bool, harp: Harp) -> Cost:
    missing = kept is Kept.STAND_IN
    stiff = bends and not _gives(tab, harp)
    return Cost(int(missing), 0 if missing else int(kept), burden(tab) + STIFF * stiff)


def _bends(tab: Tab, harp: Harp) -> bool:
    """Whether a note is bent, or bends by a half step at least."""
    if tab.shape is not Shape.SINGLE:
        return False
    return tab.bend > 0 or tab.overbend or harp.deepest_bend(tab.holes[0], tab.breath) > 0


def _gives(tab: Tab, harp: Harp) -> bool:
    """Whether a note bends down at all, if only by a shade."""
    if tab.shape is not Shape.SINGLE:
        return False
    hole, breath = tab.holes[0], tab.breath
    return tab.overbend or harp.reed(hole, breath) > harp.reed(hole, breath.other)
