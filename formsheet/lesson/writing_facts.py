"""The facts of a lesson as lines of the language, those that go without saying left out."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal
from fractions import Fraction

from formsheet.language import tree as t
from formsheet.language.made import NOWHERE, word
from formsheet.lesson.facts import position_name
from formsheet.lesson.model import Facts, Level
from formsheet.lesson.tuning import LOWEST_C
from formsheet.music.form import Bars, Form, built_in_form
from formsheet.music.swing import Feel
from formsheet.music.tunings import RICHTER, TUNINGS, Tuning

#: The notes of a row as players of a C harp name them.
_NOTES = ("C", "Db", "D", "Eb", "E", "F", "F#", "G", "Ab", "A", "Bb", "B")


def fact_lines(facts: Facts) -> list[t.Line]:
    """Facts in the order in which a teacher writes them."""
    lines: list[t.Line] = [
        *_texts("title", facts.title),
        *_texts("teacher", facts.teacher),
        *_texts("rights", facts.rights),
        *_texts("date", facts.date),
        *(_fact("say", text) for text in facts.says),
        _words("harp", facts.harp.name),
        *_tuning(facts.harp.tuning),
        _words("position", position_name(facts.position)),
        *(_form(facts.form) if facts.form else ()),
        _words("meter", facts.meter.text),
        _words("tempo", tempo_text(facts.tempo)),
    ]
    if facts.learn is not None:
        lines.append(_words("learn", tempo_text(facts.learn)))
    lines.append(_words("feel", feel_text(facts.feel)))
    if facts.count_in != 1:
        lines.append(_words("count-in", str(facts.count_in)))
    if facts.level is not Level.IMPROVER:
        lines.append(_words("level", facts.level.value))
    return lines


def feel_text(feel: Feel) -> str:
    """The feel as the lesson writes it: "straight", "swing", "swing 3:2"."""
    if not feel.swings:
        return "straight"
    ratio = feel.ratio
    return "swing" if ratio == 2 else f"swing {ratio.numerator}:{ratio.denominator}"


def tempo_text(tempo: Fraction) -> str:
    """Beats a minute as the lesson writes them: a whole number or a decimal fraction."""
    return f"{Decimal(tempo.numerator) / tempo.denominator:f}"


def _fact(keyword: str, text: str) -> t.Fact:
    return t.Fact(word(keyword), (word(text),))


def _texts(keyword: str, text: str) -> list[t.Fact]:
    return [_fact(keyword, text)] if text else []


def _words(keyword: str, words: str) -> t.Fact:
    return t.Fact(word(keyword), tuple(map(word, words.split())))


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
    """A row on a C harp; an octave after each note that is not the nearest at or above `floor`."""
    names = []
    for reed in reeds:
        octave, pitch_class = divmod(LOWEST_C + reed, 12)
        near = 0 <= reed - floor < 12
        names.append(_NOTES[pitch_class] + ("" if near else str(octave - 1)))
        floor = reed
    return names
