"""Chord numerals of a file to chords."""

from __future__ import annotations

from collections.abc import Sequence

from formsheet.language.tree import AskedBar, ChordBars, Word, bars_span
from formsheet.lesson import model
from formsheet.music.chord import Chord, parse_chord
from formsheet.music.form import MOST_CHORDS, Bars, Form
from formsheet.problems import kinds
from formsheet.problems.problem import Problem


def read_chord(word: Word) -> tuple[Chord | None, list[Problem]]:
    """A chord, or the problem that its quality is unknown."""
    try:
        return parse_chord(word.text), []
    except ValueError:
        return None, [kinds.ChordUnknown(word.span, found=word.text)]


def read_ending(bars: ChordBars, form: Form | None) -> tuple[Bars | None, list[Problem]]:
    """The bars that replace the last ones of a form; None with a problem.

    If the form could not be read (None), any number of bars is accepted.
    """
    read = [read_bar(bar) for bar in bars]
    problems = [problem for _, found in read for problem in found]
    if form and len(bars) > (have := len(form.bars)):
        problems.append(
            kinds.EndingTooLong(bars_span(bars), length=len(bars), form=form.name, form_bars=have)
        )
    return None if problems else tuple(chords for chords, _ in read), problems


def read_bar(words: Sequence[Word]) -> tuple[tuple[Chord, ...], list[Problem]]:
    """The one or two chords of a bar of a form."""
    problems: list[Problem] = []
    chords = []
    for word in words:
        chord, found = read_chord(word)
        problems += found
        if chord:
            chords.append(chord)
    if len(words) > MOST_CHORDS:
        span = words[0].span.to(words[-1].span)
        apart = " | ".join(word.text for word in words)
        problems.append(kinds.BarChords(span, count=len(words), apart=apart))
    return tuple(chords), problems


def asked_bars(bars: Sequence[AskedBar]) -> tuple[tuple[model.AskedBar, ...], list[Problem]]:
    """The chords that a lick is written for, bar by bar."""
    problems: list[Problem] = []
    read = []
    for bar in bars:
        slots = []
        for alternatives in bar:
            pairs = [read_chord(word) for word in alternatives]
            problems += [problem for _, found in pairs for problem in found]
            slots.append(tuple(dict.fromkeys(chord for chord, _ in pairs if chord)))
        if len(bar) > MOST_CHORDS:
            span = bar[0][0].span.to(bar[-1][-1].span)
            apart = " | ".join(", ".join(word.text for word in each) for each in bar)
            problems.append(kinds.BarChords(span, count=len(bar), apart=apart))
        read.append(tuple(slots))
    return tuple(read), problems
