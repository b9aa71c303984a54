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
        texts = [word.text for word in words]
        problems.append(
            kinds.BarChords(span, count=len(words), apart=" | ".join(texts), pairs=_in_pairs(texts))
        )
    return tuple(chords), problems


def asked_bars(bars: Sequence[AskedBar]) -> tuple[tuple[model.AskedBar, ...], list[Problem]]:
    """The chords that a lick is written for, bar by bar."""
    problems: list[Problem] = []
    read = []
    for bar in bars:
        slots = []
        for alternatives in bar:
            each_read = [read_chord(word) for word in alternatives]
            problems += [problem for _, found in each_read for problem in found]
            slots.append(tuple(dict.fromkeys(chord for chord, _ in each_read if chord)))
        if len(bar) > MOST_CHORDS:
            span = bar[0][0].span.to(bar[-1][-1].span)
            apart = " | ".join(", ".join(word.text for word in each) for each in bar)
            pairs = _in_pairs([each[0].text for each in bar if len(each) == 1])
            commas = span.text.split(",")
            if len(commas) > 1:  # meant as bar lines
                fit = all(1 <= len(each.split()) <= MOST_CHORDS for each in commas)
                pairs = " | ".join(each.strip() for each in commas) if fit else None
            problems.append(kinds.BarChords(span, count=len(bar), apart=apart, pairs=pairs))
        read.append(tuple(slots))
    return tuple(read), problems


def _in_pairs(chords: Sequence[str]) -> str | None:
    """Chords in bars of two: "I IV | I V"; None where they do not come out."""
    if len(chords) % MOST_CHORDS:
        return None
    bars = (chords[at : at + MOST_CHORDS] for at in range(0, len(chords), MOST_CHORDS))
    return " | ".join(map(" ".join, bars))
