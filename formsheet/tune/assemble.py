"""Lesson to tune: choruses laid out, chords checked, pick-ups laid over, notes timed."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from formsheet.lesson.lengths import value_of
from formsheet.lesson.model import Kind, Lesson, LickMark
from formsheet.music.form import FormBar, chord_places
from formsheet.music.rhythm import Meter
from formsheet.problems import kinds
from formsheet.problems.problem import Problem
from formsheet.tune.pickups import with_pickups
from formsheet.tune.place import place_play
from formsheet.tune.shifted import with_shifts
from formsheet.tune.swing_times import SwingTimes
from formsheet.tune.timeline import Bar, Chorus, Note, PlayedMark, Slot, Tune, goes_on, numbered
from formsheet.tune.wrong_chords import wrong_chords

MOST_BARS = 800  # of the whole tune: far beyond any lesson
_LONGEST_TURNAROUND = 2  # bars that an ending replaces as a rule. Common practice, no source


def assemble(lesson: Lesson) -> tuple[Tune | None, list[Problem]]:
    """The tune of a lesson, or None where a bar could not be filled; and the problems."""
    if not lesson.form.bars:
        return None, []
    total = sum(play.times for play in lesson.plays) * len(lesson.form.bars)
    if total > MOST_BARS:
        span = lesson.plays[-1].span
        return None, [kinds.TuneTooLong(span, length=total, most=MOST_BARS)]
    choruses, bars, problems = _choruses(lesson)
    problems += wrong_chords(_sure(bars, lesson), choruses, lesson.plays)
    problems = with_shifts(problems, lesson)
    if problems or not bars or any(play.unread for play in lesson.plays):
        return None, problems
    laid, found = with_pickups(bars, lesson.facts.meter)
    problems += found + _loose_holds(laid)
    if problems:
        return None, problems
    shift = len(laid) - len(bars)  # a bar 0 comes first
    choruses = [
        Chorus(c.number, c.title, c.pass_number, c.passes, tuple(i + shift for i in c.bars))
        for c in choruses
    ]
    return tune_of(lesson, laid, choruses), []


def tune_of(lesson: Lesson, bars: Sequence[Bar], choruses: Sequence[Chorus] = ()) -> Tune:
    """The tune of consecutive bars: marks numbered, notes timed."""
    bars = numbered(bars)
    return Tune(lesson, tuple(choruses), bars, tuple(_timed_notes(bars, lesson)))


def _choruses(lesson: Lesson) -> tuple[list[Chorus], list[Bar], list[Problem]]:
    choruses: list[Chorus] = []
    bars: list[Bar] = []
    problems: list[Problem] = []
    for play in lesson.plays:
        placed, found = place_play(play, lesson.form, lesson.licks)
        problems += found
        for pass_number, slots in enumerate(placed, start=1):
            number = len(choruses) + 1
            form = play.form(lesson.form, pass_number == play.times)
            added = bars_over(form.bars, slots, lesson.facts.meter, number, len(bars))
            indices = tuple(range(len(bars), len(bars) + len(added)))
            choruses.append(Chorus(number, play.title, pass_number, play.times, indices))
            bars += added
    return choruses, bars, problems


def bars_over(
    chords: Sequence[FormBar],
    slots: Sequence[Slot | None],
    meter: Meter,
    chorus: int = 1,
    before: int = 0,
) -> list[Bar]:
    """The bars of a chorus over these chords, `before` bars after the first bar line."""
    return [
        Bar(
            number=index + 1,
            chorus=chorus,
            start=(before + index) * meter.bar,
            chords=chord_places(bar, meter.bar),
            slot=slot,
            marks=_marks(slot, meter),
        )
        for index, (bar, slot) in enumerate(zip(chords, slots, strict=True))
        if slot
    ]


def _marks(slot: Slot, meter: Meter) -> tuple[PlayedMark, ...]:
    if slot.lick is None:
        value = value_of(meter.bar)
        assert value is not None
        return (PlayedMark(LickMark(Kind.REST, Fraction(0), value, slot.span), Fraction(0)),)
    return tuple(
        PlayedMark(mark, mark.onset, place=place)
        for place, mark in enumerate(slot.lick.bars[slot.bar_in_lick])
    )


def _sure(bars: list[Bar], lesson: Lesson) -> list[Bar]:
    """The bars whose chord is known: without the ending, if a line that sets it is unreadable."""
    if not any(play.unread.line for play in lesson.plays):
        return bars
    return [bar for bar in bars if bar.number <= len(lesson.form.bars) - _LONGEST_TURNAROUND]


def _begins_anew(before: Bar, bar: Bar) -> bool:
    """Whether the note before a bar is not the one that its lick would hold."""
    if bar.slot.bar_in_lick:
        return not goes_on(before, bar)
    return bar.lick is not None and bar.lick.pickup_once and before.number > 0


def _loose_holds(bars: Sequence[Bar]) -> list[Problem]:
    """Holds whose note is not played: a last time replaces it, or its pick-up is played once."""
    problems: list[Problem] = []
    sounding = False
    for before, bar in zip([None, *bars], bars, strict=False):
        if before and _begins_anew(before, bar):
            sounding = False
        for played in bar.marks:
            if played.mark.kind is Kind.HOLD and not sounding:
                problems.append(kinds.HoldNothing(played.mark.span))
            sounding = played.sounds
    return problems


def _timed_notes(bars: Sequence[Bar], lesson: Lesson) -> list[Note]:
    """The notes of consecutive bars, holds joined, with seconds and pitches."""
    times = SwingTimes(bars, lesson.facts)
    harp = lesson.facts.harp
    struck: list[tuple[int, PlayedMark, Fraction]] = []  # bar index, mark, length with its holds
    for index, bar in enumerate(bars):
        for played in bar.marks:
            length = played.mark.value.length
            if played.mark.kind is Kind.NOTE:
                struck.append((index, played, length))
            elif played.mark.kind is Kind.HOLD and struck:
                struck[-1] = (*struck[-1][:2], struck[-1][2] + length)
    notes = []
    for index, played, length in struck:
        tab = played.mark.tab
        assert tab is not None
        start = bars[index].start + played.onset
        end = start + length
        notes.append(
            Note(
                bar=index,
                tab=tab,
                onset=played.onset,
                duration=length,
                start=start,
                end=end,
                start_s=times.seconds(start),
                end_s=times.seconds(end),
                midi=harp.pitches(tab),
                played=played,
            )
        )
    return notes
