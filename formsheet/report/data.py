"""An examined lesson as plain data, for `--json`. Fractions are exact, as text: "3/2".

`schemas/` has the JSON schemas of this data.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from typing import Any

from formsheet.judge.fit import BarFit, NoteFit
from formsheet.lesson.model import Lesson
from formsheet.music.key import position_name
from formsheet.problems.drawing import as_data
from formsheet.problems.problem import Problem
from formsheet.stages import Examined
from formsheet.vocabulary.facts import feel_text

#: Name and version of the data of `tune_data`; the number changes with every incompatible change.
TUNE_SCHEMA = "formsheet tune 3"


def tune_data(examined: Examined) -> dict[str, Any]:
    """The assembled tune with its notes, and the problems; no bars where it has errors."""
    data: dict[str, Any] = {"schema": TUNE_SCHEMA, "file": examined.name}
    if examined.lesson and examined.tune:
        data |= _lesson_data(examined.lesson) | _footer_data(examined.lesson)
        data["bars"] = [
            _bar_head(fit) | {"notes": [_note(examined.lesson, note) for note in fit.notes]}
            for fit in examined.fits
        ]
    data["problems"] = [as_data(problem) for problem in examined.problems]
    return data


def check_data(examined: Examined) -> dict[str, Any]:
    """The report of `check`: a summary of each bar, and the problems."""
    data: dict[str, Any] = {"file": examined.name, "in_order": examined.in_order}
    if examined.lesson and examined.tune:
        data |= _lesson_data(examined.lesson)
        data["bars"] = [_bar_head(fit) | _bar_report(fit) for fit in examined.fits]
    data["problems"] = [as_data(problem) for problem in examined.problems]
    data["before_you_print"] = _first(examined.problems)
    return data


def _first(problems: Sequence[Problem]) -> list[int]:
    """The indices of the problems that matter most, in that order; none where there are errors."""
    from formsheet.problems.ranked import BEFORE, sections

    first = [each for heading, part in sections(problems) if heading == BEFORE for each in part]
    return [next(at for at, each in enumerate(problems) if each is one) for one in first]


def _lesson_data(lesson: Lesson) -> dict[str, Any]:
    facts = lesson.facts
    return {
        "title": facts.title,
        "harp": facts.harp.name,
        "tuning": facts.harp.tuning.name,
        "position": position_name(facts.position),
        "key": lesson.key.name,
        "form": lesson.form.full_name,
        "meter": facts.meter.text,
        "tempo": _number(facts.tempo),
        "learn": _number(facts.learn) if facts.learn else None,
        "feel": feel_text(facts.feel),
        "count_in": facts.count_in,
        "level": facts.level.value,
    }


def _footer_data(lesson: Lesson) -> dict[str, Any]:
    facts = lesson.facts
    return {
        "teacher": facts.teacher or None,
        "rights": facts.rights or None,
        "date": facts.date or None,
        "links": [{"title": link.title or None, "url": link.address} for link in facts.links],
    }


def _number(value: Fraction) -> int | float:
    return int(value) if value.denominator == 1 else float(value)


def _bar_head(fit: BarFit) -> dict[str, Any]:
    bar = fit.bar
    return {
        "number": bar.number,
        "chorus": bar.chorus,
        "chords": [str(chord) for _, chord in bar.chords],
        "lick": bar.lick.name if bar.lick else None,
        "time": bar.slot.round,
        "times": bar.slot.rounds,
    }


def _bar_report(fit: BarFit) -> dict[str, Any]:
    return {
        "fit": None if fit.score is None else str(fit.score),
        "first": _end_note(fit.notes[0]) if fit.notes else None,
        "last": _end_note(fit.notes[-1]) if fit.notes else None,
    }


def _end_note(fit: NoteFit) -> dict[str, Any]:
    return {
        "tab": str(fit.note.tab),
        "degree": " ".join(fit.degrees),
        "verdict": fit.verdict.word,
    }


def _note(lesson: Lesson, fit: NoteFit) -> dict[str, Any]:
    note = fit.note
    return {
        "tab": str(note.tab),
        "onset": str(note.onset),
        "duration": str(note.duration),
        "start_s": note.start_s,
        "end_s": note.end_s,
        "midi": list(note.midi),
        "pitch": [lesson.key.spell_octave(midi, fit.chord) for midi in note.midi],
        "degree": " ".join(fit.degrees),
        "verdict": fit.verdict.word,
        "heard": [heard.value for heard in fit.heard],
        "stays": fit.stays,
        "deliberate": note.mark.deliberate,
        "technique": note.mark.technique or None,
        "syllable": note.mark.syllable or None,
        "pickup": note.played.pickup,
        "pickup_once": note.played.once,
    }
