"""The event list: what is heard and when, in beats, so that any tempo can be laid under it.

One list feeds the MIDI file, the sound clips and the play-along page.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal

from formsheet.tune.timeline import Note, Tune

Voice = Literal["guide", "bass", "chord", "drum", "click"]


@dataclass(frozen=True, slots=True)
class Event:
    """One sound. A beat is the meter's own: a dotted quarter in 12/8."""

    voice: Voice
    start: float  # in beats from where the playing begins, swing included
    length: float  # in beats
    midi: tuple[int, ...]  # low to high; of a drum or click: General MIDI percussion numbers
    loudness: float = 1.0  # 0 to 1, within its voice
    technique: str = ""  # of the guide: one of the lesson's techniques
    syllable: str = ""
    bar: int = -1  # index of the tune's bar in which it starts; -1: of none (a count-in)


def guide_events(tune: Tune, notes: Iterable[Note] | None = None) -> tuple[Event, ...]:
    """The harmonica's notes, from the tune's first bar line; holds are joined already."""
    beats_a_second = float(tune.lesson.facts.tempo) / 60
    return tuple(
        Event(
            voice="guide",
            start=note.start_s * beats_a_second,
            length=(note.end_s - note.start_s) * beats_a_second,
            midi=note.midi,
            technique=note.mark.technique,
            syllable=note.mark.syllable,
            bar=note.bar,
        )
        for note in (tune.notes if notes is None else notes)
    )
