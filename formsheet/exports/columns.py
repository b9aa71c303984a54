"""A bar as columns: each count with what is played on it.

Every beat has a column, and so has every onset. Both rows have the same number of signs, so that
they can be matched even in a face that is not fixed-pitch.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction

from formsheet.cells import cells, filled
from formsheet.lesson.model import Kind
from formsheet.music.counting import words_at
from formsheet.music.rhythm import Meter
from formsheet.tune.timeline import PlayedMark

HOLD, REST = "=", "-"
BETWEEN = "."  # at a place that players have no counting word for
_GAP = "  "


@dataclass(frozen=True, slots=True)
class Column:
    """A count and what is played on it."""

    beat: int  # from 0
    count: str  # "1", "&", "trip"
    tab: str  # "3d'", a hold or a rest

    @property
    def width(self) -> int:
        """Width in cells of a fixed-pitch face."""
        return max(cells(self.count), cells(self.tab))


def columns(marks: Sequence[PlayedMark], meter: Meter, first_beat: int = 0) -> list[Column]:
    """The columns of a bar, starting with beat `first_beat` (from 0)."""
    starts = {played.onset: _sign(played) for played in marks}
    found = []
    for beat in range(first_beat, meter.beats):
        places = {onset / meter.beat - beat for onset in starts} | {Fraction(0)}
        inside = sorted(place for place in places if 0 <= place < 1)
        for place, count in zip(inside, _counts(beat, inside, meter), strict=True):
            onset = (beat + place) * meter.beat
            found.append(Column(beat, count, starts.get(onset) or _going_on(marks, onset)))
    return found


def _counts(beat: int, places: Sequence[Fraction], meter: Meter) -> list[str]:
    """The counting words for the places of one beat; `BETWEEN` where there is no word."""
    words = words_at(places, meter)
    return [words.get(place, BETWEEN) or str(beat + 1) for place in places]


def _sign(played: PlayedMark) -> str:
    """A mark as written in the row of tab."""
    mark = played.mark
    if mark.kind is Kind.REST:
        return REST
    if mark.tab is None:
        return HOLD
    technique = f"({mark.technique})" if mark.technique else ""
    syllable = f'"{mark.syllable}"' if mark.syllable else ""
    return f"{mark.tab}{technique}{syllable}"


def _going_on(marks: Sequence[PlayedMark], onset: Fraction) -> str:
    """The sign at a beat on which nothing begins: a hold or a rest."""
    return HOLD if any(m.onset < onset < m.end and m.sounds for m in marks) else REST


def rows(found: Sequence[Column], width: int) -> Iterator[str]:
    """Pairs of lines, count above tab, wrapped to a width in cells; beats are not split."""
    for line in _lines(found, width):
        yield _GAP.join(filled(column.count, column.width) for column in line).rstrip()
        yield _GAP.join(filled(column.tab, column.width) for column in line).rstrip()


def _lines(found: Sequence[Column], width: int) -> list[list[Column]]:
    lines: list[list[Column]] = [[]]
    for beat in _beats(found):
        if lines[-1] and _width([*lines[-1], *beat]) > width:
            lines.append([])
        lines[-1] += beat
    return lines


def _beats(found: Sequence[Column]) -> list[list[Column]]:
    return [
        [column for column in found if column.beat == beat]
        for beat in sorted({column.beat for column in found})
    ]


def _width(line: Sequence[Column]) -> int:
    return sum(column.width for column in line) + len(_GAP) * (len(line) - 1)
