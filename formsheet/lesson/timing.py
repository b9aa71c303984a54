"""Marks to bars: the onset of every mark, and a check that every bar is filled exactly."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from itertools import groupby, pairwise

from formsheet.language.tree import AnyMark, Mark, NoteMark, Sign
from formsheet.lesson.lengths import in_meter, length_words, value_of
from formsheet.lesson.model import Kind, LickBar, LickMark
from formsheet.music.rhythm import Meter, Value, parse_value
from formsheet.music.tab import Breath, Tab
from formsheet.problems import kinds
from formsheet.problems.nearest import nearest
from formsheet.problems.problem import Problem
from formsheet.source import Span
from formsheet.vocabulary.techniques import TECHNIQUES

_MOST_RESTS = 4  # in a row in a hint; more are written with a longer value


class _Timer:
    """Reads marks from left to right; keeps the value and the feel in force."""

    def __init__(self, sounding: bool = False) -> None:
        self.bars: list[list[LickMark]] = [[]]
        self.bar_ends: list[Span] = []  # the bar line after each finished bar
        self.problems: list[Problem] = []
        self.value: Value | None = None
        self.swings: bool | None = None
        self.sounding = sounding  # whether there is a note that `=` can hold
        self.told_no_value = False
        self.unused: Span | None = None  # a value not yet followed by a note
        self.led: Span | None = None  # a bar line before the first mark

    def take(self, mark: AnyMark) -> None:
        if isinstance(mark, NoteMark):
            self._place(Kind.NOTE, mark.span, mark)
            return
        match mark.sign:
            case Sign.VALUE:
                self.close_value()
                self.value, self.unused = parse_value(mark.text), mark.span
            case Sign.REST:
                self._place(Kind.REST, mark.span)
            case Sign.HOLD if self.sounding:
                self._place(Kind.HOLD, mark.span)
            case Sign.HOLD:
                self.problems.append(kinds.HoldNothing(mark.span))
                self._place(Kind.REST, mark.span)
            case Sign.PLACE:
                self._place(Kind.NOTE, mark.span)
            case Sign.SWING | Sign.STRAIGHT:
                self.swings = mark.sign is Sign.SWING
            case Sign.BAR if self.bars == [[]] and self.led is None:
                self.led = mark.span  # a bar line before the first mark does not end a bar
            case Sign.BAR:
                self.bar_ends.append(mark.span)
                self.bars.append([])
            case _:
                pass  # groups are expanded already, stray marks reported already

    def close_value(self) -> None:
        """Report a value that is not followed by a note, a hold or a rest: it has no effect."""
        if self.unused:
            self.problems.append(kinds.ValueUnused(self.unused, found=self.unused.text))
            self.told_no_value = True
        self.unused = None

    def _place(self, kind: Kind, span: Span, note: NoteMark | None = None) -> None:
        if self.value is None:
            if not self.told_no_value:
                self.problems.append(kinds.ValueMissing(span, found=span.text))
            self.told_no_value = True
            self.value = Value("q")
        self.unused = None
        bar = self.bars[-1]
        onset = bar[-1].end if bar else Fraction(0)
        self.sounding = kind is not Kind.REST
        plain = LickMark(kind, onset, self.value, span, swings=self.swings)
        bar.append(self._with_note(plain, note) if note else plain)

    def _with_note(self, mark: LickMark, note: NoteMark) -> LickMark:
        technique = (note.technique.text or "{}") if note.technique else ""
        if note.technique and technique not in TECHNIQUES:
            near = nearest(technique, TECHNIQUES)
            self.problems.append(
                kinds.TechniqueUnknown(note.technique.span, found=technique, near=near,
                      known=TECHNIQUES)
            )  # fmt: skip
        return LickMark(
            mark.kind,
            mark.onset,
            mark.value,
            note.span,
            tab=Tab(note.holes, Breath(note.breath), note.ticks, note.over),
            deliberate=note.deliberate,
            technique=technique,
            syllable=note.syllable.text if note.syllable else "",
            swings=mark.swings,
        )


def timed_bars(
    marks: Sequence[AnyMark], meter: Meter, name: str, sounding: bool = False
) -> tuple[tuple[LickBar, ...], list[Problem]]:
    """The bars of a lick's music; a bar that does not fill the meter exactly is a problem.

    `sounding`: a pick-up precedes it, whose last note may be held.
    """
    timer = _Timer(sounding=sounding)
    for mark in marks:
        timer.take(mark)
    timer.close_value()
    bars, ends = timer.bars, timer.bar_ends
    if len(bars) > 1 and not bars[-1]:
        bars = bars[:-1]  # a bar line at the very end
    problems = timer.problems
    if not timer.told_no_value:  # else the lengths are guesses
        for index, bar in enumerate(bars):
            end = ends[index] if index < len(ends) else timer.led
            earlier = bars[index - 1] if index else []
            problems += broken_triplets(bar) or _bar_problems(
                bar, end, meter, name, index + 1, earlier
            )
    return tuple(map(tuple, bars)), problems


def timed_pickup(
    marks: Sequence[AnyMark], meter: Meter, name: str
) -> tuple[LickBar, list[Problem]]:
    """The marks of a pick-up with their onsets; it is at most a bar long."""
    timer = _Timer()
    for mark in marks:
        if isinstance(mark, Mark) and mark.sign is Sign.BAR:
            timer.problems.append(kinds.PickupBarLine(mark.span))
        else:
            timer.take(mark)
    timer.close_value()
    pickup = tuple(timer.bars[0])
    if pickup and pickup[-1].end >= meter.bar:
        span = pickup[0].span.to(pickup[-1].span)
        timer.problems.append(
            kinds.PickupTooLong(span, lick=name, have=in_meter(pickup[-1].end, meter),
                  want=in_meter(meter.bar, meter))
        )  # fmt: skip
    return pickup, timer.problems


def broken_triplets(bar: Sequence[LickMark]) -> list[Problem]:
    """Report incomplete triplets; a whole one is three notes, or their equal, in a row."""
    problems: list[Problem] = []
    for triplet, group in groupby(bar, key=lambda mark: mark.value.triplet):
        if not triplet:
            continue
        marks = list(group)
        length = sum((mark.value.length for mark in marks), Fraction(0))
        if length.denominator % 3 == 0:
            value = marks[-1].value
            lacking = 1 if (length + value.length).denominator % 3 else 2
            rests = " ".join(["-"] * lacking)
            whole = _whole(marks)
            guess = f"{whole.text} {rests}" if _as_written(marks) else None
            problems.append(
                kinds.TripletBroken(whole, count=3 - lacking, value=str(value), guess=guess,
                      rests=None if guess else rests)
            )  # fmt: skip
    return problems


def _as_written(marks: Sequence[LickMark]) -> bool:
    """Whether marks are in a row on one line, without a repeated group that contains only some."""
    in_a_row = all(mark.span.end <= after.span.start for mark, after in pairwise(marks))
    return in_a_row and not set(_whole(marks).text) & set("[]#\n")


def _bar_problems(
    bar: list[LickMark],
    end: Span | None,
    meter: Meter,
    lick: str,
    number: int,
    earlier: Sequence[LickMark],
) -> list[Problem]:
    """A problem if the bar is too long or too short; `earlier` is the bar before."""
    have = bar[-1].end if bar else Fraction(0)
    if have == meter.bar:
        return []
    want = in_meter(meter.bar, meter)
    if not bar:
        assert end is not None
        return [kinds.BarEmpty(end, lick=lick, bar=number, meter=meter.text, want=want)]
    held = in_meter(have, meter)
    if have < meter.bar:
        missing = meter.bar - have
        rest = _rests(missing, bar[-1].value)
        span = _whole(bar)
        return [
            kinds.BarTooShort(
                span,
                lick=lick,
                bar=number,
                meter=meter.text,
                have=held,
                want=want,
                missing=length_words(missing, meter),
                rest=rest,
                still=_still_holds([*earlier, *bar], len(bar), missing),
            )
        ]
    over = [mark for mark in bar if mark.end > meter.bar]
    # Half a bar too much or more: a bar line is missing. Less: a mistake in this bar.
    fits = over[0].onset == meter.bar and 2 * (have - meter.bar) >= meter.bar
    last = bar[len(bar) - len(over) - 1] if fits else over[0]
    return [
        kinds.BarTooLong(
            _whole(over),
            lick=lick,
            bar=number,
            meter=meter.text,
            have=held,
            want=want,
            extra=length_words(have - meter.bar, meter),
            before=over[0].span.text if fits else None,
            full_at=_line_end_between(last, over[0]) if fits else None,
            whole_bars=have % meter.bar == 0,
        )
    ]


def _line_end_between(mark: LickMark, following: LickMark) -> Span | None:
    """The place behind a mark that ends its line, where the next mark is on another line."""
    source, start, end = mark.span.source, mark.span.end, following.span.start
    between = source.text[start:end]
    if "\n" not in between or set(between.partition("\n")[0].partition("#")[0]) - set(" \t\r"):
        return None
    return Span(source, start, start)


def _still_holds(
    marks: Sequence[LickMark], most: int, missing: Fraction
) -> kinds.StillHolds | None:
    """The last marks of a short bar, if it is full once they have the value before their own.

    The value that is still in force was meant for fewer of them, one at least. `most` is the
    number of marks of the bar.
    """
    value = marks[-1].value
    run = next((n for n, mark in enumerate(reversed(marks)) if mark.value != value), len(marks))
    longer = marks[-run - 1].value if run < len(marks) else value
    if longer.length <= value.length or longer.triplet:
        return None
    count, part = divmod(missing, longer.length - value.length)
    if part or not count < min(run, most + 1) or not _as_written(marks[-count:]):
        return None
    changed = _whole(marks[-count:])
    if str(value) in changed.text.split():
        return None
    return kinds.StillHolds(str(value), changed, str(longer))


def _rests(length: Fraction, value: Value) -> str | None:
    """Rests of a length, written after a mark of a value: `- -`, or `e -`."""
    count, part = divmod(length, value.length)
    if not part and count <= _MOST_RESTS:
        return " ".join(["-"] * count)
    plain = value_of(length)
    return f"{plain} -" if plain else None


def _whole(marks: Sequence[LickMark]) -> Span:
    """The span from the first to the last of some marks, in the order of the file."""
    source = marks[0].span.source
    return Span(source, min(m.span.start for m in marks), max(m.span.end for m in marks))
