"""Pitch bends of a MIDI channel: bent notes sound where the bend puts them.

A bend of at least half a half step through most of a note gives the note another pitch: on a
harmonica that is a bent note. A bend that only leads to a note, or falls off it, has no pitch in
tab and is said to be left out.
"""

from __future__ import annotations

from bisect import bisect_right
from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from fractions import Fraction

from formsheet.notes.melody import Said, Tone

_BEND, _CONTROL = 0xE, 0xB
_CENTRE = 8192
_RANGE = 2  # half steps at full bend, by General MIDI
_RPN_HIGH, _RPN_LOW, _DATA_ENTRY = 101, 100, 6
_WIDEST_RANGE = 24


@dataclass
class Bends:
    """The bends of one channel, in cents from their place on."""

    places: list[Fraction] = field(default_factory=list)
    cents: list[int] = field(default_factory=list)
    _range: int = _RANGE
    _rpn: list[int] = field(default_factory=lambda: [127, 127])

    def take(self, at: Fraction, kind: int, data: bytes) -> None:
        """Take an event of the channel, if it has to do with bends."""
        if kind == _BEND:
            value = (data[0] & 0x7F) | (data[1] & 0x7F) << 7
            self.places.append(at)
            self.cents.append(round((value - _CENTRE) * self._range * 100 / _CENTRE))
        elif kind == _CONTROL and data[0] in (_RPN_HIGH, _RPN_LOW):
            self._rpn[data[0] == _RPN_LOW] = data[1]
        elif kind == _CONTROL and data[0] == _DATA_ENTRY and self._rpn == [0, 0]:
            self._range = min(data[1], _WIDEST_RANGE) or _RANGE

    def bent(self, tones: Sequence[Tone]) -> tuple[tuple[Tone, ...], list[Said]]:
        """The notes where they sound; with remarks on bends that are kept and that are lost."""
        if not any(self.cents):
            return tuple(tones), []
        order = sorted(range(len(self.places)), key=lambda at: self.places[at])
        places = [self.places[at] for at in order]
        cents = [self.cents[at] for at in order]
        found, kept, lost = [], 0, 0
        for tone in tones:
            steps, moves = _through(tone, places, cents)
            kept += steps != 0
            lost += moves
            found.append(replace(tone, midi=tuple(midi + steps for midi in tone.midi)))
        said = [Said("bends", {"count": kept})] if kept else []
        return tuple(found), said + ([Said("bends-lost", {"count": lost})] if lost else [])


def _through(tone: Tone, places: Sequence[Fraction], cents: Sequence[int]) -> tuple[int, bool]:
    """The half steps by which a note is bent for most of its time; whether it moves besides."""
    time: dict[int, Fraction] = defaultdict(Fraction)
    at = tone.start
    index = bisect_right(places, at) - 1
    while at < tone.end:
        until = min(tone.end, places[index + 1]) if index + 1 < len(places) else tone.end
        time[round((cents[index] if index >= 0 else 0) / 100)] += until - at
        at, index = until, index + 1
    most = max(time, key=lambda steps: (time[steps], -abs(steps)))
    return most, len([steps for steps, long in time.items() if long]) > 1
