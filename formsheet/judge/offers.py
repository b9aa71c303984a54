"""What to play instead: the nearest chord tones on this harp, fewest bends first."""

from __future__ import annotations

from formsheet.judge.harmony import blocks, splits
from formsheet.lesson.model import Lesson
from formsheet.music.chord import Chord
from formsheet.music.harp import Harp
from formsheet.music.tab import Shape, Tab

_NEAR = 4  # semitones: farther away it is another melody
_MOST_OFFERS = 3


def chord_tones_near(tab: Tab, chord: Chord, lesson: Lesson) -> list[str]:
    """Tab of chord tones near a note, or of blocks and splits of the chord near a block."""
    harp = lesson.facts.harp
    root = lesson.key.pitch_class + chord.root
    tones = frozenset((root + tone) % 12 for tone in chord.tones)
    if tab.shape is Shape.SINGLE:
        near = _single_notes(tab, harp, tones)
    else:
        near = [*_chords(tab, harp, tones)] or _single_notes(tab, harp, tones)
    return [str(each) for each in near[:_MOST_OFFERS]]


def _single_notes(tab: Tab, harp: Harp, tones: frozenset[int]) -> list[Tab]:
    asked = harp.pitches(tab)[-1]
    found = [
        (each, abs(midi - asked))
        for each, midi in harp.single_notes()
        if midi % 12 in tones and abs(midi - asked) <= _NEAR
    ]
    found.sort(key=lambda pair: (pair[0].bend, pair[0].breath is not tab.breath, pair[1]))
    return [each for each, _ in found]


def _chords(tab: Tab, harp: Harp, tones: frozenset[int]) -> list[Tab]:
    """Blocks of the same size, then splits, that sound chord tones only; nearest first."""

    def distance(each: Tab) -> tuple[bool, bool, int]:
        return (
            each.shape is not tab.shape,
            each.breath is not tab.breath,
            abs(each.holes[0] - tab.holes[0]),
        )

    fitting = [
        each
        for each in (*blocks(len(tab.holes)), *splits())
        if all(midi % 12 in tones for midi in harp.pitches(each))
    ]
    return sorted(fitting, key=distance)
