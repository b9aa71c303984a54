"""What the harp can play."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from formsheet.music.steps import step_words
from formsheet.problems.problem import ERROR, Edit, Hint, Problem
from formsheet.problems.words import (
    code,
    one_of,
    or_write,
    write,
)


class HolesOrder(Problem):
    """TODO holes-order."""

    code = "holes-order"
    severity = ERROR

    tab: str
    guess: str

    def message(self) -> str:
        return f"{code(self.tab)} does not name its holes from low to high, each once"

    def hints(self) -> Iterator[Hint]:
        yield write(self.guess, self.span)


class HolesGap(Problem):
    """TODO holes-gap."""

    code = "holes-gap"
    severity = ERROR

    tab: str
    block: str
    split: str

    def message(self) -> str:
        return f"{code(self.tab)} is neither a block of neighbouring holes nor a split of two"

    def hints(self) -> Iterator[Hint]:
        yield Hint(f"write {code(self.block)} for the block, or {code(self.split)} for the split")


class SplitTooWide(Problem):
    """TODO split-too-wide."""

    code = "split-too-wide"
    severity = ERROR

    tab: str
    holes: int
    most: int
    split: str
    breath: str
    octaves: Sequence[str]  # splits of an octave on this breath, with one of its holes

    def message(self) -> str:
        return f"the split {code(self.tab)} spans {self.holes} holes; a mouth reaches {self.most}"

    def hints(self) -> Iterator[Hint]:
        if self.octaves:
            yield Hint(f"for a {self.breath} octave write {one_of(self.octaves)}")
        first = "or write" if self.octaves else "write"
        yield Hint(f"{first} {code(self.split)}, the widest from its lower hole")


class BlockTooWide(Problem):
    """TODO block-too-wide."""

    code = "block-too-wide"
    severity = ERROR

    tab: str
    holes: int
    most: int
    block: str

    def message(self) -> str:
        return f"the block {code(self.tab)} covers {self.holes} holes; a mouth covers {self.most}"

    def hints(self) -> Iterator[Hint]:
        yield Hint(f"write its lowest holes: {code(self.block)}")


class BendOnChord(Problem):
    """TODO bend-on-chord."""

    code = "bend-on-chord"
    severity = ERROR

    tab: str
    plain: str

    def message(self) -> str:
        return f"{code(self.tab)} bends a chord; bends are for single notes"

    def hints(self) -> Iterator[Hint]:
        yield Hint(f"write {code(self.plain)} without the bend")


class BendTooDeep(Problem):
    """TODO bend-too-deep."""

    code = "bend-too-deep"
    severity = ERROR

    hole: int
    breath: str
    asked: int
    deepest: int
    guess: str

    def message(self) -> str:
        return (
            f"{self.hole} {self.breath} does not bend {step_words(self.asked)}; on this harp "
            f"it bends {step_words(self.deepest)}"
        )

    def hints(self) -> Iterator[Hint]:
        yield write(self.guess, self.span)


class BendMissing(Problem):
    """TODO bend-missing."""

    code = "bend-missing"
    severity = ERROR

    hole: int
    breath: str
    other: str
    plain: str
    guess: str | None

    def message(self) -> str:
        return (
            f"{self.hole} {self.breath} does not bend: the {self.other} reed of hole "
            f"{self.hole} leaves it no room"
        )

    def hints(self) -> Iterator[Hint]:
        if self.guess:
            words = f"write {code(self.guess)}: the {self.other} note of hole {self.hole} bends"
            yield Hint(words, Edit(self.span, self.guess, certain=False))
            yield or_write(self.plain, self.span)
        else:
            yield write(self.plain, self.span)


class OverbendBent(Problem):
    """TODO overbend-bent."""

    code = "overbend-bent"
    severity = ERROR

    tab: str
    kind: str
    plain: str

    def message(self) -> str:
        return f"{code(self.tab)} bends an {self.kind}; ticks bend natural notes only"

    def hints(self) -> Iterator[Hint]:
        yield write(self.plain, self.span)


class OverbendMissing(Problem):
    """TODO overbend-missing."""

    code = "overbend-missing"
    severity = ERROR

    hole: int
    kind: str
    guess: str | None
    other: str

    def message(self) -> str:
        return f"hole {self.hole} has no {self.kind}"

    def hints(self) -> Iterator[Hint]:
        if self.guess:
            yield Hint(f"write {code(self.guess)}: it has an {self.other}")
