"""How choruses end. The rules are in `formsheet/judge/ending.py`."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import NamedTuple

from formsheet.listing import bars_words
from formsheet.problems.kinds.fit import NoteOverChord, Sounding, offered
from formsheet.problems.problem import REMARK, Edit, Hint, Problem


class LastTime(NamedTuple):
    """How the last chorus can be made to end on I."""

    words: str  # what to write
    edit: Edit | None


class TurnaroundOffFive(NoteOverChord):
    """A chorus ends on V, and its last note is not a tone of V.

    A turnaround leads back to the top: the root, 3, 5 or b7 of V leave the ear waiting for I. After
    the key note there is nothing to wait for; where the tune is to end there, its last chord is I.
    """

    code = "turnaround-off-five"
    severity = REMARK
    bad = """
        turnaround home on I | V
          q 2d 3d 4d 2d |
          q 4d 1d 5b -
        play
          every I     porch
          every IV    creek
          bar 9       gate
          bars 11-12  home
        """
    good = """
        turnaround home on I | V
          q 2d 3d 4d 2d |
          q 4d 5b 1d -
        play
          every I     porch
          every IV    creek
          bar 9       gate
          bars 11-12  home
        """

    key_note: bool
    end: LastTime | None  # if the tune may be meant to end with this note
    offers: Mapping[str, str]  # tab -> what it is over V
    edit: Edit | None

    def message(self) -> str:
        here = self.sounding
        role = f"the key note and {here.role}" if self.key_note else here.role
        return (
            f"{bars_words(here.bars)} {'ends' if len(here.bars) == 1 else 'end'} on {here.note}, "
            f"{role}: a turnaround to the top ends on a tone of {here.letter}"
        )

    def hints(self) -> Iterator[Hint]:
        if self.end:
            yield Hint(f"if the tune ends here, {self.end.words}", self.end.edit)
        lead = "or, if it goes round again, play" if self.end else "to lead back to the top, play"
        yield from offered(self.offers, self.edit, lead)


class TuneEndsAway(Problem):
    """The last chorus does not come home: its last chord is not I, or its last note hangs.

    A chorus that is played again may end on V. The last one ends on I, and on a note in which the
    ear can rest: the root, the 3 or the 5.
    """

    code = "tune-ends-away"
    severity = REMARK
    bad = """
        play x2
          every I   porch
          every IV  creek
          every V   gate
        """
    good = """
        play x2
          every I   porch
          every IV  creek
          every V   gate
          last time ending I
        """

    bar: int  # the number of the last bar
    letter: str  # the last chord's name in the key of the tune
    choruses: int
    sounding: Sounding | None  # the last note, if the last chord is I
    end: LastTime | None
    offers: Mapping[str, str]  # tab -> what it is over I
    edit: Edit | None

    @property
    def bars_heard(self) -> list[int]:
        return [self.bar]

    @property
    def weight(self) -> float:
        return 4.0  # as a wrong note of a whole bar: it is the last thing that is heard

    def message(self) -> str:
        if self.sounding:
            ends = f"the tune ends on {self.sounding.note}, {self.sounding.role},"
        else:
            last = " of the last chorus" if self.choruses > 1 else ""
            ends = f"the tune ends on {self.letter}, bar {self.bar}{last},"
        return f"{ends} and does not come home"

    def hints(self) -> Iterator[Hint]:
        if self.end:
            yield Hint(self.end.words, self.end.edit)
        yield from offered(self.offers, self.edit)
