"""What to take for pitches that a harp does not sound together, or not at all."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from enum import IntEnum
from typing import Any

from formsheet.music.tab import Tab

Pitches = tuple[int, ...]  # MIDI numbers, low to high
Reach = Mapping[Pitches, tuple[Tab, ...]]

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
    """How much of what was asked a choice keeps; the number is its `Cost.replaced`."""

    EXACT = 0
    VOICING = 1  # the same notes in another order or octave
    PART = 2  # some of the chord, its top note kept
    TOP = 3  # the top note of the chord alone
    SOME = 4  # some of the chord, its top note lost: a doubled root, say
    TONE = 5  # another note of the chord alone
    STAND_IN = 6  # none of it: the nearest note that there is


def fallbacks(midi: Pitches, known: Reach, melody: bool) -> Iterator[tuple[Kept, list[Pitches]]]:
    """What to look for, the most faithful first, each with the pitches that there are of it.

    In a melody the top note stays or is missing; in an accompaniment the chord comes first.
    """
    yield Kept.EXACT, [each for each in (midi,) if each in known]
    chords = [each for each in known if len(each) > 1]
    top = [midi[-1:]] if len(midi) > 1 and midi[-1:] in known else []
    if len(midi) > 1 and melody:
        yield Kept.VOICING, [each for each in _voicings(midi, chords) if each[-1] == midi[-1]]
        yield Kept.PART, _parts(midi, chords)
        yield Kept.TOP, top
    elif len(midi) > 1:
        yield Kept.VOICING, _voicings(midi, chords)
        yield Kept.PART, _parts(midi, chords)
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
    return _nearest(
        same,
        lambda each: (
            abs(each[-1] - midi[-1]),
            -len({*each} & {*midi}),
            abs(len(each) - len(midi)),
        ),
    )


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
    return _nearest(
        some,
        lambda each: (
            -len({note % _OCTAVE for note in each}),
            -len({*each} & {*midi}),
            len(each),
        ),
    )


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
