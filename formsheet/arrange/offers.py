"""Notes that cannot be played, and the nearest that can."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from formsheet.arrange.choices import Choice, reach
from formsheet.arrange.octaves import OCTAVE
from formsheet.arrange.search import Laid
from formsheet.music.harp import Harp
from formsheet.music.tab import Tab

_OCTAVES = (-1, 1, -2, 2)  # nearest first


@dataclass(frozen=True, slots=True)
class Missing:
    """A note that the harp does not have, and what could replace it."""

    index: int  # in its line
    bar: int  # from 1; 0 is the pick-up
    onset: Fraction  # from its bar line, in quarters
    midi: int  # as wanted, in the octave of the line
    stand_in: Choice  # the nearest note, used instead
    overbend: Tab | None  # an overbend that would play it, if overbends are not allowed
    octave: tuple[int, Tab] | None  # octaves to the nearest playable one, and its tab


def missing_notes(laid: Laid, harp: Harp) -> Iterator[Missing]:
    """The notes of a line that the harp does not have, in order."""
    plain, with_overbends = reach(harp, False), reach(harp, True)
    for index in laid.missing:
        sound, choice = laid.line[index], laid.choices[index]
        midi = sound.midi[-1]
        octaves = (
            (octave, plain[at,][0])
            for octave in _OCTAVES
            if (at := midi + octave * OCTAVE) and (at,) in plain
        )
        overbent = with_overbends.get((midi,), ())
        yield Missing(
            index=index,
            bar=sound.bar,
            onset=sound.onset,
            midi=midi,
            stand_in=choice,
            overbend=overbent[0] if overbent else None,
            octave=next(octaves, None),
        )
