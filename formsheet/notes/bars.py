"""The bars of a source as bars of one meter: chosen, filled, joined, never drifting.

A lesson has one meter, and each of its bars is full. A source may have a pick-up, a bar in two
halves (at a repeat sign), a bar that is short, and bars in other meters. Which bars are wanted is
decided first, so that nothing outside them is ever refused.
"""

from __future__ import annotations

from bisect import bisect_right
from collections import Counter
from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction
from typing import TypeVar

from formsheet.lesson.lengths import mixed
from formsheet.notes.melody import (
    MOST_BARS,
    NotesError,
    Reading,
    Said,
    WrittenBar,
    can_be_written,
    scale_of,
)

T = TypeVar("T")

#: A performed note this much before a bar line, in quarters, belongs to the bar after it.
_EARLY = Fraction(1, 12)


def meter_length(text: str) -> Fraction:
    """The length of a bar of a meter such as "3/4", in quarters."""
    above, below = text.split("/")
    return Fraction(int(above) * 4, int(below))


def in_bars(reading: Reading, wanted: tuple[int, int] | None = None) -> Reading:
    """The wanted bars of a reading, as the source counts them, laid out in one meter.

    NotesError where they have several meters, one that cannot be written, or a bar that is too
    long.
    """
    if not reading.bars:
        return reading
    bars = _parts_of_bars(_chosen(reading.bars, wanted))
    meter = _meter(bars)
    if len(bars) > MOST_BARS:
        raise NotesError(
            f"the file has {len(bars)} bars; {MOST_BARS} at most are read: take a part, such as "
            f"--bars {_number(bars[0])}-{_number(bars[0]) + 99}"
        )
    starts, said = _starts(bars, meter, bars[0].start == reading.bars[0].start)
    return _moved(reading, bars, starts, meter, said)


def _number(bar: WrittenBar) -> int:
    digits = "".join(each for each in bar.number if each.isdigit())
    return int(digits[:6]) if digits else 0


def _chosen(bars: Sequence[WrittenBar], wanted: tuple[int, int] | None) -> Sequence[WrittenBar]:
    if wanted is None:
        return bars
    first, last = wanted
    inside = [at for at, bar in enumerate(bars) if first <= _number(bar) <= last]
    if not inside:
        raise NotesError(
            f"the file has no bars {first}-{last}; it has {_number(bars[0])} to {_number(bars[-1])}"
        )
    begin = inside[0]
    if begin == 1 and _number(bars[0]) == 0 and first == 1:
        begin = 0  # the pick-up belongs to bar 1
    return bars[begin : inside[-1] + 1]


def _parts_of_bars(bars: Sequence[WrittenBar]) -> list[WrittenBar]:
    """The bars; parts of a bar that have a shorter meter of their own are given that of the others.

    That is a pick-up, a last bar, and two parts that make one bar.
    """
    counts = Counter(bar.meter for bar in bars)
    main = max(counts, key=lambda meter: counts[meter])
    full = meter_length(main)
    found = list(bars)
    last = len(bars) - 1
    for at, bar in enumerate(bars):
        if bar.meter == main or bar.length >= full:
            continue
        before = at and found[at - 1].length + bar.length == full
        after = at < last and bar.length + bars[at + 1].length == full
        if at in (0, last) or before or after:
            found[at] = bar._replace(meter=main)
    return found


def _meter(bars: Sequence[WrittenBar]) -> str:
    meter = bars[0].meter
    for at, bar in enumerate(bars):
        if bar.meter != meter:
            before = _number(bars[max(0, at - 1)])
            raise NotesError(
                f"the meter changes in bar {bar.number}, from {meter} to {bar.meter}, and a lesson "
                f"has one: take a part, such as --bars {_number(bars[0])}-{before}"
            )
    if not can_be_written(meter):
        raise NotesError(
            f"bar {bars[0].number} is in {meter}, and a lesson cannot be in {meter}: take bars in "
            "4/4, 3/4, 2/4, 6/8, 9/8 or 12/8 with --bars"
        )
    return meter


def _starts(
    bars: Sequence[WrittenBar], meter: str, from_the_first: bool
) -> tuple[list[Fraction], list[Said]]:
    """Where each bar begins, in quarters from the first bar line."""
    full = meter_length(meter)
    starts: list[Fraction] = []
    short: list[str] = []
    line = Fraction(0)  # the next bar line
    at = 0
    if (
        from_the_first
        and len(bars) > 1
        and 0 < bars[0].length < full
        and not _halves(bars, 0, full)
    ):
        starts.append(-bars[0].length)
        at = 1
    while at < len(bars):
        bar = bars[at]
        if bar.length > full:
            raise NotesError(
                f"bar {bar.number} has {mixed(bar.length)} quarters; {meter} has {mixed(full)}: "
                "mend the score, or take other bars with --bars"
            )
        starts.append(line)
        if _halves(bars, at, full):
            starts.append(line + bar.length)
            at += 1
        elif bar.length < full and at < len(bars) - 1:
            short.append(bar.number)
        line += full
        at += 1
    return starts, [Said("short-bars", {"numbers": short})] if short else []


def _halves(bars: Sequence[WrittenBar], at: int, full: Fraction) -> bool:
    """Whether a bar and the next are one bar, written in two parts, as round a repeat."""
    if at + 1 >= len(bars) or not 0 < bars[at].length < full:
        return False
    return bars[at].length + bars[at + 1].length == full


def _moved(
    reading: Reading, bars: Sequence[WrittenBar], starts: Sequence[Fraction], meter: str,
    said: Sequence[Said],
) -> Reading:  # fmt: skip
    old = [bar.start for bar in bars]
    scale = scale_of(meter)
    over = bars[-1].start + bars[-1].length

    def place(at: Fraction, ends: bool = False) -> Fraction:
        """Where a place of the source is now; an end belongs to the bar that it ends."""
        index = bisect_right(old, at) - 1
        if ends and index >= 0 and old[index] == at:
            index -= 1
        index = max(index, 0)
        return (starts[index] + at - old[index]) * scale

    def now(at: Fraction) -> Fraction:
        return place(max(at, bars[0].start))

    slack = _EARLY if reading.played else Fraction(0)
    tones = tuple(
        replace(tone, start=place(tone.start), end=place(min(tone.end, over), ends=True))
        for tone in reading.tones
        if bars[0].start <= tone.start + slack < over
    )
    if not tones:
        raise NotesError(
            f"bars {bars[0].number}-{bars[-1].number} have no notes: take others with --bars"
        )
    return replace(
        reading,
        tones=tones,
        meter=meter,
        tempo=reading.tempo * scale if reading.tempo else None,
        bars=(),
        chords=_in_force([(now(at), each) for at, each in reading.chords if at < over]),
        feels=_in_force([(now(at), each) for at, each in reading.feels if at < over]),
        sections=tuple(
            each._replace(start=place(each.start))
            for each in reading.sections
            if bars[0].start <= each.start < over
        ),
        said=(*reading.said, *said),
    )


def _in_force(placed: Sequence[tuple[Fraction, T]]) -> tuple[tuple[Fraction, T], ...]:
    """Of several at one place the last."""
    return tuple(dict(placed).items())


def doubled(reading: Reading) -> Reading:
    """The reading in doubled values: a thirty-second becomes a sixteenth, a bar two bars."""
    return replace(
        reading,
        tones=tuple(replace(t, start=2 * t.start, end=2 * t.end) for t in reading.tones),
        tempo=reading.tempo * 2 if reading.tempo else None,
        chords=tuple((2 * at, each) for at, each in reading.chords),
        feels=(),
        sections=tuple(each._replace(start=2 * each.start) for each in reading.sections),
        said=(
            *reading.said,
            Said("doubled"),
            *([Said("feel-lost")] if any(feel.swings for _, feel in reading.feels) else []),
        ),
    )
