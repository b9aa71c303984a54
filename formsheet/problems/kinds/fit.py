"""How notes fit the chords."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from formsheet.listing import bars_words
from formsheet.problems.problem import REMARK, WARNING, Hint, Problem, Severity
from formsheet.problems.words import (
    code,
    one_of,
)


class NoteAgainstChord(Problem):
    """Base of the problems of a note that does not belong to the chord it sounds over."""

    tab: str
    pitch: str
    degree: str  # of the chord
    letter: str  # the chord's name in the key of the tune
    beat: int  # of the bar, from 1
    bars: Sequence[int]
    lick: str
    held: bool  # struck over an earlier chord
    offers: Sequence[str]  # tab of chord tones near it


class NoteClash(NoteAgainstChord):
    """TODO note-clash."""

    code = "note-clash"
    severity = WARNING

    def message(self) -> str:
        how = "is held over" if self.held else "lands"
        return (
            f"{code(self.tab)} ({self.pitch}) {how} on beat {self.beat} of "
            f"{bars_words(self.bars)} as the {self.degree} of {self.letter}"
        )

    def hints(self) -> Iterator[Hint]:
        if self.offers:
            yield Hint(f"nearest chord tones on this harp: {one_of(self.offers)}")
        yield Hint(f"if the clash is meant, write {code(f'{self.tab}!')}")


class NoteRubs(NoteAgainstChord):
    """TODO note-rubs."""

    code = "note-rubs"
    severity = REMARK

    def message(self) -> str:
        return (
            f"{code(self.tab)} ({self.pitch}) rubs against {self.letter} in beat {self.beat} "
            f"of {bars_words(self.bars)}: it is the {self.degree}, and no step leads away "
            "from it"
        )

    def hints(self) -> Iterator[Hint]:
        if self.offers:
            yield Hint(f"nearest chord tones on this harp: {one_of(self.offers)}")


class NoteLeans(NoteAgainstChord):
    """TODO note-leans."""

    code = "note-leans"
    severity = REMARK

    def message(self) -> str:
        return (
            f"{code(self.tab)} ({self.pitch}) leans on {self.letter} in beat {self.beat} of "
            f"{bars_words(self.bars)}: it is the {self.degree}, and a half step leads it home"
        )

    def hints(self) -> Iterator[Hint]:
        if self.offers:
            yield Hint(f"nearest chord tones on this harp: {one_of(self.offers)}")


class NoteClashDeliberate(NoteAgainstChord):
    """TODO note-clash-deliberate."""

    code = "note-clash-deliberate"
    severity = REMARK

    def message(self) -> str:
        return (
            f"{code(self.tab)} ({self.pitch}) clashes with {self.letter} in beat {self.beat} "
            f"of {bars_words(self.bars)}, the {self.degree}: deliberately"
        )


class LandingMissing(Problem):
    """TODO landing-missing."""

    code = "landing-missing"

    letter: str
    blue: bool  # all notes that land are blue notes: a riff may stay on them
    bars: Sequence[int]
    tab: str
    degree: str
    roots: Sequence[str]

    @property
    def severity(self) -> Severity:
        return REMARK if self.blue else WARNING

    def message(self) -> str:
        return (
            f"no note of {self.letter} lands in {bars_words(self.bars)}: the first that "
            f"lands, {code(self.tab)}, is the {self.degree}"
        )

    def hints(self) -> Iterator[Hint]:
        if self.roots:
            yield Hint(f"let the root land there: {one_of(self.roots)}")
