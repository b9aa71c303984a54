"""What to play instead: the nearest chord tones on this harp, fewest bends first."""

from __future__ import annotations

from collections.abc import Iterable

from formsheet.judge.fit import Verdict, tone_verdict
from formsheet.judge.harmony import blocks, splits
from formsheet.judge.level import WIDE_SLIDE
from formsheet.lesson.model import Lesson
from formsheet.music.chord import Chord
from formsheet.music.harp import Harp
from formsheet.music.tab import Shape, Tab
from formsheet.tune.timeline import Note, Tune

_NEAR = 4  # semitones; a note farther away makes another melody. Our own choice
_MOST_OFFERS = 3


def chord_tones_near(tab: Tab, chord: Chord, heard: Iterable[Chord], lesson: Lesson) -> list[str]:
    """Tab of chord tones near a note, or of blocks and splits of the chord near a block.

    `heard` are all chords that the note is played over: a note that clashes with one of them is
    offered only if there is no other.
    """
    harp = lesson.facts.harp
    root = lesson.key.pitch_class + chord.root
    tones = frozenset((root + tone) % 12 for tone in chord.tones)
    if tab.shape is Shape.SINGLE:
        near = _single_notes(tab, harp, tones)
    else:
        near = [*_chords(tab, harp, tones)] or _single_notes(tab, harp, tones)
    good = [each for each in near if not _clashes(each, heard, lesson)]
    return [str(each) for each in (good or near)[:_MOST_OFFERS]]


def _clashes(tab: Tab, chords: Iterable[Chord], lesson: Lesson) -> bool:
    """Whether a tone of the tab clashes with one of the chords."""
    return any(
        tone_verdict(midi % 12, chord, lesson.key) is Verdict.CLASH
        for midi in lesson.facts.harp.pitches(tab)
        for chord in chords
    )


def same_pitch(note: Note, harp: Harp) -> list[str]:
    """Other tab for the same pitch, without overbends, shallower bends first."""
    found = [
        tab
        for tab, midi in harp.single_notes()
        if (midi,) == note.midi and tab != note.tab and tab.bend < max(note.tab.bend, 1)
    ]
    return [str(tab) for tab in sorted(found, key=lambda tab: tab.bend)[:_MOST_OFFERS]]


def singles_near(last: Tab, first: Note, tune: Tune) -> list[str]:
    """Natural chord tones near the note before: on the breath of `first` first, then by hole."""
    lesson = tune.lesson
    chord = tune.bars[first.bar].chord_at(first.onset)
    root = lesson.key.pitch_class + chord.root
    tones = {(root + tone) % 12 for tone in chord.tones}
    found = [
        (tab, abs(tab.holes[0] - last.holes[0]))
        for tab, midi in lesson.facts.harp.single_notes()
        if midi % 12 in tones and not tab.bend and abs(tab.holes[0] - last.holes[0]) < WIDE_SLIDE
    ]
    found.sort(key=lambda pair: (pair[0].breath is not first.tab.breath, pair[1]))
    return [str(tab) for tab, _ in found[:_MOST_OFFERS]]


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
