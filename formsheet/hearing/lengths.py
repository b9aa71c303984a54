"""Where notes end: at the next attack, unless there is a clear gap."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from typing import NamedTuple

from formsheet.hearing.beat_grid import Grid
from formsheet.music.swing import Feel

F = Fraction
_CLEAR_GAP = 0.18  # beats
_CLEAR_GAP_S = 0.09  # seconds
_LET_GO = 0.08  # of a note's length: it is let go so much before it ends on paper
_UNSURE = 0.07  # beats: nearer than this to the border a length is a doubt


class Ending(NamedTuple):
    """Where a note ends, in beats as written."""

    place: Fraction
    unsure: bool


def endings(
    starts: Sequence[Fraction], ends: Sequence[float], grid: Grid, feel: Feel, compound: bool
) -> list[Ending]:
    """The end of each note; `ends` in seconds, `starts` as written."""
    found = []
    for at, (start, end) in enumerate(zip(starts, ends, strict=True)):
        following = starts[at + 1] if at + 1 < len(starts) else None
        sounds = grid.place(end)
        sounds += _LET_GO * max(0.0, sounds - _sounding(start, feel, compound))
        places = _places(start, following, int(sounds) + 2, compound)
        nearest = min(places, key=lambda place: abs(_sounding(place, feel, compound) - sounds))
        if following is None:
            found.append(Ending(nearest, _border(sounds, nearest, places, feel, compound)))
            continue
        gap = _sounding(following, feel, compound) - grid.place(end)
        clear = min(gap - _CLEAR_GAP, gap - _CLEAR_GAP_S / grid.beat)
        if clear < 0 or nearest >= following:
            found.append(Ending(following, clear > -_UNSURE))
        else:
            unsure = clear < _UNSURE or _border(sounds, nearest, places, feel, compound)
            found.append(Ending(nearest, unsure))
    return found


def _places(
    start: Fraction, following: Fraction | None, last: int, compound: bool
) -> list[Fraction]:
    """The places where a note may end: halves of beats, thirds where the beat has three."""
    step = F(1, 3) if compound else F(1, 2)
    most = following if following is not None else Fraction(max(last, int(start) + 2))
    places = [most]
    at = (start // step + 1) * step
    if not compound and (start % 1) in (F(1, 3), F(2, 3)):
        places.append(start + F(1, 3))
    if not compound and (start % 1) in (F(1, 4), F(3, 4)):
        places.append(start + F(1, 4))
    while at < most:
        places.append(at)
        at += step
    return [place for place in places if place > start]


def _sounding(place: Fraction, feel: Feel, compound: bool) -> float:
    if place % 1 == F(1, 2) and not compound:
        return float(place // 1 + feel.share)
    return float(place)


def _border(
    sounds: float, nearest: Fraction, places: Sequence[Fraction], feel: Feel, compound: bool
) -> bool:
    off = abs(_sounding(nearest, feel, compound) - sounds)
    others = [abs(_sounding(each, feel, compound) - sounds) for each in places if each != nearest]
    return bool(others) and min(others) - off < 2 * _UNSURE
