"""Lay licks onto the bars of a chorus: every bar filled once, every count exact."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import TypeVar

from formsheet.lesson.model import AskedBar, BarsPlaced, Every, Lick, Placed, Play
from formsheet.music.chord import Chord, parse_chord
from formsheet.music.form import Form, FormBar
from formsheet.problems import kinds
from formsheet.problems.problem import Problem, Related
from formsheet.source import Span
from formsheet.tune.empty import empty_bars
from formsheet.tune.timeline import Slot

Slots = list[Slot | None]
T = TypeVar("T")
LAST_TIME = " the last time"  # in words, after a bar number
_Part = tuple[Placed, int]  # what is placed, and how often


def range_words(first: int, last: int) -> str:
    """ "bar 9", "bars 1-4"."""
    return f"bar {first}" if first == last else f"bars {first}-{last}"


def meets(bar: FormBar, asked: AskedBar) -> bool:
    """Whether a bar of the form has the chords that a bar of a lick asks for in its `on`."""
    return len(bar) == len(asked) and all(
        any(chord.meets(alternative) for alternative in alternatives)
        for chord, alternatives in zip(bar, asked, strict=True)
    )


def place_play(
    play: Play, form: Form, licks: Mapping[str, Lick]
) -> tuple[list[Slots], list[Problem]]:
    """The slots of each chorus of a play, in order.

    All but the last are equal, so each kind is laid out, and its mistakes reported, once.
    """
    passes = [number == play.times for number in range(1, play.times + 1)]
    placed: dict[bool, Slots] = {}
    problems: list[Problem] = []
    empty: set[FormBar] = set()  # chords whose empty bars have been reported
    for last in sorted(set(passes)):
        placed[last], found = place_chorus(play, form, licks, last, empty)
        problems += found
    return [placed[last] for last in passes], problems


def place_chorus(
    play: Play, form: Form, licks: Mapping[str, Lick], last_time: bool, empty: set[FormBar]
) -> tuple[Slots, list[Problem]]:
    """A slot for every bar of one chorus; None where a problem left a bar empty.

    `empty` collects the chords whose empty bars have been reported.
    """
    placer = _Placer(play.form(form, last_time), licks, play.unread.line)
    if last_time:
        placer.bars([line for line in play.bars if line.last_time])
    placer.bars([line for line in play.bars if not line.last_time], yielding=last_time)
    placer.every(play.every, [play.form(form, last) for last in (False, True)])
    if not (placer.problems or play.unread):
        when = LAST_TIME if last_time and play.times > 1 else ""
        placer.problems += empty_bars(placer.slots, placer.form, play.span, when, empty)
    return placer.slots, placer.problems


class _Placer:
    def __init__(self, form: Form, licks: Mapping[str, Lick], line_unread: bool) -> None:
        self.form = form
        self.licks = licks
        self.line_unread = line_unread
        self.slots: Slots = [None] * len(form.bars)
        self.claimed: dict[int, Span] = {}  # bar index -> the line that places it
        self.problems: list[Problem] = []

    def bars(self, lines: Sequence[BarsPlaced], yielding: bool = False) -> None:
        """Place the `bars` lines; `yielding`: skip bars that a last time has already placed."""
        before = dict(self.claimed)
        for line in lines:
            indices = range(line.first - 1, line.last)
            if line.last > len(self.form.bars):
                self.problems.append(
                    kinds.BarsOutside(line.span, found=range_words(line.first, line.last),
                          form=self.form.name, form_bars=len(self.form.bars))
                )  # fmt: skip
                continue
            overlap = [i for i in indices if i in self.claimed and not (yielding and i in before)]
            if overlap:
                first = Related(self.claimed[overlap[0]], "placed here already")
                self.problems.append(kinds.BarTwice(line.span, (first,), bar=overlap[0] + 1))
                continue
            slots = self._fill(line.placed, len(indices), line.first)
            for index, slot in zip(indices, slots, strict=True):
                if index not in self.claimed:
                    self.slots[index] = slot
                self.claimed.setdefault(index, line.span)

    def every(self, lines: Sequence[Every], forms: Sequence[Form]) -> None:
        """Place the `every` lines in the bars that no `bars` line fills, run by run.

        A line that meets no bar in any of `forms`, the forms of this play's choruses, is an error.
        """
        owners: dict[int, Every] = {}
        here = set(self.form.bars)
        anywhere = {bar for form in forms for bar in form.bars}
        chords = [str(chord) for chord in self.form.chords]
        for line in lines:
            met = {bar for bar in here if meets(bar, line.on)}
            nowhere = not met and not any(meets(bar, line.on) for bar in anywhere)
            if nowhere:  # with its third a slip, it is laid out as it was meant
                met = {bar for bar in here if _meets_but_for_thirds(bar, line.on)}
            for index, bar in enumerate(self.form.bars):
                if index in self.claimed or bar not in met:
                    continue
                if index in owners and nowhere:
                    continue
                if index in owners:
                    first = Related(owners[index].span, "placed here already")
                    self.problems.append(kinds.BarTwice(line.span, (first,), bar=index + 1))
                    break
                owners[index] = line
            if nowhere:
                self.problems.append(
                    kinds.EveryNowhere(line.span, found=line.span.text,
                          form=self.form.full_name, chords=chords,
                          near=_same_degree(self.form, line.on), small=bool(met) and
                          any(chord.minor_third for each in line.on for chord in each))
                )  # fmt: skip
        for start, last, line in _runs(owners):
            before = len(self.problems)
            slots = self._fill(line.placed, last - start + 1, start + 1, every=True)
            if self.line_unread:  # the length of the run is not known, so counts are not checked
                del self.problems[before:]
            self.slots[start : last + 1] = slots

    def _fill(
        self, placed: Sequence[Placed], length: int, first: int, every: bool = False
    ) -> Slots:
        """Slots for a run of bars; None for all if the counts do not fill it exactly."""
        if not placed:
            return [None] * length
        parts = self._parts(placed, length, first, every)
        return [
            slot for part, times in parts for slot in self._rounds(part, times)
        ] if parts else [None] * length  # fmt: skip

    def _bars_of(self, placed: Placed) -> int:
        return 1 if placed.rest else len(self.licks[placed.name].bars)

    def _parts(
        self, placed: Sequence[Placed], length: int, first: int, every: bool
    ) -> list[_Part] | None:
        """How often each lick is played to fill the run; None if it cannot, with a problem."""
        span = placed[0].span.to(placed[-1].span)
        where = range_words(first, first + length - 1)
        counted = sum(self._bars_of(p) * p.times for p in placed if p.times)
        open_ones = [p for p in placed if p.times is None]
        if len(open_ones) == 1 and counted < length:
            left, one = length - counted, self._bars_of(open_ones[0])
            if left % one == 0:
                return [(p, p.times or left // one) for p in placed]
            self.problems.append(
                kinds.LickDoesNotFill(open_ones[0].span, lick=open_ones[0].name, one=one,
                      left=left, where=where,
                      whole=self._room_for(placed, one, first, left, every))
            )  # fmt: skip
            return None
        have = counted + sum(map(self._bars_of, open_ones))
        if have == length:
            return [(p, p.times or 1) for p in placed]
        fixed = None
        if len(placed) == 1 and length % self._bars_of(placed[0]) == 0:
            fixed = f"{placed[0].name} x{length // self._bars_of(placed[0])}"
        lick = placed[0].name
        if every and fixed:
            fixed = lick  # an `every` run has a fixed length; without counts it is always filled
        if len(open_ones) > 1 and have < length:
            problem: Problem = kinds.CountsWanted(
                span, have=have, want=length, where=where, lick=lick
            )
        else:
            problem = kinds.CountMismatch(span, have=have, want=length, where=where, fixed=fixed)
        self.problems.append(problem)
        return None

    def _room_for(
        self, placed: Sequence[Placed], bars: int, first: int, room: int, every: bool
    ) -> str | None:
        """The bars that a lick too long for its range would need, if the form has them."""
        last = first + bars - 1
        if len(placed) > 1 or every or bars <= room or last > len(self.form.bars):
            return None
        return range_words(first, last)

    def _rounds(self, placed: Placed, times: int) -> Slots:
        lick = None if placed.rest else self.licks[placed.name]
        return [
            Slot(lick, bar, number + 1, times, placed.span)
            for number in range(times)
            for bar in range(len(lick.bars) if lick else 1)
        ]


def _meets_but_for_thirds(bar: FormBar, asked: AskedBar) -> bool:
    """Whether only the thirds of the chords that are asked for keep a bar from having them."""
    return len(bar) == len(asked) and all(
        any(chord.meets(with_third(each, chord)) for each in alternatives)
        for chord, alternatives in zip(bar, asked, strict=True)
    )


def with_third(asked: Chord, chord: Chord) -> Chord:
    """What is asked for with the third of a chord on its degree: a bare numeral for a bare one."""
    if asked.root != chord.root or asked.minor_third == chord.minor_third:
        return asked
    if asked.quality:
        return chord
    roman = asked.numeral.lstrip("b#")
    sign = asked.numeral.removesuffix(roman)
    return parse_chord(sign + (roman.lower() if chord.minor_third else roman.upper()))


def _same_degree(form: Form, asked: AskedBar) -> str | None:
    """The form's own chord on the degree that is asked for: `i7` for I in a minor form."""
    roots = {chord.root for chord in asked[0]} if len(asked) == 1 else set()
    return next((str(chord) for chord in form.chords if chord.root in roots), None)


def _runs(owners: Mapping[int, T]) -> list[tuple[int, int, T]]:
    """First index, last index and owner of each run of consecutive bars with one owner."""
    runs: list[tuple[int, int, T]] = []
    for index in sorted(owners):
        owner = owners[index]
        if runs and runs[-1][1] == index - 1 and runs[-1][2] == owner:
            runs[-1] = (runs[-1][0], index, owner)
        else:
            runs.append((index, index, owner))
    return runs
