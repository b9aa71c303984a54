"""What is played where."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from formsheet.listing import bars_words
from formsheet.music.form import FormBar
from formsheet.problems.problem import ERROR, Hint, Problem
from formsheet.problems.words import (
    bar_count,
    code,
    did_you_mean,
    one_of,
    write,
)

_MOST_OFFERS = 3  # licks that are named


class PlayMissing(Problem):
    """TODO play-missing."""

    code = "play-missing"
    severity = ERROR

    def message(self) -> str:
        return "nothing is played: the lesson has no `play` line"

    def hints(self) -> Iterator[Hint]:
        yield Hint("end it with `play` and, below, lines such as `every I porch`")


class PlayForgotten(Problem):
    """TODO play-forgotten."""

    code = "play-forgotten"
    severity = ERROR

    found: str

    def message(self) -> str:
        return f"{code(self.found)} belongs under a `play` line, and this lesson has none"

    def hints(self) -> Iterator[Hint]:
        yield Hint("write `play` on a line of its own above this line")


class LickUnknown(Problem):
    """TODO lick-unknown."""

    code = "lick-unknown"
    severity = ERROR

    found: str
    shelf: str | None
    near: str | None
    known: Sequence[str]

    def message(self) -> str:
        return f"there is no lick called {code(self.found)}"

    def hints(self) -> Iterator[Hint]:
        if self.shelf:
            yield Hint(
                f"the shelf {code(self.shelf)} has one: write "
                f"{code(f'use {self.found} from {self.shelf}')} above the first lick"
            )
        if self.near:
            yield did_you_mean(self.near, self.span)
        if self.known:
            yield Hint(f"the licks here are {one_of(self.known)}")


class CountRange(Problem):
    """TODO count-range."""

    code = "count-range"
    severity = ERROR

    found: str
    most: int

    def message(self) -> str:
        return f"{code(self.found)} is no count"

    def hints(self) -> Iterator[Hint]:
        yield Hint(f"write `x1` to {code(f'x{self.most}')}")


class BarsRange(Problem):
    """TODO bars-range."""

    code = "bars-range"
    severity = ERROR

    found: str

    def message(self) -> str:
        return f"{code(self.found)} is no range of bars"

    def hints(self) -> Iterator[Hint]:
        yield Hint("count bars from 1 and write the lower number first, such as `bars 1-4`")


class BarsOutside(Problem):
    """TODO bars-outside."""

    code = "bars-outside"
    severity = ERROR

    form: str
    form_bars: int
    found: str

    def message(self) -> str:
        return f"the form {code(self.form)} has {self.form_bars} bars, too few for {self.found}"

    def hints(self) -> Iterator[Hint]:
        yield Hint(f"write bars from 1 to {self.form_bars}")


class BarTwice(Problem):
    """TODO bar-twice."""

    code = "bar-twice"
    severity = ERROR

    bar: int

    def message(self) -> str:
        return f"bar {self.bar} is placed twice"

    def hints(self) -> Iterator[Hint]:
        yield Hint("take one of the two out, or let its bars end sooner")


class Offers(NamedTuple):
    """Names of licks for some chords, the best first."""

    written: Sequence[str] = ()  # licks of the lesson that are written for the chords
    might: Sequence[str] = ()  # other licks of the lesson that fit
    shelved: Sequence[str] = ()  # licks of one shelf that fit
    shelf: str = ""  # the shelf that holds them


class LickWanted(Problem):
    """Base of the problems that a lick for certain chords would mend."""

    chord: str
    chords: tuple[FormBar, ...]  # of the bars that the lick has to fill
    lick: str | None = None  # the lick that is there now
    offers: Offers = Offers()

    @property
    def fitting(self) -> Sequence[str]:
        """Licks of the lesson that are written for the chords, but for the one that is there."""
        return [name for name in self.offers.written if name != self.lick][:_MOST_OFFERS]

    def other_hints(self) -> Iterator[Hint]:
        """Licks that fit although they are not written for the chords, then those on a shelf."""
        might = [name for name in self.offers.might if name != self.lick][:_MOST_OFFERS]
        if might:
            yield Hint(f"{one_of(might)} would fit too, if its first line named {self.chord}")
        if self.offers.shelved:
            take = f"use {self.offers.shelved[0]} from {self.offers.shelf}"
            yield Hint(
                f"on the shelf {code(self.offers.shelf)}, {one_of(self.offers.shelved)} would "
                f"fit: add {code(take)}"
            )


class BarWithoutLick(LickWanted):
    """TODO bar-without-lick."""

    code = "bar-without-lick"
    severity = ERROR

    bars: Sequence[int]
    when: str

    def message(self) -> str:
        return f"nothing is placed in {bars_words(self.bars)}{self.when}, on {self.chord}"

    def hints(self) -> Iterator[Hint]:
        if self.fitting:
            yield Hint(
                f"{one_of(self.fitting)} would fit: add "
                f"{code(f'every {self.chord} {self.fitting[0]}')} below"
            )
        yield from self.other_hints()
        yield Hint(f"to leave silence there, add {code(f'every {self.chord} rest')}")


class LickWrongChord(LickWanted):
    """TODO lick-wrong-chord."""

    code = "lick-wrong-chord"
    severity = ERROR

    asked: str
    bars: Sequence[int]
    when: str
    both: str | None

    def message(self) -> str:
        return (
            f"{code(self.lick or '')} is written for {self.asked}; the chord of "
            f"{bars_words(self.bars)}{self.when} is {self.chord}"
        )

    def hints(self) -> Iterator[Hint]:
        if self.fitting:
            yield Hint(
                f"play a lick that is written for {self.chord}, the best first: "
                f"{one_of(self.fitting)}"
            )
        yield from self.other_hints()
        if self.both:
            yield Hint(
                f"if it is meant for this bar too, write {code(f'on {self.both}')} in its "
                "first line"
            )


class LickWrongLast(LickWanted):
    """TODO lick-wrong-last."""

    code = "lick-wrong-last"
    severity = ERROR

    asked: str
    bars: Sequence[int]
    where: str
    both: str | None

    def message(self) -> str:
        return (
            f"{code(self.lick or '')} is written for {self.asked}; the last time the chord of "
            f"{bars_words(self.bars)} is {self.chord}"
        )

    def hints(self) -> Iterator[Hint]:
        if self.fitting:
            last = f"last time {self.where} {self.fitting[0]}"
            yield Hint(f"for the last time add {code(last)} below")
        yield from self.other_hints()
        if self.both:
            yield Hint(
                f"if it is meant for the last time too, write {code(f'on {self.both}')} in "
                "its first line"
            )


class EveryNowhere(Problem):
    """TODO every-nowhere."""

    code = "every-nowhere"
    severity = ERROR

    form: str
    found: str
    near: str | None
    chords: Sequence[str]

    def message(self) -> str:
        return f"the form {code(self.form)} has no bar on {code(self.found)}"

    def hints(self) -> Iterator[Hint]:
        if self.near:
            yield did_you_mean(self.near, self.span)
        if self.chords:
            yield Hint(f"its chords are {one_of(self.chords)}")


class CountMismatch(Problem):
    """TODO count-mismatch."""

    code = "count-mismatch"
    severity = ERROR

    have: int
    want: int
    where: str
    fixed: str | None

    def message(self) -> str:
        return (
            f"the count does not come out: this fills {bar_count(self.have)}, and there is "
            f"room for {self.want} in {self.where}"
        )

    def hints(self) -> Iterator[Hint]:
        if self.fixed:
            yield write(self.fixed, self.span)


class CountsWanted(Problem):
    """TODO counts-wanted."""

    code = "counts-wanted"
    severity = ERROR

    want: int
    where: str
    have: int
    lick: str

    def message(self) -> str:
        return (
            f"there is room for {bar_count(self.want)} in {self.where}, and these licks once "
            f"each fill {self.have}"
        )

    def hints(self) -> Iterator[Hint]:
        yield Hint(f"say how often each is played, such as {code(f'{self.lick} x2')}")


class LickDoesNotFill(Problem):
    """TODO lick-does-not-fill."""

    code = "lick-does-not-fill"
    severity = ERROR

    lick: str
    one: int
    where: str
    left: int
    whole: str | None

    def message(self) -> str:
        return (
            f"{code(self.lick)} is {bar_count(self.one)} long; it cannot fill {self.where} "
            f"exactly, where there is room for {self.left}"
        )

    def hints(self) -> Iterator[Hint]:
        if self.whole:
            yield Hint(f"write {code(self.whole)} to play it once")
        yield Hint("or say how often it is played, and fill up with another lick or with `rest`")


class BarLineMissing(Problem):
    """TODO bar-line-missing."""

    code = "bar-line-missing"
    severity = ERROR

    asked: str
    bars: Sequence[int]
    lick: str
    apart: str

    def message(self) -> str:
        return (
            f"{code(self.asked)} is two chords that share one bar; in {bars_words(self.bars)} "
            f"{code(self.lick)} is played over a chord a bar"
        )

    def hints(self) -> Iterator[Hint]:
        yield Hint(f"for a chord a bar write {code(f'on {self.apart}')}")


class ThirdUnlike(Problem):
    """TODO third-unlike."""

    code = "third-unlike"
    severity = ERROR

    asked: str
    third: str
    bars: Sequence[int]
    lick: str
    chord: str
    other: str
    meant: str

    def message(self) -> str:
        return (
            f"{code(self.asked)} is {self.third}; in {bars_words(self.bars)} "
            f"{code(self.lick)} is played over {code(self.chord)}, {self.other}"
        )

    def hints(self) -> Iterator[Hint]:
        yield Hint(
            f"if the numeral is a slip, write {code(f'on {self.meant}')}; else play a "
            f"lick written for {code(self.chord)}"
        )


class PickupNoRoom(Problem):
    """TODO pickup-no-room."""

    code = "pickup-no-room"
    severity = ERROR

    lick: str
    length: str
    bar: int
    before: str

    def message(self) -> str:
        return (
            f"the pick-up of {code(self.lick)} needs {self.length} at the end of bar "
            f"{self.bar}, where {code(self.before)} still sounds"
        )

    def hints(self) -> Iterator[Hint]:
        yield Hint(f"end {code(self.before)} with a rest of that length")


class TuneTooLong(Problem):
    """TODO tune-too-long."""

    code = "tune-too-long"
    severity = ERROR

    length: int
    most: int

    def message(self) -> str:
        return f"the tune would have {self.length} bars; {self.most} is the most"

    def hints(self) -> Iterator[Hint]:
        yield Hint("play fewer choruses")
