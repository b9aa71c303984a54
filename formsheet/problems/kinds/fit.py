"""How notes fit the chords. The rules are in `formsheet/judge/fit.py` and `verdicts.py`."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction
from typing import NamedTuple

from formsheet.listing import bars_words, listed, run_words
from formsheet.problems.edits import inserted
from formsheet.problems.problem import REMARK, WARNING, Edit, Hint, Problem
from formsheet.problems.words import code, number, one_of

#: Degrees that players name by their kind: over a minor chord a 3, over a b7 a 7.
IN_WORDS = {"3": "major 3", "7": "major 7"}


class Sounding(NamedTuple):
    """One tab of a lick over one chord, in all bars where it sounds."""

    tab: str
    pitch: str  # the tone that is meant, of a block one of several
    sounds: str  # of a block or split what it sounds: "G", "octave D"; else ""
    degree: str  # of that tone over the chord
    letter: str  # the chord's name in the key of the tune
    beats: Sequence[int]  # of the bar, from 1
    bars: Sequence[int]
    lick: str
    held: bool  # struck over an earlier chord
    length: Fraction  # that it stays at the longest, in beats
    whole: bool  # all through each of these bars

    @property
    def note(self) -> str:
        """The note in words: "`3d` (B)"; "`123d` (G)" for a block that sounds G."""
        return f"{code(self.tab)} ({self.sounds or self.pitch})"

    @property
    def at(self) -> str:
        """Beats and bars in words: "beat 3 of bars 5, 6 and 10"."""
        beats = "beat" if len(self.beats) == 1 else "beats"
        return f"{beats} {listed(run_words(self.beats), 'and')} of {bars_words(self.bars)}"

    @property
    def where(self) -> str:
        """The same after a verb: "on beat 3 of bars 5, 6 and 10", "all through bar 5"."""
        return f"all through {bars_words(self.bars)}" if self.whole else f"on {self.at}"

    @property
    def degree_of(self) -> str:
        """The degree in words: "the 4 of C7"; a note to be avoided: "the major 7 of C7"."""
        return f"the {IN_WORDS.get(self.degree, self.degree)} of {self.letter}"

    @property
    def role(self) -> str:
        """The degree in words, of a block with the tone: "the major 7 of C7 (its B)"."""
        return f"{self.degree_of} (its {self.pitch})" if self.sounds else self.degree_of


class NoteOverChord(Problem):
    """Base of the problems of a note over a chord; one problem for all bars of one cause."""

    sounding: Sounding

    @property
    def bars_heard(self) -> Sequence[int]:
        return self.sounding.bars


def offered(offers: Mapping[str, str], edit: Edit | None, play: str = "play") -> Iterator[Hint]:
    """What may be played instead, the best first; `play`: the words before it."""
    if offers:
        words = [f"{code(tab)} ({what})" for tab, what in offers.items()]
        yield Hint(f"{play} {listed(words, 'or')}", edit)


class NoteClash(NoteOverChord):
    """A note that stays is to be avoided over the chord of its bar.

    It sounds a beat or more, or a rest of a beat follows, a half step above a chord tone (or it is
    the 7 over a b7 or over a minor chord, or the major third over a minor chord), and no step
    leads on. It sounds like a mistake. If it is meant, mark it with `!`.
    """

    code = "note-clash"
    severity = WARNING
    bad = """
        lick creek on IV
          q 3d 5b 6b 4b
        """
    good = """
        lick creek on IV
          q 3d' 5b 6b 4b
        """

    offers: Mapping[str, str]  # tab -> what it is over the chord
    edit: Edit | None

    def message(self) -> str:
        here = self.sounding
        how = f"is held into {here.at}" if here.held else f"stays {here.where}"
        role = f"; its {here.pitch} is {here.degree_of}" if here.sounds else f" as {here.degree_of}"
        return f"{here.note} {how}{role}"

    @property
    def weight(self) -> float:
        return float(self.sounding.length)

    def to_player(self) -> str:
        here = self.sounding
        return f"{here.note} is {here.role} and rubs against it."

    def hints(self) -> Iterator[Hint]:
        yield from offered(self.offers, self.edit)
        tab = self.sounding.tab
        end = self.span.start + len(tab)
        same = self.span.text.startswith(tab) and len(self.sounding.beats) == 1
        words = f"if it is meant, write {code(f'{tab}!')}"
        yield Hint(words, inserted(self.span._replace(start=end), "!") if same else None)


class NoteSuspended(NoteOverChord):
    """A note beside the chord lasts longer than a beat before it moves on to a chord tone.

    A suspension sounds good. A long one sounds like a mistake unless it is played with purpose.
    """

    code = "note-suspended"
    severity = REMARK
    bad = """
        lick porch on I
          h 4b q 3d 2d
        """
    good = """
        lick porch on I
          q 4b h 3d q 2d
        """

    falls: bool  # to the tone of the chord that follows; else it rises

    def message(self) -> str:
        here = self.sounding
        name = "a suspension" if here.degree == "4" and self.falls else "which moves on by step"
        return (
            f"{here.note} hangs over {here.letter} for {number(here.length)} beats, from "
            f"{here.at}: the {here.degree}, {name}"
        )

    def to_player(self) -> str:
        here = self.sounding
        return f"{here.note} leans on {here.letter} as its {here.degree}; let it move on."

    def hints(self) -> Iterator[Hint]:
        yield Hint("leave it if it is meant to lean; in passing, a beat is enough")


class FlatFiveStays(NoteOverChord):
    """A b5 stays and no step leads on from it.

    A flat five sounds best on its way to the 4 or the 5, by a half step.
    """

    code = "flat-five-stays"
    severity = REMARK
    bad = """
        lick porch on I
          q 2d 3d h 4d'
        """
    good = """
        lick porch on I
          q 2d 3d 4d' 4d
        """

    steps: Sequence[str]  # tab of chord tones a half step away

    def message(self) -> str:
        here = self.sounding
        return f"{here.note} stays {here.where}, {here.role}, and no step leads on"

    def to_player(self) -> str:
        return f"{self.sounding.note} stays, and is {self.sounding.role}: it is heard."

    def hints(self) -> Iterator[Hint]:
        if self.steps:
            yield Hint(f"let it move on to {one_of(self.steps)}")


class KeyNoteOverFive(NoteOverChord):
    """The key note stays over V, where it is the 4. Reported once a tune.

    It hides the change of chord. Many a riff is left over V like that, and it may well be meant:
    it is worth a look, no more.
    """

    code = "key-note-over-five"
    severity = REMARK
    bad = """
        form 12-bar standard ending I
        lick gate on V
          q 4d 5d h 2d
        """
    good = """
        form 12-bar standard ending I
        lick gate on V
          q 4d 5d h 1d
        """

    elsewhere: Sequence[int]  # other bars where the key note stays over V
    offers: Mapping[str, str]

    @property
    def bars_heard(self) -> Sequence[int]:
        return sorted({*self.sounding.bars, *self.elsewhere})

    def message(self) -> str:
        here = self.sounding
        more = f"; it stays in {bars_words(self.elsewhere)} too" if self.elsewhere else ""
        return f"{here.note}, the key note, stays {here.where}: {here.role}{more}"

    def to_player(self) -> str:
        here = self.sounding
        return f"{here.note}, the key note, stays while the band plays {here.letter}."

    def hints(self) -> Iterator[Hint]:
        yield from offered(self.offers, None, "if the V should be heard, play")


class NoteClashDeliberate(NoteOverChord):
    """A note that would be reported is marked with `!` as meant.

    It is listed so that a `!` that was left behind after a change can be found.
    """

    code = "note-clash-deliberate"
    severity = REMARK
    bad = """
        lick creek on IV
          q 3d! 5b 6b 4b
        """
    good = """
        lick creek on IV
          q 4b 5b 6b 4b
        """

    def message(self) -> str:
        here = self.sounding
        return f"{here.note}, marked as meant, is {here.role} {here.where}"

    def to_player(self) -> str:
        return f"{self.sounding.note} is {self.sounding.role}; it is meant to rub."


class PositionWrong(Problem):
    """The notes clash in most bars, and would hardly clash in another position of this harp.

    The position says which key the tune is in, and so what its chords are. All other findings
    about how the notes fit would follow from this one, and are left out until it is right.
    """

    code = "position-wrong"
    severity = WARNING
    bad = """
        position 3rd
        """
    good = """
        position 2nd
        """

    clashing: int  # bars with warnings
    sounding: int  # bars in which something sounds
    position: str  # as written, or the one without a line: "3rd"
    better: str
    left: int  # bars that would have warnings there
    edit: Edit

    @property
    def explains_others(self) -> bool:
        return True

    def message(self) -> str:
        return (
            f"notes clash in {self.clashing} of {self.sounding} bars in {self.position} position; "
            f"in {self.better} position in {self.left or 'none'}: is this {self.better} position?"
        )

    def hints(self) -> Iterator[Hint]:
        yield Hint(f"write {code(f'position {self.better}')}", self.edit)
