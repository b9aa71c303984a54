"""Substitutes for pitches that a harp cannot sound together, or not at all."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from enum import IntEnum
from typing import Any

from formsheet.music.tab import Tab

Pitches = tuple[int, ...]  # MIDI numbers, low to high
Reach = Mapping[Pitches, tuple[Tab, ...]]

#: A substitute at most this far away, in half steps, is heard as a variant of the note; beyond
#: that, the same note in another octave is better.
NEAR = 2
#: Most half steps to the same note in another octave.
_FAR = 24
#: Number of different notes that make a chord; fewer are an interval.
_CHORD = 3
#: Most half steps that another voicing of a chord may move its top note.
_VOICING_REACH = 12
_OCTAVE = 12


class Kept(IntEnum):
    """How much of the original a choice keeps; the number is its `Cost.replaced`."""

    EXACT = 0
    VOICING = 1  # the same notes in another order or octave
    PART = 2  # some of the chord, its top note kept
    TOP = 3  # the top note of the chord alone
    SOME = 4  # some of the chord, its top note lost: a doubled root, say
    TONE = 5  # another note of the chord alone
    STAND_IN = 6  # none of it: the nearest note that there is


def fallbacks(midi: Pitches, known: Reach, melody: bool) -> Iterator[tuple[Kept, list[Pitches]]]:
    """Substitutes in order of preference, each kind with the pitches that the harp has.

    In a melody the top note is kept or counts as missing; in an accompaniment the chord is kept.
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
    """Chords of the same notes: nearest top note first, then the most similar."""
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
    """Chords of two or more of the notes with the same top note, those with most notes first."""
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
    """For three or more notes, chords of some of them, nearest top note first."""
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
    """The notes nearest to one that the harp does not have."""
    single: list[Pitches] = [each for each in known if len(each) == 1]
    near = _nearest(single, lambda each: abs(each[0] - asked))
    if abs(near[0][0] - asked) <= NEAR:
        return near
    octaves = [
        each for each in single if (each[0] - asked) % _OCTAVE == 0 and abs(each[0] - asked) <= _FAR
    ]
    return _nearest(octaves, lambda each: abs(each[0] - asked)) or near


def _nearest(found: list[Pitches], distance: Callable[[Pitches], Any]) -> list[Pitches]:
    """Those with the least distance."""
    if not found:
        return []
    least = min(map(distance, found))
    return [each for each in found if distance(each) == least]
