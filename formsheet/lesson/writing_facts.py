"""Write the facts of a lesson as lines of the language; defaults are left out."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from typing import Any

from formsheet.language import tree as t
from formsheet.language.made import NOWHERE, word
from formsheet.lesson.model import Facts
from formsheet.lesson.tuning import LOWEST_C
from formsheet.music.form import Bars, Form, built_in_form
from formsheet.music.tunings import RICHTER, TUNINGS, Tuning
from formsheet.vocabulary.facts import FACTS, FORM, TUNING, Fact, Shape

#: Names of the notes of a row on a C harp.
_NOTES = ("C", "Db", "D", "Eb", "E", "F", "F#", "G", "Ab", "A", "Bb", "B")


def fact_lines(facts: Facts) -> list[t.Line]:
    """The lines of facts, in the usual order."""
    default = Facts()
    lines: list[t.Line] = []
    for fact in FACTS:
        if fact is TUNING:
            lines += _tuning(facts.harp.tuning)
        elif fact is FORM:
            lines += _form(facts.form) if facts.form else []
        elif fact.field:
            value = getattr(facts, fact.field)
            if fact.always or value != getattr(default, fact.field):
                lines += _lines(fact, value if fact.repeats else (value,))
    return lines


def _lines(fact: Fact[Any], values: Iterable[Any]) -> Iterator[t.Fact]:
    """A line of the fact for each value."""
    assert fact.write, "a fact with a field is written back"
    for value in values:
        text = fact.write(value)
        words = (text,) if fact.shape is Shape.TEXT else text.split()
        yield t.Fact(word(fact.word), tuple(map(word, words)))


# ---- Forms -----------------------------------------------------------------------------------


def _form(form: Form) -> list[t.Line]:
    known = built_in_form(form.name)
    line = t.FormLine(word("form"), word(form.name), chord_words(form.ending))
    if known and known.own_lines == form.own_lines:
        return [line]
    return [line, *(t.ChordLine(chord_words(row), NOWHERE) for row in form.own_lines)]


def chord_words(bars: Bars) -> t.ChordBars:
    """Bars of chords as the language writes them."""
    return tuple(tuple(word(str(chord)) for chord in bar) for bar in bars)


# ---- Tunings ---------------------------------------------------------------------------------


def _tuning(tuning: Tuning) -> list[t.Line]:
    if tuning == RICHTER:
        return []
    line = t.TuningLine(word("tuning"), word(tuning.name))
    if TUNINGS.get(tuning.name) == tuning:
        return [line]
    rows = {"blow": _row(tuning.blow, 0), "draw": _row(tuning.draw, tuning.blow[0])}
    return [line, *(t.ReedLine(word(row), tuple(map(word, notes))) for row, notes in rows.items())]


def _row(reeds: Sequence[int], floor: int) -> list[str]:
    """A row on a C harp; a note that is not the nearest one at or above `floor` has its octave."""
    names = []
    for reed in reeds:
        octave, pitch_class = divmod(LOWEST_C + reed, 12)
        near = 0 <= reed - floor < 12
        names.append(_NOTES[pitch_class] + ("" if near else str(octave - 1)))
        floor = reed
    return names
