"""Notes and chords of a harp that may be played instead of others, for a level of student."""

from __future__ import annotations

from collections.abc import Iterator

from formsheet.judge.harmony import blocks, pitch_classes, splits
from formsheet.judge.level import LIMITS, WIDE_SLIDE
from formsheet.lesson.model import Lesson
from formsheet.music.chord import Chord
from formsheet.music.harp import Harp
from formsheet.music.tab import Tab
from formsheet.tune.timeline import Note, Tune

#: Semitones: a note farther away makes another melody. Our own choice.
NEAR = 7
MOST_OFFERS = 3


def singles_for(lesson: Lesson) -> Iterator[tuple[Tab, int]]:
    """The single notes that the level may be asked for, with their MIDI numbers."""
    deepest = LIMITS[lesson.facts.level].deepest_bend
    return ((tab, m) for tab, m in lesson.facts.harp.single_notes() if tab.bend <= deepest)


def chord_tones_near(note: Note, chord: Chord, lesson: Lesson) -> list[str]:
    """Tab of the chord tones nearest to a note that the level may be asked for, one a pitch."""
    tones, top = pitch_classes(chord, lesson.key), note.midi[-1]
    found: dict[int, Tab] = {}
    for tab, midi in sorted(singles_for(lesson), key=lambda each: each[0].bend):
        if midi % 12 in tones and tab != note.tab and abs(midi - top) <= NEAR:
            found.setdefault(midi, tab)
    nearest = sorted(found, key=lambda midi: (abs(midi - top), found[midi].bend))
    return [str(found[midi]) for midi in nearest[:MOST_OFFERS]]


def same_pitch(note: Note, harp: Harp) -> list[str]:
    """Other tab for the same pitch, without overbends, shallower bends first."""
    found = [
        tab
        for tab, midi in harp.single_notes()
        if (midi,) == note.midi and tab != note.tab and tab.bend < max(note.tab.bend, 1)
    ]
    return [str(tab) for tab in sorted(found, key=lambda tab: tab.bend)[:MOST_OFFERS]]


def singles_near(last: Tab, first: Note, tune: Tune) -> list[str]:
    """Natural chord tones near the note before: on the breath of `first` first, then by hole."""
    lesson = tune.lesson
    tones = pitch_classes(tune.bars[first.bar].chord_at(first.onset), lesson.key)
    found = [
        (tab, abs(tab.holes[0] - last.holes[0]))
        for tab, midi in lesson.facts.harp.single_notes()
        if midi % 12 in tones and not tab.bend and abs(tab.holes[0] - last.holes[0]) < WIDE_SLIDE
    ]
    found.sort(key=lambda pair: (pair[0].breath is not first.tab.breath, pair[1]))
    return [str(tab) for tab, _ in found[:MOST_OFFERS]]


def chords_near(tab: Tab, harp: Harp, tones: frozenset[int]) -> list[Tab]:
    """Blocks of the same size, then splits, that sound these tones only; nearest first.

    `tones` are pitch classes, 0 to 11.
    """

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
