"""How a tune feels under the lips."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from formsheet.listing import bars_words
from formsheet.music.steps import step_words
from formsheet.problems.problem import REMARK, WARNING, Hint, Problem, Severity
from formsheet.problems.words import (
    code,
    number,
    one_of,
)


class OverbendTaught(Problem):
    """TODO overbend-taught."""

    code = "overbend-taught"

    tab: str
    kind: str
    level: str
    beginner: bool
    offers: Sequence[str]

    @property
    def severity(self) -> Severity:
        return WARNING if self.beginner else REMARK

    def message(self) -> str:
        return (
            f"{code(self.tab)} is an {self.kind}, an advanced technique; this lesson is for "
            f"{self.level}"
        )

    def hints(self) -> Iterator[Hint]:
        yield Hint("write `level advanced` if it is taught")
        if self.offers:
            yield Hint(f"the same note or a chord tone near it: {one_of(self.offers)}")


class BendHard(Problem):
    """TODO bend-hard."""

    code = "bend-hard"
    severity = WARNING

    tab: str
    bend: int
    level: str
    offers: Sequence[str]
    wanted: str | None

    def message(self) -> str:
        return f"{code(self.tab)} bends {step_words(self.bend)}: deep for {self.level}"

    def hints(self) -> Iterator[Hint]:
        if self.offers:
            yield Hint(f"the same note or a chord tone near it: {one_of(self.offers)}")
        if self.wanted:
            yield Hint(f"write {code(f'level {self.wanted}')} if the student is further")


class BendsRepeated(Problem):
    """TODO bends-repeated."""

    code = "bends-repeated"
    severity = WARNING

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
    """TODO turns-fast."""

    code = "turns-fast"
    severity = WARNING

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
    """TODO slide-too-fast."""

    code = "slide-too-fast"
    severity = WARNING

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
    """TODO shake-nowhere."""

    code = "shake-nowhere"
    severity = WARNING

    tab: str
    lower: str

    def message(self) -> str:
        return (
            f"{code(self.tab)} cannot be shaken: a shake alternates with the next hole up, "
            "and there is none"
        )

    def hints(self) -> Iterator[Hint]:
        yield Hint(f"shake {code(self.lower)} instead")


class TechniqueNoBend(Problem):
    """TODO technique-no-bend."""

    code = "technique-no-bend"
    severity = WARNING

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
        yield Hint("leave the technique out, or choose a note that bends")


class SwingShortNote(Problem):
    """TODO swing-short-note."""

    code = "swing-short-note"
    severity = WARNING

    tempo: Fraction
    have: int
    least: int
    share: str | None

    def message(self) -> str:
        return (
            f"at {number(self.tempo)} beats a minute the short note of a swung pair lasts "
            f"{self.have} ms; players keep it near {self.least} ms"
        )

    def hints(self) -> Iterator[Hint]:
        if self.share:
            yield Hint(f"write {code(f'feel swing {self.share}')}, or take it slower")
        yield Hint("write `feel straight`: at this tempo eighths are played even")
