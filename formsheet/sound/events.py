"""The event list: what sounds and when, in beats, so that it can be played at any tempo.

The MIDI file, the sound clips and the play-along page are made from the same list.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal

from formsheet.music.harp import Harp
from formsheet.music.tab import Breath, Tab, shaken
from formsheet.tune.timeline import Note, Tune

SHAKE = "shake"

#: Cents by which a bend starts above its pitch, for each half step of its depth, and an overbend
#: below it: the mouth is nearly there before the reed speaks. Common practice, no source; the
#: numbers are our own choice.
BEND_SLIDE, OVERBEND_SLIDE = 55.0, -45.0

Voice = Literal["guide", "bass", "chord", "drum", "click"]


@dataclass(frozen=True, slots=True)
class Event:
    """One sound. A beat is the meter's own: a dotted quarter in 12/8."""

    voice: Voice
    start: float  # in beats from the start of playing, swing included
    length: float  # in beats
    midi: tuple[int, ...]  # low to high; for a drum or click: General MIDI percussion numbers
    loudness: float = 1.0  # 0 to 1, within its voice
    technique: str = ""  # of a guide note: a technique of the language, or ""
    syllable: str = ""
    bar: int = -1  # index of the tune's bar in which it starts; -1: none (a count-in)
    once: bool = False  # of a pick-up that is not repeated when the excerpt loops
    neighbour: tuple[int, ...] = ()  # of a shake: the pitches that `midi` alternates with
    draw: bool = False  # of a guide note: drawn, not blown
    slide: float = 0.0  # of a bend or overbend: cents from its pitch to where it comes from


def guide_events(tune: Tune, notes: Iterable[Note] | None = None) -> tuple[Event, ...]:
    """The harmonica's notes (all, or those given), in beats from the tune's first bar line.

    A pick-up into the first bar starts at a negative beat.
    """
    beats_a_second = float(tune.lesson.facts.tempo) / 60
    harp = tune.lesson.facts.harp
    events = []
    for note in tune.notes if notes is None else notes:
        midi, neighbour = _by_turns(note, harp)
        events.append(
            Event(
                voice="guide",
                start=note.start_s * beats_a_second,
                length=(note.end_s - note.start_s) * beats_a_second,
                midi=midi,
                technique=note.mark.technique,
                syllable=note.mark.syllable,
                bar=note.bar,
                once=note.played.once,
                neighbour=neighbour,
                draw=note.tab.breath is Breath.DRAW,
                slide=_slide(note.tab),
            )
        )
    return tuple(events)


def _slide(tab: Tab) -> float:
    return OVERBEND_SLIDE if tab.overbend else BEND_SLIDE * tab.bend


def _by_turns(note: Note, harp: Harp) -> tuple[tuple[int, ...], tuple[int, ...]]:
    """The pitches that a note begins with, and those that they alternate with in a shake."""
    turns = shaken(note.tab) if note.mark.technique == SHAKE else None
    return (harp.pitches(turns[0]), harp.pitches(turns[1])) if turns else (note.midi, ())
