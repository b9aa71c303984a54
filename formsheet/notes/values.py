"""Write a melody in note values of the language: holds over beats and bars, whole triplets."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction

from formsheet.lesson.lengths import value_of
from formsheet.lesson.model import Kind
from formsheet.music.rhythm import Meter, Value
from formsheet.notes.melody import Melody

Zone = tuple[Fraction, Fraction]  # start and end of a part of a bar with triplet values

_EIGHTH = Fraction(1, 2)
#: Places in a triplet over two quarters.
_PAIR = frozenset({Fraction(0), Fraction(2, 3), Fraction(4, 3), Fraction(2)})
#: Values that are easy to read, longest first; without double dots and dotted sixteenths.
_PLAIN = (Value("w", 1), Value("w"), Value("h", 1), Value("h"), Value("q", 1), Value("q"),
          Value("e", 1), Value("e"), Value("s"))  # fmt: skip
_TRIPLETS = [Value(letter, triplet=True) for letter in "hqes"]


@dataclass(frozen=True, slots=True)
class Piece:
    """A mark to write."""

    kind: Kind
    onset: Fraction  # from the bar line, in quarters; of the pick-up: from its first mark
    value: Value
    tone: int = -1  # index in the melody; -1: a rest


@dataclass(frozen=True, slots=True)
class _Stretch:
    """A note or a rest inside one bar, in quarters from the bar line."""

    start: Fraction
    end: Fraction
    tone: int  # index in the melody; -1: a rest
    held: bool  # continues from the bar before


def pieces(melody: Melody) -> tuple[list[Piece], list[list[Piece]]]:
    """The pick-up and the bars of a melody."""
    bar = melody.meter.bar
    starts = melody.tones[0].start < 0
    bars = [_bar_pieces(melody, number * bar) for number in range(-1 if starts else 0, melody.bars)]
    if not starts:
        return [], bars
    begin = bar + melody.tones[0].start
    pickup = [
        Piece(piece.kind, piece.onset - begin, piece.value, piece.tone)
        for piece in bars[0]
        if piece.onset >= begin
    ]
    return pickup, bars[1:]


def rest_pieces(meter: Meter) -> list[Piece]:
    """A bar of rest in values."""
    found, at = [], Fraction(0)
    for value in _values(Fraction(0), meter.bar, [], meter, rest=True):
        found.append(Piece(Kind.REST, at, value))
        at += value.length
    return found


def _bar_pieces(melody: Melody, begin: Fraction) -> list[Piece]:
    stretches = list(_stretches(melody, begin))
    zones = _zones(stretches, melody.meter)
    found = []
    for stretch in stretches:
        at, held = stretch.start, stretch.held
        rest = stretch.tone < 0
        for value in _values(stretch.start, stretch.end, zones, melody.meter, rest):
            kind = Kind.REST if rest else Kind.HOLD if held else Kind.NOTE
            found.append(Piece(kind, at, value, stretch.tone))
            at += value.length
            held = True
    return found


def _stretches(melody: Melody, begin: Fraction) -> Iterator[_Stretch]:
    """The notes and rests that fill the bar starting at `begin`, in order."""
    end = begin + melody.meter.bar
    at = begin
    for index, tone in enumerate(melody.tones):
        if tone.end <= begin or tone.start >= end:
            continue
        if tone.start > at:
            yield _Stretch(at - begin, tone.start - begin, -1, False)
        start, at = max(tone.start, begin), min(tone.end, end)
        yield _Stretch(start - begin, at - begin, index, tone.start < begin)
    if at < end:
        yield _Stretch(at - begin, end - begin, -1, False)


def _zones(stretches: Sequence[_Stretch], meter: Meter) -> list[Zone]:
    """The parts of a bar in triplets: one quarter, or two if three notes fill both."""
    if meter.compound:
        return []
    places = {stretch.start for stretch in stretches} | {meter.bar}
    thirds = sorted({place // 1 for place in places if place.denominator % 3 == 0})
    zones: list[Zone] = []
    for quarter in thirds:
        if zones and quarter < zones[-1][1]:
            continue
        inside = {place - quarter for place in places if quarter <= place <= quarter + 2}
        pair = quarter % 2 == 0 and inside >= _PAIR - {Fraction(0)} and inside <= _PAIR
        zones.append((Fraction(quarter), Fraction(quarter + (2 if pair else 1))))
    return zones


def _values(
    start: Fraction, end: Fraction, zones: Sequence[Zone], meter: Meter, rest: bool
) -> Iterator[Value]:
    """Values that fill a stretch: a single one if that is readable, else split at beats."""
    at = start
    while at < end:
        zone = next((zone for zone in zones if zone[0] <= at < zone[1]), None)
        if zone:
            stop = min(end, zone[1])
            value = _in_triplet(at, stop, zone)
        else:
            stop = min([end, *(zone[0] for zone in zones if zone[0] > at)])
            value = _plain(at, stop, meter, rest)
        yield value
        at += value.length


def _in_triplet(at: Fraction, stop: Fraction, zone: Zone) -> Value:
    if (at, stop) == zone and (whole := value_of(stop - at)):
        return whole
    return next(value for value in _TRIPLETS if value.length <= stop - at)


def _plain(at: Fraction, stop: Fraction, meter: Meter, rest: bool) -> Value:
    """The longest value that may begin at `at`.

    A note that does not begin on an eighth, and a rest that does not begin on a beat, must end by
    the next beat. Rests have dots only if the beat has.
    """
    plain = [value for value in _PLAIN if meter.compound or not (rest and value.dots)]
    beat_end = at - at % meter.beat + meter.beat
    if at % (meter.beat if rest else _EIGHTH):
        stop = min(stop, beat_end)
    length = stop - at
    for value in plain:
        if value.length == length:
            return value
    if at % meter.beat and beat_end < stop:
        return _plain(at, beat_end, meter, rest)
    return next(value for value in plain if value.length <= length)
