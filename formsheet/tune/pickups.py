"""Pick-ups: laid over the end of the bar before, which must have room for them.

A pick-up that is played once sounds only before the tune, if the tune begins with its lick. It is
played in the count-in, so it does not need a rest anywhere.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from functools import cache
from itertools import combinations_with_replacement, islice

from formsheet.lesson.lengths import length_words
from formsheet.lesson.model import Kind, Lick, LickMark
from formsheet.music.rhythm import Meter, Value
from formsheet.problems import kinds
from formsheet.problems.problem import Problem, Related
from formsheet.tune.timeline import Bar, PlayedMark

# Values of the rests within a beat, the plainest first.
_PLAIN = [Value(letter, dots) for dots in (0, 1, 2) for letter in "qes"]
_TRIPLETS = [Value(letter, triplet=True) for letter in "qes"]
_MOST_PARTS = 4  # rests that fill up a beat


def with_pickups(bars: list[Bar], meter: Meter) -> tuple[list[Bar], list[Problem]]:
    """The bars with every pick-up laid over the bar before; bar 0 is added for one at the start."""
    problems: list[Problem] = []
    reported: set[tuple[str, int]] = set()
    laid = list(bars)
    first = laid[0]
    if first.lick and first.lick.pickup:
        before = _bar_zero(first, meter)
        laid.insert(0, before)
    for index in range(len(laid) - 1):
        following = laid[index + 1]
        lick = following.lick
        if not lick or not lick.pickup or following.slot.bar_in_lick:
            continue
        if lick.pickup_once and laid[index].number:
            continue
        laid[index], problem = _laid_over(laid[index], lick, meter)
        if problem and (key := (lick.name, problem.related[1].span.start)) not in reported:
            reported.add(key)
            problems.append(problem)
    return laid, problems


def _bar_zero(first: Bar, meter: Meter) -> Bar:
    """The bar before the tune, in which only the pick-up sounds."""
    assert first.lick
    at = first.lick.pickup[0]._replace(kind=Kind.REST, tab=None)
    marks = tuple(rests(Fraction(0), meter.bar, meter, at))
    slot = first.slot._replace(lick=None, bar_in_lick=0)
    return Bar(0, 0, first.start - meter.bar, first.chords[:1], slot, marks)


def _laid_over(bar: Bar, lick: Lick, meter: Meter) -> tuple[Bar, Problem | None]:
    start = meter.bar - lick.pickup_length
    in_the_way = [m for m in bar.marks if m.end > start and m.sounds]
    if in_the_way:
        pickup = lick.pickup[0].span.to(lick.pickup[-1].span)
        return bar, kinds.PickupNoRoom(
            bar.slot.span,
            (
                Related(pickup, "this pick-up"),
                Related(in_the_way[-1].mark.span, "still sounding here"),
            ),
            lick=lick.name,
            bar=bar.number,
            before=bar.lick.name if bar.lick else "rest",
            length=length_words(lick.pickup_length, meter),
        )
    kept = [m for m in bar.marks if m.end <= start]
    since = kept[-1].end if kept else Fraction(0)
    cut = bar.marks[len(kept)].mark if since < start else None
    filling = list(rests(since, start, meter, cut)) if cut else []
    return bar._replace(marks=(*kept, *filling, *pickup_marks(lick, start))), None


def pickup_marks(lick: Lick, start: Fraction) -> tuple[PlayedMark, ...]:
    """The marks of a lick's pick-up that begins `start` quarters after a bar line."""
    return tuple(
        PlayedMark(mark, start + mark.onset, pickup=True, once=lick.pickup_once, place=place)
        for place, mark in enumerate(lick.pickup)
    )


def rests(start: Fraction, end: Fraction, meter: Meter, like: LickMark) -> Iterator[PlayedMark]:
    """Rests from `start` to `end` in a bar, in quarters: whole beats, then parts of a beat."""
    at = start
    while at < end:
        values = _whole_beats(at, end, meter) or _parts(min(end - at, meter.beat - at % meter.beat))
        if not values:
            return  # the rest beside a dotted sixteenth is shorter than any written rest
        for value in values:
            yield PlayedMark(like._replace(kind=Kind.REST, value=value, tab=None, technique="",
                                           syllable="", onset=at), at)  # fmt: skip
            at += value.length


def _whole_beats(at: Fraction, end: Fraction, meter: Meter) -> tuple[Value, ...]:
    """The longest rest of whole beats that may begin at this place, or none."""
    values = (Value(letter, dots=1 if meter.compound else 0) for letter in "whq")
    fitting = (v for v in values if at % v.length == 0 and v.length <= end - at)
    return tuple(islice(fitting, 1))


@cache
def _parts(length: Fraction) -> tuple[Value, ...]:
    """The fewest rests that fill a part of a beat, or none."""
    values = (*_TRIPLETS, *_PLAIN) if length.denominator % 3 == 0 else _PLAIN
    for count in range(1, _MOST_PARTS + 1):
        for parts in combinations_with_replacement(values, count):
            if sum(value.length for value in parts) == length:
                return parts
    return ()
