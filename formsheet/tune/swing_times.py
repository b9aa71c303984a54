"""Seconds of every place in the tune, swing included.

Only eighths swing: the half-beat is moved in a beat that is divided in two and no further;
triplets and sixteenths are played as written, and nothing swings where the beat is dotted.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from functools import lru_cache

from formsheet.lesson.model import Facts
from formsheet.music.swing import HALF_BEAT, STRAIGHT, SWING, Feel
from formsheet.tune.timeline import Bar, PlayedMark


def feel_in_force(swings: bool | None, facts: Facts) -> Feel:
    """The feel of a mark: its own swing or straight mark, else the lesson's."""
    if facts.meter.compound or swings is False:
        return STRAIGHT
    if swings is None or facts.feel.swings:
        return facts.feel
    return SWING


def feel_changes(
    marks: Sequence[PlayedMark], before: Sequence[PlayedMark], facts: Facts
) -> list[tuple[Fraction, Feel]]:
    """Where in a bar the feel changes, as against the mark before, and to what."""
    found = []
    last = before[-1].mark.swings if before else None
    for played in marks:
        old, new = (feel_in_force(swings, facts) for swings in (last, played.mark.swings))
        if old != new:
            found.append((played.onset, new))
        last = played.mark.swings
    return found


@lru_cache(4096)  # few places in a bar, many bars
def _beats_of(
    onset: Fraction, end: Fraction, beat: Fraction
) -> tuple[int, int, tuple[int, ...], tuple[Fraction, Fraction]]:
    """First and last beat of a mark, beats whose half it covers, where in its beats it stands."""
    (first, start_in_beat), (last, end_in_beat) = divmod(onset / beat, 1), divmod(end / beat, 1)
    halves = tuple(
        number for number in range(first, last + 1) if onset <= (number + HALF_BEAT) * beat < end
    )
    return first, last, halves, (start_in_beat, end_in_beat)


class SwingTimes:
    """Places in quarters to seconds."""

    def __init__(self, bars: Sequence[Bar], facts: Facts) -> None:
        self._beat = facts.meter.beat
        self._tempo = facts.tempo
        self._feels: dict[int, Feel] = {}  # beat number -> feel, where eighths swing
        feels = {played.mark.swings for bar in bars for played in bar.marks}
        if not any(feel_in_force(swings, facts).swings for swings in feels | {None}):
            return
        edges: dict[int, set[Fraction]] = {}
        at_half: dict[int, bool | None] = {}
        for bar in bars:
            bar_beat = int(bar.start / self._beat)  # bars begin on beats
            ends = [*(played.onset for played in bar.marks[1:]), facts.meter.bar]
            for played, end in zip(bar.marks, ends, strict=True):
                first, last, halves, stands = _beats_of(played.onset, end, self._beat)
                edges.setdefault(bar_beat + first, set()).add(stands[0])
                edges.setdefault(bar_beat + last, set()).add(stands[1])
                for beat in halves:
                    at_half[bar_beat + beat] = played.mark.swings
        for beat, places in edges.items():
            feel = feel_in_force(at_half.get(beat), facts)
            divided_in_two = HALF_BEAT in places and places <= {Fraction(0), HALF_BEAT}
            if feel.swings and divided_in_two:
                self._feels[beat] = feel

    def seconds(self, place: Fraction) -> float:
        """Seconds from the first bar line to a place in quarters from it."""
        # In whole numbers over one denominator: fractions are slow, and every note comes here.
        beats = place.numerator * self._beat.denominator
        whole = place.denominator * self._beat.numerator
        beat, rest = divmod(beats, whole)
        if 2 * rest == whole and (feel := self._feels.get(beat)):
            return float((beat + feel.share) * 60 / self._tempo)
        return beats * 60 * self._tempo.denominator / (whole * self._tempo.numerator)

    def swung_beats(self) -> dict[int, Feel]:
        """The beats whose eighths swing, by number from the first bar line."""
        return dict(self._feels)
