"""What is cut off, left over, or cannot be printed."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from formsheet.listing import bars_words
from formsheet.problems.problem import ERROR, REMARK, WARNING, Hint, Problem
from formsheet.problems.words import (
    bar_count,
    code,
    write,
)


class LickCut(Problem):
    """TODO lick-cut."""

    code = "lick-cut"
    severity = REMARK

    lick: str
    whole: int
    bars: Sequence[int]
    part: Sequence[int]

    def message(self) -> str:
        return (
            f"{code(self.lick)} is {bar_count(self.whole)} long; in {bars_words(self.bars)} "
            f"it is cut down to its {bars_words(self.part)}"
        )

    def hints(self) -> Iterator[Hint]:
        yield Hint("place something over all its bars, or none")


class LickNowhereWhole(Problem):
    """TODO lick-nowhere-whole."""

    code = "lick-nowhere-whole"
    severity = WARNING

    lick: str
    whole: int
    bars: Sequence[int]

    def message(self) -> str:
        return (
            f"{code(self.lick)} is {bar_count(self.whole)} long and nowhere played whole, "
            f"only a part of it in {bars_words(self.bars)}: it has no card, no clip and no "
            "place in the practice log"
        )

    def hints(self) -> Iterator[Hint]:
        yield Hint("place something over all its bars, or none")
        yield Hint("or write what is played of it as a lick of its own")


class TextTooLong(Problem):
    """TODO text-too-long."""

    code = "text-too-long"
    severity = ERROR

    letters: int
    most: int

    def message(self) -> str:
        return f"this text has {self.letters} letters; {self.most} is the most that is printed"

    def hints(self) -> Iterator[Hint]:
        yield Hint("break it into several `say` or `tip` lines, or shorten it")


class WordTooLong(Problem):
    """TODO word-too-long."""

    code = "word-too-long"
    severity = ERROR

    most: int

    def message(self) -> str:
        return f"a word in this text is longer than {self.most} letters and fits no line"

    def hints(self) -> Iterator[Hint]:
        yield Hint("put spaces into it")


class GlyphMissing(Problem):
    """TODO glyph-missing."""

    code = "glyph-missing"
    severity = WARNING

    signs: str
    more: str

    def message(self) -> str:
        return f"the sheet's typeface has no {self.signs}{self.more}"

    def hints(self) -> Iterator[Hint]:
        yield Hint(
            "look at the printed sheet: such a sign is taken from a font of this "
            "computer, and where there is none a box is printed"
        )


class LickUnused(Problem):
    """TODO lick-unused."""

    code = "lick-unused"
    severity = REMARK

    lick: str

    def message(self) -> str:
        return f"the lick {code(self.lick)} is not played in this tune"

    def hints(self) -> Iterator[Hint]:
        yield Hint(f"play it, such as {code(f'bar 1 {self.lick}')}, or take it out")


class PickupUnplayed(Problem):
    """A pick-up with `once`, of a lick with which the tune does not begin: it is not played."""

    code = "pickup-unplayed"
    severity = REMARK

    lick: str
    first: str | None

    def message(self) -> str:
        begins = f"the tune begins with {code(self.first)}" if self.first else "it begins with rest"
        return f"the pick-up of {code(self.lick)} is not played in this tune: {begins}"

    def hints(self) -> Iterator[Hint]:
        yield Hint("write `pickup` without `once` to play it each time, or take the line out")


class PickupUncounted(Problem):
    """The tune begins with a pick-up and has no count-in: one bar is counted all the same."""

    code = "pickup-uncounted"
    severity = REMARK

    def message(self) -> str:
        return "the tune begins with a pick-up: one bar is counted, so that it has room"

    def hints(self) -> Iterator[Hint]:
        yield write("1", self.span)
