"""How notes fit the chords."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from formsheet.listing import bars_words
from formsheet.problems.edits import inserted
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
    """A note that does not belong to the chord is held or struck on a strong beat.

    The ear hears it as a mistake there. Where it is meant, a `!` after the note says so.
    """

    code = "note-clash"
    severity = WARNING
    bad = """
        lick creek on IV
          q 3d 5b 6b 4b
        """
    good = """
        lick creek on IV
          q 4b 5b 6b 4b
        """

    def message(self) -> str:
        how = "is held over" if self.held else "lands"
        return (
            f"{code(self.tab)} ({self.pitch}) {how} on beat {self.beat} of "
            f"{bars_words(self.bars)} as the {self.degree} of {self.letter}"
        )

    def hints(self) -> Iterator[Hint]:
        if self.offers:
            yield Hint(f"nearest chord tones on this harp: {one_of(self.offers)}")
        end = self.span._replace(
            start=self.span.start + len(self.tab), end=self.span.start + len(self.tab)
        )
        same = self.span.text.startswith(self.tab)
        words = f"if the clash is meant, write {code(f'{self.tab}!')}"
        yield Hint(words, inserted(end, "!") if same else None)


class NoteRubs(NoteAgainstChord):
    """A note against the chord on a weak beat does not move on by step.

    In passing a strange note is fine; left by a leap it stays in the ear.
    """

    code = "note-rubs"
    severity = REMARK
    bad = """
        lick creek on IV
          q 4b e 5b 3d q 6b 4b
        """
    good = """
        lick creek on IV
          q 4b e 5b 4d q 4b 5b
        """

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
    """A note a half step from the chord is struck first and then led home.

    That is a good sound, if it is meant; it is worth a look because it is so close to a clash.
    """

    code = "note-leans"
    severity = REMARK
    bad = """
        lick porch on I
          e 2d' 2d q 3d 4d 2d
        """
    good = """
        lick porch on I
          e 1d 2d q 3d 4d 2d
        """

    def message(self) -> str:
        return (
            f"{code(self.tab)} ({self.pitch}) leans on {self.letter} in beat {self.beat} of "
            f"{bars_words(self.bars)}: it is the {self.degree}, and a half step leads it home"
        )

    def hints(self) -> Iterator[Hint]:
        if self.offers:
            yield Hint(f"nearest chord tones on this harp: {one_of(self.offers)}")


class NoteClashDeliberate(NoteAgainstChord):
    """A clash is marked with `!` as meant.

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
        return (
            f"{code(self.tab)} ({self.pitch}) clashes with {self.letter} in beat {self.beat} "
            f"of {bars_words(self.bars)}, the {self.degree}: deliberately"
        )


class LandingMissing(Problem):
    """No strong beat of the bar has a note of its chord.

    Students hear the form through the notes that land. Without one, the change of chord is lost.
    """

    code = "landing-missing"
    bad = """
        lick creek on IV
          h 4d 6d
        """
    good = """
        lick creek on IV
          h 4b 6d
        """

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
