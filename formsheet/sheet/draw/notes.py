"""What sounds in a bar: one note for each box, its holds joined to it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from formsheet.sheet.view import HoleMark, Mark


@dataclass(frozen=True, slots=True)
class Note:
    """A note as one box; positions in quarters from the bar line."""

    onset: Fraction
    end: Fraction
    tab: HoleMark
    struck: bool  # False: it is held over from the bar before
    held_on: bool = False  # it sounds on into the next bar
    landing: bool = False
    technique: str = ""
    syllable: str = ""
    pickup: bool = False


def notes_of(marks: Sequence[Mark], before: HoleMark | None) -> tuple[Note, ...]:
    """The notes of a bar; `before` is the tab that a hold at its start continues."""
    found: list[Note] = []
    last = len(marks) - 1
    for at, mark in enumerate(marks):
        end = mark.onset + mark.length
        held_on = at == last and mark.tied_on
        if mark.hold:
            if found and found[-1].end == mark.onset:
                found[-1] = replace(found[-1], end=end, held_on=held_on)
            elif before is not None:
                found.append(Note(mark.onset, end, before, struck=False, held_on=held_on))
        elif mark.tab is not None:
            found.append(
                Note(
                    mark.onset, end, mark.tab, True, held_on,
                    mark.landing, mark.technique, mark.syllable, mark.pickup,
                )
            )  # fmt: skip
    return tuple(found)
