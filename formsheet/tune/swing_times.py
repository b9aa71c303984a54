"""Every place in the tune in seconds, swing included.

Only eighths swing: the half-beat moves if its beat is divided in two and no further. Triplets and
sixteenths are played as written, and nothing swings in a meter with a dotted beat. Common
practice, no source.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from formsheet.lesson.model import Facts
from formsheet.music.swing import STRAIGHT, SWING, Feel
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
    """The places in a bar where the feel changes from that of the mark before, and the new feel."""
    found = []
    last = before[-1].mark.swings if before else None
    for played in marks:
        old, new = (feel_in_force(swings, facts) for swings in (last, played.mark.swings))
        if old != new:
            found.append((played.onset, new))
        last = played.mark.swings
    return found


class SwingTimes:
    """Converts places in quarters to seconds."""

    def __init__(self, bars: Sequence[Bar], facts: Facts) -> None:
        self._beat = facts.meter.beat
        self._tempo = facts.tempo
        self._feels: dict[int, Feel] = {}  # beat number -> feel, where eighths swing
        feels = {played.mark.swings for bar in bars for played in bar.marks}
        if not any(feel_in_force(swings, facts).swings for swings in feels | {None}):
            return
        at_half: dict[int, bool | None] = {}  # beat -> what is in force where its half begins
        further: set[int] = set()  # beats that are divided elsewhere too
        for bar in bars:
            bar_beat, _, _ = self._in_beats(bar.start)  # bars begin on beats
            for played in bar.marks:
                beat, rest, whole = self._in_beats(played.onset)
                if 2 * rest == whole:
                    at_half[bar_beat + beat] = played.mark.swings
                elif rest:
                    further.add(bar_beat + beat)
        for beat, swings in at_half.items():
            feel = feel_in_force(swings, facts)
            if feel.swings and beat not in further:
                self._feels[beat] = feel

    def _in_beats(self, place: Fraction) -> tuple[int, int, int]:
        """A place in quarters as whole beats, numerator and denominator of the rest of a beat."""
        # Integers, not fractions, which are slow: this runs for every note.
        whole = place.denominator * self._beat.numerator
        beat, rest = divmod(place.numerator * self._beat.denominator, whole)
        return beat, rest, whole

    def seconds(self, place: Fraction) -> float:
        """Seconds from the first bar line to a place in quarters from it."""
        beat, rest, whole = self._in_beats(place)
        if 2 * rest == whole and (feel := self._feels.get(beat)):
            return float((beat + feel.share) * 60 / self._tempo)
        beats = beat * whole + rest
        return beats * 60 * self._tempo.denominator / (whole * self._tempo.numerator)

    def swung_beats(self) -> dict[int, Feel]:
        """The beats whose eighths swing, by number from the first bar line."""
        return dict(self._feels)
