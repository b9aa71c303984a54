"""Pick-ups: played over the end of the bar before, which must leave room for them."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction

from formsheet.lesson.lengths import length_words
from formsheet.lesson.model import Kind, Lick, LickMark
from formsheet.music.rhythm import Meter, Value
from formsheet.problems.problem import Problem, Related, error
from formsheet.tune.timeline import Bar, PlayedMark

_REST_VALUES = [Value(letter, 0, triplet) for letter in "whqes" for triplet in (False, True)]


def with_pickups(bars: list[Bar], meter: Meter) -> tuple[list[Bar], list[Problem]]:
    """The bars with every pick-up laid over the bar before; a bar 0 where the tune begins so."""
    problems: list[Problem] = []
    told: set[tuple[str, int]] = set()
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
        laid[index], problem = _laid_over(laid[index], lick, meter)
        if problem and (key := (lick.name, problem.related[1].span.start)) not in told:
            told.add(key)
            problems.append(problem)
    return laid, problems


def _bar_zero(first: Bar, meter: Meter) -> Bar:
    """The bar before the tune, in which only the pick-up sounds."""
    assert first.lick
    at = replace(first.lick.pickup[0], kind=Kind.REST, tab=None)
    marks = tuple(rests(Fraction(0), meter.bar, meter, at))
    slot = replace(first.slot, lick=None, bar_in_lick=0)
    return Bar(0, 0, first.start - meter.bar, first.chords[:1], slot, marks)


def _laid_over(bar: Bar, lick: Lick, meter: Meter) -> tuple[Bar, Problem | None]:
    start = meter.bar - lick.pickup_length
    in_the_way = [m for m in bar.marks if m.end > start and m.sounds]
    if in_the_way:
        pickup = lick.pickup[0].span.to(lick.pickup[-1].span)
        return bar, error(
            "pickup-no-room",
            bar.slot.span,
            Related(pickup, "this pick-up"),
            Related(in_the_way[-1].mark.span, "still sounding here"),
            lick=lick.name,
            bar=bar.number,
            before=bar.lick.name if bar.lick else "rest",
            length=length_words(lick.pickup_length),
        )
    kept = [m for m in bar.marks if m.end <= start]
    since = kept[-1].end if kept else Fraction(0)
    cut = bar.marks[len(kept)].mark if since < start else None
    filling = list(rests(since, start, meter, cut)) if cut else []
    pickup_marks = [PlayedMark(m, start + m.onset, pickup=True) for m in lick.pickup]
    return replace(bar, marks=(*kept, *filling, *pickup_marks)), None


def rests(start: Fraction, end: Fraction, meter: Meter, like: LickMark) -> Iterator[PlayedMark]:
    """Rests that fill a stretch of a bar, none crossing a beat unless it fills whole beats."""
    at = start
    while at < end:
        to_beat = meter.beat - at % meter.beat
        room = end - at if at % meter.beat == 0 else min(end - at, to_beat)
        value = next((v for v in _REST_VALUES if v.length <= room), None)
        if value is None:
            return  # shorter than any rest we write: the pick-up's own values leave no such gap
        yield PlayedMark(replace(like, kind=Kind.REST, value=value, tab=None, technique="",
                                 syllable="", onset=at), at)  # fmt: skip
        at += value.length
