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
    """The holes of a chord are not written from low to high, each once."""

    code = "holes-order"
    severity = ERROR
    bad = """
        lick creek on IV
          q 54b 5b 6b 4b
        """
    good = """
        lick creek on IV
          q 45b 5b 6b 4b
        """

    tab: str
    guess: str

    def message(self) -> str:
        return f"{code(self.tab)} does not name its holes from low to high, each once"

    def hints(self) -> Iterator[Hint]:
        yield write(self.guess, self.span)


class HolesGap(Problem):
    """Holes are left out inside a chord, so that it is neither a block nor a split.

    The lips cover neighbouring holes. The tongue can block those in the middle, and then only the
    two outer ones sound.
    """

    code = "holes-gap"
    severity = ERROR
    bad = """
        lick creek on IV
          q 124b 5b 6b 4b
        """
    good = """
        lick creek on IV
          q 14b 5b 6b 4b
        """

    tab: str
    block: str
    split: str

    def message(self) -> str:
        return f"{code(self.tab)} is neither a block of neighbouring holes nor a split of two"

    def hints(self) -> Iterator[Hint]:
        yield Hint(f"write {code(self.block)} for the block, or {code(self.split)} for the split")


class SplitTooWide(Problem):
    """The two holes of a split are farther apart than a mouth reaches."""

    code = "split-too-wide"
    severity = ERROR
    bad = """
        lick creek on IV
          q 17b 5b 6b 4b
        """
    good = """
        lick creek on IV
          q 14b 5b 6b 4b
        """

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
        words = f"{first} {code(self.split)}, the widest from its lower hole"
        yield Hint(words, Edit(self.span, self.split, certain=False))


class BlockTooWide(Problem):
    """A block covers more holes than a mouth does."""

    code = "block-too-wide"
    severity = ERROR
    bad = """
        lick creek on IV
          q 123456b 5b 6b 4b
        """
    good = """
        lick creek on IV
          q 123b 5b 6b 4b
        """

    tab: str
    holes: int
    most: int
    block: str

    def message(self) -> str:
        return f"the block {code(self.tab)} covers {self.holes} holes; a mouth covers {self.most}"

    def hints(self) -> Iterator[Hint]:
        words = f"write its lowest holes: {code(self.block)}"
        yield Hint(words, Edit(self.span, self.block, certain=False))


class BendOnChord(Problem):
    """A chord has the ticks of a bend, or the `o` of an overbend.

    A bend is made for one reed; the same mouth cannot bend several of them by a known amount.
    """

    code = "bend-on-chord"
    severity = ERROR
    bad = """
        lick porch on I
          q 23d' 3d 4d 2d
        """
    good = """
        lick porch on I
          q 23d 3d 4d 2d
        """

    tab: str
    kind: str  # "bend", "overblow" or "overdraw"
    plain: str

    def message(self) -> str:
        return f"{code(self.tab)} {self.kind}s a chord; {self.kind}s are for single notes"

    def hints(self) -> Iterator[Hint]:
        words = f"write {code(self.plain)} without the {self.kind}"
        yield Hint(words, Edit(self.span, self.plain, certain=False))


class BendTooDeep(Problem):
    """A bend goes lower than the two reeds of its hole allow.

    A natural bend stops a half step above the other reed of the hole: the closer the reeds, the
    less there is to bend.
    """

    code = "bend-too-deep"
    severity = ERROR
    bad = """
        lick porch on I
          q 2d''' 3d 4d 2d
        """
    good = """
        lick porch on I
          q 2d'' 3d 4d 2d
        """

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
        yield write(self.guess, self.span, certain=False)


class BendMissing(Problem):
    """The note does not bend on this breath, or by less than a half step.

    Only the higher reed of a hole bends down: the draw reed on holes 1 to 6, the blow reed on 7 to
    10 of the usual tuning. Where the two are a half step apart, as on 5 and 7, it gives a shade.
    """

    code = "bend-missing"
    severity = ERROR
    bad = """
        lick creek on IV
          q 4b' 5b 6b 4b
        """
    good = """
        lick creek on IV
          q 4b 5b 6b 4b
        """

    hole: int
    breath: str
    other: str
    plain: str
    guess: str | None
    shade: bool  # it bends by less than a half step

    def message(self) -> str:
        if self.shade:
            return (
                f"{self.hole} {self.breath} bends by less than a half step: its two reeds are only "
                "a half step apart"
            )
        return (
            f"{self.hole} {self.breath} does not bend: only the higher reed of a hole bends down, "
            f"and that is not the {self.breath} reed of hole {self.hole}"
        )

    def hints(self) -> Iterator[Hint]:
        if self.guess:
            words = f"write {code(self.guess)}: the {self.other} note of hole {self.hole} bends"
            yield Hint(words, Edit(self.span, self.guess, certain=False))
            yield or_write(self.plain, self.span)
        else:
            yield write(self.plain, self.span, certain=False)


class OverbendBent(Problem):
    """An overblow or overdraw has the ticks of a bend."""

    code = "overbend-bent"
    severity = ERROR
    bad = """
        level advanced
        lick porch on I
          q 2d 3d 6ob' 6b
        """
    good = """
        level advanced
        lick porch on I
          q 2d 3d 6ob 6b
        """

    tab: str
    kind: str
    plain: str

    def message(self) -> str:
        return f"{code(self.tab)} bends an {self.kind}; ticks bend natural notes only"

    def hints(self) -> Iterator[Hint]:
        yield write(self.plain, self.span, certain=False)


class OverbendMissing(Problem):
    """The hole has no overblow, or no overdraw.

    In the usual tuning overblows are on holes 1 to 6, overdraws on 7 to 10. An overbend sounds a
    half step above the higher reed of its hole.
    """

    code = "overbend-missing"
    severity = ERROR
    bad = """
        lick creek on IV
          q 6od 5b 6b 4b
        """
    good = """
        level advanced
        lick creek on IV
          q 6ob! 5b 6b 4b
        """

    hole: int
    kind: str
    guess: str | None
    other: str

    def message(self) -> str:
        return f"hole {self.hole} has no {self.kind}"

    def hints(self) -> Iterator[Hint]:
        if self.guess:
            words = f"write {code(self.guess)}: it has an {self.other}"
            yield Hint(words, Edit(self.span, self.guess, certain=False))
