"""How a tune feels under the lips."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from formsheet.listing import bars_words
from formsheet.music.steps import step_words
from formsheet.problems.edits import without_braces
from formsheet.problems.problem import REMARK, WARNING, Edit, Hint, Problem, Severity
from formsheet.problems.words import (
    code,
    number,
    one_of,
)
from formsheet.source import Span


class OverbendTaught(Problem):
    """An overblow or overdraw is asked of a student who may not have learned it."""

    code = "overbend-taught"
    bad = """
        lick porch on I
          q 2d 3d 6ob 6d
        """
    good = """
        lick porch on I
          q 2d 3d 6b 6d
        """

    tab: str
    kind: str
    level: str
    beginner: bool
    offers: Sequence[str]
    same: bool  # the offers are the same note in another way
    advanced: Edit | None = None  # of the lesson's level

    @property
    def severity(self) -> Severity:
        return WARNING if self.beginner else REMARK

    def message(self) -> str:
        return (
            f"{code(self.tab)} is an {self.kind}, an advanced technique; this lesson is for "
            f"{self.level}"
        )

    def hints(self) -> Iterator[Hint]:
        yield Hint("write `level advanced` if it is taught", self.advanced)
        if self.offers:
            what = "the same note" if self.same else "a chord tone near it"
            yield Hint(f"{what}: {one_of(self.offers)}")


class BendHard(Problem):
    """A bend is deeper than students of this level can be expected to reach in tune."""

    code = "bend-hard"
    severity = WARNING
    bad = """
        level beginner
        lick porch on I
          q 2d 2d'' 3d 2d
        """
    good = """
        level beginner
        lick porch on I
          q 2d 3d' 3d 2d
        """

    tab: str
    bend: int
    level: str
    offers: Sequence[str]
    same: bool  # the offers are the same note in another way
    wanted: str | None
    further: Edit | None = None  # of the lesson's level

    def message(self) -> str:
        return f"{code(self.tab)} bends {step_words(self.bend)}: deep for {self.level}"

    def hints(self) -> Iterator[Hint]:
        if self.offers:
            what = "the same note" if self.same else "a chord tone near it"
            yield Hint(f"{what}: {one_of(self.offers)}")
        if self.wanted:
            words = f"write {code(f'level {self.wanted}')} if the student is further"
            yield Hint(words, self.further)


class BendsRepeated(Problem):
    """Deep bends follow one another without a natural note between.

    For each the mouth holds a shape of its own, and without a natural note the ear has nothing to
    tune them by.
    """

    code = "bends-repeated"
    severity = WARNING
    bad = """
        lick porch on I
          e 2d'' 2d'' 2d'' 2d'' h 2d
        """
    good = """
        lick porch on I
          e 2d'' 2d 2d'' 2d h 2d
        """

    count: int
    tab: str
    lick: str

    def message(self) -> str:
        return (
            f"{self.count} deep bends in a row from {code(self.tab)} on in {code(self.lick)}: "
            "tiring, and hard to keep in tune"
        )

    def hints(self) -> Iterator[Hint]:
        yield Hint("put a natural note between them")


class TurnsFast(Problem):
    """The breath changes direction several times in a row, faster than a student can turn it."""

    code = "turns-fast"
    severity = WARNING
    bad = """
        tempo 220
        lick porch on I
          e 2d 3b 2d 3b 2d 3b q 2d
        """
    good = """
        tempo 220
        lick porch on I
          e 2d 3d 2d 3b q 2d 2d
        """

    tab: str
    bars: Sequence[int]
    count: int
    ms: int

    def message(self) -> str:
        return (
            f"from {code(self.tab)} on in {bars_words(self.bars)} the breath turns "
            f"{self.count} times in a row, each within {self.ms} ms"
        )

    def hints(self) -> Iterator[Hint]:
        yield Hint("find some of these notes on the other breath, or take it slower")


class SlideTooFast(Problem):
    """The mouth would have to move over many holes in less time than that takes.

    The next note comes late, or on the wrong hole.
    """

    code = "slide-too-fast"
    severity = WARNING
    bad = """
        tempo 120
        lick porch on I
          q 2d e 2d 9d h 9b
        """
    good = """
        tempo 120
        lick porch on I
          q 2d e 2d 3d h 4d
        """

    first: str
    tab: str
    bars: Sequence[int]
    holes: int
    ms: int
    needs: int
    offers: Sequence[str]

    def message(self) -> str:
        return (
            f"from {code(self.first)} to {code(self.tab)} in {bars_words(self.bars)} the "
            f"mouth moves {self.holes} holes in {self.ms} ms; it takes about {self.needs} ms"
        )

    def hints(self) -> Iterator[Hint]:
        yield Hint(f"put a rest before {code(self.tab)}, or begin nearer")
        if self.offers:
            yield Hint(f"nearer to {code(self.first)}: {one_of(self.offers)}")


class ShakeNowhere(Problem):
    """A shake alternates with the next hole up, and hole 10 has none.

    A shake of two neighbouring holes alternates between them: `910b{shake}` can be played.
    """

    code = "shake-nowhere"
    severity = WARNING
    bad = """
        lick creek on IV
          h 10b{shake} 9b
        """
    good = """
        lick creek on IV
          h 9b{shake} 10b
        """

    tab: str
    lower: str

    def message(self) -> str:
        return (
            f"{code(self.tab)} cannot be shaken: a shake alternates with the next hole up, "
            "and there is none"
        )

    def hints(self) -> Iterator[Hint]:
        end = self.span.start + len(self.tab)
        note = self.span._replace(end=end)
        edit = Edit(note, self.lower, certain=False) if note.text == self.tab else None
        yield Hint(f"shake {code(self.lower)} instead", edit)


class ShakeOnSplit(Problem):
    """A split has a shake, which goes to and fro between two neighbouring holes.

    The holes of a split are not neighbours. A block of two holes can be shaken: `45d{shake}`.
    """

    code = "shake-on-split"
    severity = WARNING
    bad = """
        lick porch on I
          h 25d{shake} 2d
        """
    good = """
        lick porch on I
          h 45d{shake} 2d
        """

    tab: str
    notes: Sequence[str]  # of the split, each as a single note

    def message(self) -> str:
        return f"{code(self.tab)} is a split; a shake goes between two neighbouring holes"

    def hints(self) -> Iterator[Hint]:
        yield _left_out(self.span, "shake")
        yield Hint(f"or shake one of its notes: {one_of(self.notes)}")


class ShakeOnBend(Problem):
    """A bent note has a shake, which goes to and fro between the natural notes of two holes.

    A bend or an overbend is made for one hole: on the next one the same mouth gives another bend,
    or no note at all.
    """

    code = "shake-on-bend"
    severity = WARNING
    bad = """
        lick porch on I
          h 3d'{shake} 2d
        """
    good = """
        lick porch on I
          h 3d{shake} 2d
        """

    tab: str
    kind: str  # "bent", "an overblow"
    plain: str

    def message(self) -> str:
        return (
            f"{code(self.tab)} is {self.kind}; a shake goes between the natural notes of two "
            "neighbouring holes"
        )

    def hints(self) -> Iterator[Hint]:
        yield _left_out(self.span, "shake")
        yield Hint(f"or shake the natural note: {code(self.plain)}")


class TechniqueOnChord(Problem):
    """A block or a split has a technique that bends.

    A dip sags into a bend and a scoop comes out of one. A bend is made for one reed; the same mouth
    cannot bend several of them by a known amount.
    """

    code = "technique-on-chord"
    severity = WARNING
    bad = """
        lick porch on I
          h 123d{dip} 2d
        """
    good = """
        lick porch on I
          h 2d{dip} 2d
        """

    tab: str
    technique: str
    shape: str  # "block" or "split"
    notes: Sequence[str]  # of the chord those that bend, each as a single note

    def message(self) -> str:
        return (
            f"{code(self.tab)} is a {self.shape}; a {self.technique} is a bend, and bends are for "
            "single notes"
        )

    def hints(self) -> Iterator[Hint]:
        yield _left_out(self.span, self.technique)
        if self.notes:
            yield Hint(f"or {self.technique} a single note: {one_of(self.notes)}")


class TechniqueNoBend(Problem):
    """A technique begins or ends on a bend that the hole does not have."""

    code = "technique-no-bend"
    severity = WARNING
    bad = """
        lick porch on I
          h 3b{scoop} 2d
        """
    good = """
        lick porch on I
          h 3d{scoop} 2d
        """

    tab: str
    technique: str
    hole: int
    breath: str

    def message(self) -> str:
        return (
            f"{code(self.tab)} has no {self.technique}: hole {self.hole} does not bend on the "
            f"{self.breath}"
        )

    def hints(self) -> Iterator[Hint]:
        yield _left_out(self.span, self.technique)
        yield Hint("or choose a note that bends")


def _left_out(span: Span, technique: str) -> Hint:
    """That a note be played without its technique."""
    return Hint(f"leave the {technique} out", without_braces(span))


class SwingShortNote(Problem):
    """At this tempo the short note of a swung pair is shorter than players make it.

    The faster the tune, the more even the eighths are played.
    """

    code = "swing-short-note"
    severity = WARNING
    bad = """
        tempo 240
        feel  swing
        lick porch on I
          q 2d e 4d 2d h 2d
        """
    good = """
        tempo 240
        feel  straight
        lick porch on I
          q 2d e 4d 2d h 2d
        """

    tempo: Fraction
    have: int
    least: int
    share: str | None
    lighter: Edit | None = None  # of the feel
    straight: Edit | None = None

    def message(self) -> str:
        return (
            f"at {number(self.tempo)} beats a minute the short note of a swung pair lasts "
            f"{self.have} ms; players keep it near {self.least} ms"
        )

    def hints(self) -> Iterator[Hint]:
        if self.share:
            words = f"write {code(f'feel swing {self.share}')}, or take it slower"
            yield Hint(words, self.lighter)
        yield Hint("write `feel straight`: at this tempo eighths are played even", self.straight)
