"""How choruses end: whether a turnaround leads back, and whether the tune comes home.

A turnaround that ends on V leaves the ear on V: the last note over V, in the last bar of a chorus,
is its root, 3, 5 or b7, or another tone of the chord as written. Not looked at: a note of the next
lick's pick-up, and one pushed ahead into the next chorus.

A tune comes home if its last chord is I and the last note a tone of it other than the 7, or the
blue third. A tune of one chorus that ends on V is meant to go round again, unless its play has a
last time.

Forms of less than a line are exercises, and end as they like. That a chorus ends in one way or the
other is common practice, no source; what of it is reported is our own choice.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from fractions import Fraction
from typing import NamedTuple

from formsheet.judge.findings import Reported
from formsheet.judge.fit import BarFit, Heard, NoteFit
from formsheet.judge.verdicts import Verdict
from formsheet.lesson.model import Kind
from formsheet.music.chord import Chord
from formsheet.problems.problem import Problem
from formsheet.tune.timeline import Bar, Chorus, Tune

#: Bars: a shorter form has no end to speak of. A line of a blues.
SHORTEST_FORM = 4
_BLUE_THIRD, _FLAT_SEVEN, _SEVEN = 3, 10, 11  # in semitones above a root
_HOME, _FIFTH = 0, 7  # roots of I and V, in semitones above the key note


class Ends(NamedTuple):
    """What is to be said of the ends of the choruses of a tune."""

    off_five: tuple[tuple[Chorus, Reported], ...] = ()  # last notes over V that are not of V
    bar: Bar | None = None  # the last bar, if it ends on another chord than I and should not
    note: Reported | None = None  # the last note, if it is over I and does not come home


class Said(NamedTuple):
    """The findings about the ends of choruses, and the notes of which they have said enough."""

    problems: Sequence[Problem]
    notes: frozenset[tuple[int | None, int]]  # number of its mark, index of the stretch


NO_ENDS = Ends()
NOTHING = Said((), frozenset())


def end_findings(tune: Tune, fits: Sequence[BarFit]) -> Said:
    """What is worth saying of the ends of the choruses; remarks all."""
    found = ends(tune, fits)
    if found == NO_ENDS:
        return NOTHING
    from formsheet.judge.ending_words import said  # most tunes end well

    return said(tune, fits, found)


def ends(tune: Tune, fits: Sequence[BarFit]) -> Ends:
    """The ends of the choruses that are not as they should be."""
    if not (tune.choruses and tune.notes) or len(tune.choruses[0].bars) < SHORTEST_FORM:
        return NO_ENDS
    off = tuple(
        (chorus, note)
        for chorus in tune.choruses
        if (note := _off_five(tune, fits, chorus.bars[-1]))
    )
    last = tune.bars[tune.choruses[-1].bars[-1]]
    if last.chords[-1][1].root == _HOME:
        return Ends(off, note=_not_home(tune, fits))
    return Ends(off, bar=last if _has_an_end(tune) else None)


def five_tones(chord: Chord) -> frozenset[int]:
    """What may end a turnaround over a chord on V, in semitones above its root."""
    return chord.tones | {_FLAT_SEVEN}


def home_tones(chord: Chord) -> frozenset[int]:
    """What may end a tune over a chord on I, but for the blue third; in semitones above its root.

    The 7 hangs even where the chord has it.
    """
    return chord.tones - {_FLAT_SEVEN, _SEVEN}


def comes_home(tones: Iterable[int], chord: Chord) -> bool:
    """Whether a note or a chord comes home over a chord on I; tones in semitones above its root."""
    return not (home_tones(chord) | {_BLUE_THIRD}).isdisjoint(tones)


def above_root(tune: Tune, midi: Iterable[int], chord: Chord) -> list[int]:
    """Tones in semitones above the root of a chord, 0 to 11."""
    return [tune.lesson.key.above_root(each, chord) for each in midi]


def _has_an_end(tune: Tune) -> bool:
    """Whether a tune is more than one chorus to go round."""
    play = tune.lesson.plays[-1]
    last_time = bool(play.last_ending) or any(line.last_time for line in play.bars)
    return last_time or len(tune.choruses) > 1


def _off_five(tune: Tune, fits: Sequence[BarFit], index: int) -> Reported | None:
    """The last note over V at the end of a bar, if it is not of V; None if it is reported else."""
    bar = tune.bars[index]
    chord = bar.chords[-1][1]
    if chord.root != _FIFTH:
        return None
    found = _last_over(tune, fits, index, chord)
    if found is None or found.fit.note.mark.deliberate or found.heard is Heard.CLASHES:
        return None
    tones = set(above_root(tune, found.fit.note.midi, chord))
    of_five = tones & five_tones(chord)
    rest_is_blue = found.fit.verdicts[found.at] <= Verdict.IDIOMATIC
    return None if of_five and (of_five == tones or rest_is_blue) else found


def _last_over(tune: Tune, fits: Sequence[BarFit], index: int, chord: Chord) -> Reported | None:
    """The last note that sounds over the last chord of a bar and belongs to it."""
    bar = tune.bars[index]
    begins = bar.start + (0 if bar.chords[0][1] == chord else bar.chords[-1][0])
    for fit in (*reversed(fits[index].notes), *_held_into(tune, fits, index)):
        if fit.note.played.pickup:
            continue
        for at, stretch in enumerate(fit.stretches):
            end = tune.bars[stretch.bar].start + stretch.onset + stretch.length
            if stretch.chord == chord and end > begins:
                return Reported(fit, at)
    return None


def _held_into(tune: Tune, fits: Sequence[BarFit], index: int) -> Iterator[NoteFit]:
    """The note that is held over the bar line into a bar, if there is one."""
    marks = tune.bars[index].marks
    if marks and marks[0].mark.kind is Kind.HOLD:
        struck = (fits[at].notes for at in range(index - 1, -1, -1) if fits[at].notes)
        yield from next(struck, ())[-1:]


def _not_home(tune: Tune, fits: Sequence[BarFit]) -> Reported | None:
    """The last note of a tune that ends on I, if it does not come home; None if it clashes."""
    fit = fits[tune.notes[-1].bar].notes[-1]
    found = Reported(fit, len(fit.stretches) - 1)
    chord = found.stretch.chord
    if not _home_from(tune.bars[found.stretch.bar :], found.stretch.onset):
        return None
    if fit.note.mark.deliberate or found.heard is Heard.CLASHES:
        return None
    return None if comes_home(above_root(tune, fit.note.midi, chord), chord) else found


def _home_from(bars: Sequence[Bar], onset: Fraction) -> bool:
    """Whether all chords are on I, from a place in the first of these bars."""
    chords = [bars[0].chord_at(onset), *(chord for at, chord in bars[0].chords if at > onset)]
    return all(
        chord.root == _HOME for chord in (*chords, *(c for bar in bars[1:] for _, c in bar.chords))
    )
