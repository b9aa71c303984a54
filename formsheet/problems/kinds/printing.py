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
    """Only a part of a longer lick is played in some bars, because another line takes the rest."""

    code = "lick-cut"
    severity = REMARK
    bad = """
        turnaround home on I | V
          q 2d 3d 4d 2d | 5d 4d h -
        play x2
          every I    porch
          every IV   creek
          every V    gate
          bars 11-12 home
          last time bar 12 porch
          last time ending I
        """
    good = """
        turnaround home on I | V
          q 2d 3d 4d 2d | 5d 4d h -
        play x2
          every I    porch
          every IV   creek
          every V    gate
          bars 11-12 home
          last time bars 11-12 porch
          last time ending I
        """

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
    """A lick of several bars is never played from beginning to end.

    The student gets no card and no clip of it, because there is no place in the tune where it can
    be practised whole.
    """

    code = "lick-nowhere-whole"
    severity = WARNING
    bad = """
        turnaround home on I
          q 2d 3d 4d 2d | 4d 3d h 2d
        form 12-bar standard ending I
        play
          every I    porch
          every IV   creek
          every V    gate
          bars 11-12 home
          last time bar 11 porch
        """
    good = """
        turnaround home on I
          q 2d 3d 4d 2d | 4d 3d h 2d
        form 12-bar standard ending I
        bars 11-12 home
        """

    lick: str
    whole: int
    bars: Sequence[int]

    def message(self) -> str:
        return (
            f"{code(self.lick)} is {bar_count(self.whole)} long and never played whole: "
            f"only a part of it in {bars_words(self.bars)}: it has no card, no clip and no "
            "place in the practice log"
        )

    def hints(self) -> Iterator[Hint]:
        yield Hint("place something over all its bars, or none")
        yield Hint("or write what is played of it as a lick of its own")


class TextTooLong(Problem):
    """A text is longer than a handout has room for."""

    code = "text-too-long"
    severity = ERROR
    bad = "say " + "Breathe low and easy. " * 190
    good = "say Breathe low and easy."

    letters: int
    most: int

    def message(self) -> str:
        return f"this text has {self.letters} letters; at most {self.most} are printed"

    def hints(self) -> Iterator[Hint]:
        yield Hint("break it into several `say` or `tip` lines, or shorten it")


class WordTooLong(Problem):
    """A word is longer than a line of the sheet."""

    code = "word-too-long"
    severity = ERROR
    bad = "say Slow" + "ly" * 100
    good = "say Slowly"

    most: int

    def message(self) -> str:
        return f"a word in this text is longer than {self.most} letters and fits no line"

    def hints(self) -> Iterator[Hint]:
        yield Hint("put spaces into it")


class GlyphMissing(Problem):
    """The typeface of the sheet lacks some letters of a text.

    The computer that prints the sheet may have another typeface with them, or may print a box.
    """

    code = "glyph-missing"
    severity = WARNING
    bad = "title Утро на кухне"
    good = "title Kitchen Shuffle"

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
    """A lick of the lesson is played nowhere in the tune."""

    code = "lick-unused"
    severity = REMARK
    bad = """
        lick stairs on I
          q 2d 3d 4d 2d
        """
    good = """
        lick stairs on I
          q 2d 3d 4d 2d
        bar 1 stairs
        """

    lick: str
    where: str  # bars whose chords it is written for: "bars 11-12"; "" if there are none

    def message(self) -> str:
        return f"the lick {code(self.lick)} is not played in this tune"

    def hints(self) -> Iterator[Hint]:
        if self.where:
            yield Hint(f"play it, such as {code(f'{self.where} {self.lick}')}, or remove it")
        else:
            yield Hint("remove it: no bars of this form have the chords that it is written for")


class PickupUnplayed(Problem):
    """A pick-up with `once` is not played, because the tune does not begin with its lick.

    `once` is for a pick-up into the first bar of the tune: it sounds in the count-in.
    """

    code = "pickup-unplayed"
    severity = REMARK
    bad = """
        lick creek on IV
          pickup once e 4b 4d
          q 4b 5b 6b 4b
        """
    good = """
        lick porch on I
          pickup once e 1d 2b
          q 2d 3d 4d 2d
        """

    lick: str
    first: str | None

    def message(self) -> str:
        begins = f"the tune begins with {code(self.first)}" if self.first else "it begins with rest"
        return f"the pick-up of {code(self.lick)} is not played in this tune: {begins}"

    def hints(self) -> Iterator[Hint]:
        yield Hint("write `pickup` without `once` to play it each time, or remove the line")


class PickupUncounted(Problem):
    """The tune begins with a pick-up and has no count-in, so one bar is counted all the same."""

    code = "pickup-uncounted"
    severity = REMARK
    bad = """
        count-in 0
        lick porch on I
          pickup once e 1d 2b
          q 2d 3d 4d 2d
        """
    good = """
        count-in 1
        lick porch on I
          pickup once e 1d 2b
          q 2d 3d 4d 2d
        """

    def message(self) -> str:
        return "the tune begins with a pick-up: one bar is counted, so that it has room"

    def hints(self) -> Iterator[Hint]:
        yield write("1", self.span, certain=False)
