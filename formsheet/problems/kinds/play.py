"""What is played where."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from formsheet.listing import bars_words
from formsheet.music.form import FormBar
from formsheet.problems.edits import line_above, line_below
from formsheet.problems.problem import ERROR, REMARK, Edit, Hint, Problem, Sample
from formsheet.problems.words import (
    bar_count,
    code,
    did_you_mean,
    one_of,
    write,
)

_MOST_OFFERS = 3  # licks that are named


class PlayMissing(Problem):
    """The licks are there, but nothing says which of them is played where."""

    code = "play-missing"
    severity = ERROR
    bad = Sample("lick gate on V\n  q 4d 5d 4d 1d", without=("play",))
    good = """
        play
          every I   porch
          every IV  creek
          every V   gate
        """

    def message(self) -> str:
        return "nothing is played: the lesson has no `play` line"

    def hints(self) -> Iterator[Hint]:
        yield Hint("end it with `play` and, below, lines such as `every I porch`")


class PlayForgotten(Problem):
    """Lines that place licks have no `play` line above them."""

    code = "play-forgotten"
    severity = ERROR
    bad = Sample("every I   porch\nevery IV  creek\nevery V   gate", without=("play",))
    good = """
        play
          every I   porch
          every IV  creek
          every V   gate
        """

    found: str

    def message(self) -> str:
        return f"{code(self.found)} belongs under a `play` line, and this lesson has none"

    def hints(self) -> Iterator[Hint]:
        words = "write `play` on a line of its own above this line"
        yield Hint(words, line_above(self.span, "play", certain=True))


class LickUnknown(Problem):
    """At `play` a lick has a name that no lick of the lesson has."""

    code = "lick-unknown"
    severity = ERROR
    bad = """
        play
          every I   porch
          every IV  creak
          every V   gate
        """
    good = """
        play
          every I   porch
          every IV  creek
          every V   gate
        """

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
    """The number of times that a lick or a chorus is played makes no sense."""

    code = "count-range"
    severity = ERROR
    bad = "bars 1-4 porch x0"
    good = "bars 1-4 porch x4"

    found: str
    most: int

    def message(self) -> str:
        return f"{code(self.found)} is not a count"

    def hints(self) -> Iterator[Hint]:
        yield Hint(f"write `x1` to {code(f'x{self.most}')}")


class BarsRange(Problem):
    """The bars are given in a way that names no bar, such as backwards."""

    code = "bars-range"
    severity = ERROR
    bad = "bars 4-1 porch"
    good = "bars 1-4 porch"

    found: str

    def message(self) -> str:
        return f"{code(self.found)} is not a range of bars"

    def hints(self) -> Iterator[Hint]:
        yield Hint("count bars from 1 and write the lower number first, such as `bars 1-4`")


class BarsOutside(Problem):
    """A line places a lick in a bar that the form does not have."""

    code = "bars-outside"
    severity = ERROR
    bad = "bar 13 gate"
    good = "bar 12 gate"

    form: str
    form_bars: int
    found: str

    def message(self) -> str:
        return f"the form {code(self.form)} has {self.form_bars} bars, too few for {self.found}"

    def hints(self) -> Iterator[Hint]:
        yield Hint(f"write bars from 1 to {self.form_bars}")


class BarTwice(Problem):
    """Two lines place different things in the same bar."""

    code = "bar-twice"
    severity = ERROR
    bad = """
        bars 1-4 porch
        bar 4 rest
        """
    good = """
        bars 1-3 porch
        bar 4 rest
        """

    bar: int

    def message(self) -> str:
        return f"bar {self.bar} is placed twice"

    def hints(self) -> Iterator[Hint]:
        yield Hint("remove one of the two, or let its bars end sooner")


class Offers(NamedTuple):
    """Names of licks for some chords, the best first."""

    written: Sequence[str] = ()  # licks of the lesson that are written for the chords
    might: Sequence[str] = ()  # other licks of the lesson that fit
    shelved: Sequence[str] = ()  # licks of one shelf that fit
    shelf: str = ""  # the shelf that holds them


def _fit(licks: Sequence[str]) -> str:
    """That licks fit: "`a` fits", "`a` or `b` fits"."""
    return f"{one_of(licks)} fits"


def _their(licks: Sequence[str]) -> str:
    return "its" if len(licks) == 1 else "their"


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
            yield Hint(f"{_fit(might)} too; add {self.chord} to {_their(might)} `on`")
        if self.offers.shelved:
            take = f"use {self.offers.shelved[0]} from {self.offers.shelf}"
            yield Hint(
                f"on the shelf {code(self.offers.shelf)}, {_fit(self.offers.shelved)}: "
                f"add {code(take)}"
            )


class BarWithoutLick(LickWanted):
    """Nothing is played in some bars of the form.

    Every bar of a sheet shows a lick or a rest: a student cannot know whether an empty bar is
    meant.
    """

    code = "bar-without-lick"
    severity = ERROR
    bad = """
        play
          every I   porch
          every IV  creek
        """
    good = """
        play
          every I   porch
          every IV  creek
          every V   gate
        """

    bars: Sequence[int]
    when: str

    def message(self) -> str:
        verb = "has" if len(self.bars) == 1 else "have"
        return f"{bars_words(self.bars)} ({self.chord}) {verb} no lick{self.when}"

    def hints(self) -> Iterator[Hint]:
        if self.fitting:
            line = f"every {self.chord} {self.fitting[0]}"
            words = f"{_fit(self.fitting)}: add {code(line)} below"
            yield Hint(words, self._added(line))
        yield from self.other_hints()
        silence = f"every {self.chord} rest"
        yield Hint(f"to leave silence there, add {code(silence)}", self._added(silence))

    def _added(self, line: str) -> Edit | None:
        return line_below(self.span, line) if self.span.text.startswith("play") else None


class LickWrongChord(LickWanted):
    """A lick is played over another chord than the one it is written for.

    Its strong notes were chosen from the chord that it names, and may clash with another.
    """

    code = "lick-wrong-chord"
    severity = ERROR
    bad = "bar 9 creek"
    good = "bar 9 gate"

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
            words = f"play a lick that is written for {self.chord}, the best first: "
            (best, *others) = self.fitting
            edit = None if others else self._instead(best)
            yield Hint(words + one_of(self.fitting), edit)
        yield from self.other_hints()
        if self.both:
            chords = code(f"on {self.both}")
            words = f"if it is meant for this bar too, write {chords} in its first line"
            yield Hint(words, Edit(self.related[0].span, self.both, certain=False))

    def _instead(self, lick: str) -> Edit:
        name = self.span._replace(end=self.span.start + len(self.lick or ""))
        return Edit(name, lick, certain=False)


class LickWrongLast(LickWanted):
    """In the last chorus the ending changes a chord, and the lick that is there does not fit it."""

    code = "lick-wrong-last"
    severity = ERROR
    bad = """
        play x2
          every I   porch
          every IV  creek
          every V   gate
          bar 12    gate
          last time ending I
        """
    good = """
        play x2
          every I   porch
          every IV  creek
          every V   gate
          last time ending I
        """

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
            yield Hint(f"for the last time add {code(last)} below", line_below(self.span, last))
        yield from self.other_hints()
        if self.both:
            chords = code(f"on {self.both}")
            words = f"if it is meant for the last time too, write {chords} in its first line"
            yield Hint(words, Edit(self.related[0].span, self.both, certain=False))


class BarsShifted(Problem):
    """A lick is placed a bar or two beside the bars for whose chords it is written.

    The bars of a chorus are counted from 1; a turnaround is usually for the last two.
    """

    code = "bars-shifted"
    severity = ERROR
    bad = """
        turnaround home on I | V
          q 2d 3d 4d 2d |
          q 1d 4d 1d -
        play
          every I     porch
          every IV    creek
          bar 9       gate
          bars 10-11  home
        """
    good = """
        turnaround home on I | V
          q 2d 3d 4d 2d |
          q 1d 4d 1d -
        play
          every I     porch
          every IV    creek
          bar 9       gate
          bars 11-12  home
        """

    lick: str
    where: str
    chords: str  # of the bars in which it is placed
    first: int  # of the bars that have its chords
    last: int

    def message(self) -> str:
        return f"the chords of {code(self.lick)} are not those of {self.where}, {self.chords}"

    def hints(self) -> Iterator[Hint]:
        meant = f"{self.first}-{self.last}"
        words = f"bars {meant} have them: write {code(meant)}"
        yield Hint(words, Edit(self.span, meant, certain=False))


class CommaForBar(Problem):
    """A comma between the chords of a lick that has one chord a bar.

    A comma gives a choice for all its bars; a `|` between the chords says which bar has which.
    """

    code = "comma-for-bar"
    severity = REMARK
    bad = """
        turnaround home on I, V
          q 2d 3d 4d 2d |
          q 1d 4d 1d -
        play
          every I     porch
          every IV    creek
          bar 9       gate
          bars 11-12  home
        """
    good = """
        turnaround home on I | V
          q 2d 3d 4d 2d |
          q 1d 4d 1d -
        play
          every I     porch
          every IV    creek
          bar 9       gate
          bars 11-12  home
        """

    lick: str
    asked: str
    apart: str

    def message(self) -> str:
        return (
            f"{code(f'on {self.asked}')} means that each bar of {code(self.lick)} fits any of "
            "these chords; here each bar is played on one of its own"
        )

    def hints(self) -> Iterator[Hint]:
        words = f"for a chord a bar write {code(f'on {self.apart}')}"
        yield Hint(words, Edit(self.span, self.apart, certain=False))


class EveryNowhere(Problem):
    """A line places a lick on every bar of a chord that the form never has."""

    code = "every-nowhere"
    severity = ERROR
    bad = """
        play
          every I   porch
          every IV  creek
          every V   gate
          every ii  gate
        """
    good = """
        play
          every I   porch
          every IV  creek
          every V   gate
        """

    form: str
    found: str
    near: str | None
    chords: Sequence[str]
    small: bool  # the small letters of a minor chord are all that is wrong

    def message(self) -> str:
        return f"the form {code(self.form)} has no bar on {code(self.found)}"

    def hints(self) -> Iterator[Hint]:
        if self.near and self.small:
            yield Hint(
                f"small letters are minor chords: write {code(self.near)}",
                Edit(self.span, self.near, certain=False),
            )
        elif self.near:
            yield did_you_mean(self.near, self.span)
        if self.chords:
            yield Hint(f"its chords are {one_of(self.chords)}")


class CountMismatch(Problem):
    """Licks and counts do not add up to the bars that they are placed in."""

    code = "count-mismatch"
    severity = ERROR
    bad = "bars 1-4 porch x3"
    good = "bars 1-4 porch x4"

    have: int
    want: int
    where: str
    fixed: str | None

    def message(self) -> str:
        return (
            f"the count is wrong: this fills {bar_count(self.have)}, and there is "
            f"room for {self.want} in {self.where}"
        )

    def hints(self) -> Iterator[Hint]:
        if self.fixed:
            yield write(self.fixed, self.span, certain=False)


class CountsWanted(Problem):
    """Several licks share some bars, and nothing says how often each is played."""

    code = "counts-wanted"
    severity = ERROR
    bad = "bars 1-4 porch, rest"
    good = "bars 1-4 porch x3, rest"

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
    """A lick repeats until its bars are full, and this one does not come out even.

    A lick of two bars fills two or four bars, but not three.
    """

    code = "lick-does-not-fill"
    severity = ERROR
    bad = """
        lick stairs on I
          q 2d 3d 4d 2d | 4d 3d 2d 2d
        bars 1-3 stairs
        """
    good = """
        lick stairs on I
          q 2d 3d 4d 2d | 4d 3d 2d 2d
        bars 1-4 stairs
        """

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
    """Two chords are written as if they shared a bar, but the lick is played over a chord a bar.

    Without a bar line between them, two chords change in the middle of one bar.
    """

    code = "bar-line-missing"
    severity = ERROR
    bad = """
        turnaround home on I V
          q 2d 3d 4d 2d | 4d 5d 4d 1d
        bars 11-12 home
        """
    good = """
        turnaround home on I | V
          q 2d 3d 4d 2d | 4d 5d 4d 1d
        bars 11-12 home
        """

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
        words = f"for a chord a bar write {code(f'on {self.apart}')}"
        yield Hint(words, Edit(self.span, self.apart, certain=False))


class ThirdUnlike(Problem):
    """A lick written for a minor chord is played over a major one, or the other way round.

    The third decides between the two. A major third over a minor chord sounds like a mistake; a
    minor third over a major one is a blue note, another sound than the lick was written for.
    """

    code = "third-unlike"
    severity = ERROR
    bad = """
        lick creek on iv
          q 4b 5b 6b 4b
        """
    good = """
        lick creek on IV
          q 4b 5b 6b 4b
        """

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
        words = (
            f"if the numeral is a slip, write {code(f'on {self.meant}')}; else play a "
            f"lick written for {code(self.chord)}"
        )
        yield Hint(words, Edit(self.span, self.meant, certain=False))


class PickupNoRoom(Problem):
    """A pick-up would sound over notes of the bar before it.

    A harp plays one thing at a time: the bar before a pick-up has a rest at its end.
    """

    code = "pickup-no-room"
    severity = ERROR
    bad = """
        lick creek on IV
          pickup e 3b 4b
          q 4b 5b 6b -
        lick porch on I
          q 2d 3d 4d -
        """
    good = """
        lick creek on IV
          pickup e 3b 4b
          q 4b 5b 6b -
        lick porch on I
          q 2d 3d 4d -
        lick gate on V
          q 4d 5d 4d -
        """

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
        yield Hint("or write `pickup once`, if it is meant for the beginning of the tune alone")


class TuneTooLong(Problem):
    """All choruses together are longer than any tune."""

    code = "tune-too-long"
    severity = ERROR
    bad = """
        play x50
          every I   porch
          every IV  creek
          every V   gate
        play x50
          every I   porch
          every IV  creek
          every V   gate
        """
    good = """
        play x3
          every I   porch
          every IV  creek
          every V   gate
        """

    length: int
    most: int

    def message(self) -> str:
        return f"the tune would have {self.length} bars; at most {self.most} are possible"

    def hints(self) -> Iterator[Hint]:
        yield Hint("play fewer choruses")
