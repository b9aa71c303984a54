"""The meaning of a kind of problem, with its samples and the problem reported for the bad one.

Also the limits of each level of student, as a table.
"""

from __future__ import annotations

import errno
import os
import re
from collections.abc import Iterable, Iterator
from pathlib import Path
from tempfile import TemporaryDirectory
from textwrap import wrap
from typing import Any, NamedTuple

from formsheet.judge.level import ALIKE, ASKED, LIMITS, Asked
from formsheet.lesson.shelves import Shelves
from formsheet.problems import kinds
from formsheet.problems.drawing import as_data, drawn, shown_text
from formsheet.problems.problem import Problem, Sample, Severity
from formsheet.problems.registry import KINDS, meaning
from formsheet.problems.samples import bad_and_good, files_of
from formsheet.source import Source, Span
from formsheet.stages import examine_file
from formsheet.vocabulary.facts import Level

_WIDEST = 100  # most characters of a line of prose
_LONGEST_SAMPLE = 14  # most lines shown


class Explained(NamedTuple):
    """A kind of problem, explained for the teacher."""

    code: str
    severity: Severity
    meaning: str
    bad: Sample
    good: Sample
    problem: Problem  # reported for the bad sample


def explained(kind: type[Problem]) -> Explained:
    """A kind of problem with the problem reported for its bad sample."""
    bad, good = bad_and_good(kind)
    problem = next(each for each in problems_of_sample(bad) if type(each) is kind)
    return Explained(problem.code, problem.severity, meaning(kind), bad, good, problem)


def severity_of(kind: type[Problem]) -> Severity:
    """The severity of a kind; if it varies, that of its bad sample."""
    own: Any = kind.severity
    return own if isinstance(own, Severity) else explained(kind).severity


def problems_of_sample(sample: Sample) -> tuple[Problem, ...]:
    """The problems that the stages report for a sample, its files in a temporary folder."""
    if sample.locked:  # an administrator can read any file, so a locked one cannot be made
        nowhere = Span(Source(sample.name, ""), 0, 0)
        reason = os.strerror(errno.EACCES)
        return (kinds.FileUnreadable(nowhere, file=sample.name, reason=reason),)
    with TemporaryDirectory() as name:
        folder = Path(name).resolve()
        for file, data in files_of(sample).items():
            (folder / file).write_bytes(data)
        examined = examine_file(folder / sample.name, sample.name, Shelves(folder))
        return tuple(_named_short(problem) for problem in examined.problems)


def _named_short(problem: Problem) -> Problem:
    """The problem with file names without their folder."""
    sources = {span.source for span in _spans(problem)}
    short = {each: Source(Path(each.name).name, each.text) for each in sources}
    related = tuple(
        each._replace(span=each.span._replace(source=short[each.span.source]))
        for each in problem.related
    )
    span = problem.span._replace(source=short[problem.span.source])
    return problem.replaced(span=span, related=related)


def _spans(problem: Problem) -> Iterable[Span]:
    return (problem.span, *(each.span for each in problem.related))


# ---- In words --------------------------------------------------------------------------------


def explained_text(each: Explained, columns: int) -> list[str]:
    """The explanation of a kind as lines for a terminal of `columns` columns."""
    lines = [f"{each.code}: {each.severity.word}", ""]
    lines += wrap(" ".join(each.meaning.split()), min(columns, _WIDEST))
    lines += ["", "Reported:", *_sample_lines(each.bad, columns)]
    lines += ["", "In a whole lesson, as check prints it:", *drawn(each.problem).split("\n")]
    return [*lines, "", "Not reported:", *_sample_lines(each.good, columns)]


def _sample_lines(sample: Sample, columns: int) -> Iterator[str]:
    """The files of a sample, with their names if there are several."""
    texts = [(sample.name, sample.text), *sample.beside]
    for name, text in texts:
        if text is None:
            yield f"  (no file {name})"
            continue
        if len(texts) > 1:
            yield f"  {name}:"
        indent = "    " if len(texts) > 1 else "  "
        words = text.decode("utf-8", "replace") if isinstance(text, bytes) else text
        lines = words.rstrip("\n").split("\n")
        for line in lines[:_LONGEST_SAMPLE]:
            yield indent + _cut(shown_text(line), columns - len(indent))
        if len(lines) > _LONGEST_SAMPLE:
            yield f"{indent}… ({len(lines) - _LONGEST_SAMPLE} more lines)"


def _cut(line: str, columns: int) -> str:
    return line if len(line) <= columns else f"{line[: max(1, columns - 1)]}…"


def code_list(columns: int) -> list[str]:
    """All kinds, most severe first, each with the first sentence of its meaning."""
    grades = {code: severity_of(kind) for code, kind in KINDS.items()}
    widest = max(map(len, KINDS)) + 2
    lines: list[str] = []
    for severity in reversed(Severity):
        lines += [*([""] if lines else []), f"{severity.word}s"]
        for code in sorted(code for code in KINDS if grades[code] is severity):
            first = _first_sentence(meaning(KINDS[code]))
            words = wrap(first, max(20, min(columns, _WIDEST) - widest - 2))
            lines += [f"  {head:<{widest}}{each}" for head, each in _beside(code, words)]
    return [*lines, "", "formsheet explain CODE shows an example of one."]


def _first_sentence(text: str) -> str:
    return re.split(r"(?<=\.)\s", text, maxsplit=1)[0]


def _beside(head: str, words: list[str]) -> Iterator[tuple[str, str]]:
    """Pairs of head and line: the head is beside the first line of its words."""
    return ((head if not n else "", each) for n, each in enumerate(words))


def levels_text(columns: int) -> list[str]:
    """The limits of each level, one row a limit, with its reason below."""
    rows = [
        (_heading(asked), asked.tab or [_value(getattr(LIMITS[each], field)) for each in Level])
        for field, asked in ASKED.items()
    ]
    rows += [
        (_heading(asked), (asked.tab or [_value(value)]) * len(Level)) for value, asked in ALIKE
    ]
    reasons = [asked.reason for asked in (*ASKED.values(), *(asked for _, asked in ALIKE))]
    widest = max(len(head) for head, _ in rows) + 2
    names = "".join(f"{level.value:>10}" for level in Level)
    lines = [f"{'':{widest}}{names}"]
    for (head, values), reason in zip(rows, reasons, strict=True):
        lines.append(f"{head:{widest}}" + "".join(f"{value:>10}" for value in values))
        lines += [f"  {line}" for line in wrap(reason, min(columns, _WIDEST) - 2)]
    closing = (
        "What goes beyond is reported as a warning or a remark. A lesson says "
        f"`level {Level.BEGINNER.value}`; without it, it is for an {Level.IMPROVER.value}. "
        "The numbers are our own choice."
    )
    return [*lines, "", *wrap(closing, min(columns, _WIDEST))]


def _heading(asked: Asked) -> str:
    unit = "harp and tab" if asked.tab else asked.unit
    return f"{asked.what}, {unit}" if unit else asked.what


def _value(value: float | bool) -> str:
    if isinstance(value, bool):
        return "yes" if value else "no"
    return f"{value:g}"


# ---- As data ---------------------------------------------------------------------------------


def explained_data(each: Explained) -> dict[str, Any]:
    """The explanation of a kind as data."""
    return {
        "code": each.code,
        "severity": each.severity.word,
        "meaning": " ".join(each.meaning.split()),
        "bad": _sample_data(each.bad),
        "good": _sample_data(each.good),
        "problem": as_data(each.problem),
    }


def _sample_data(sample: Sample) -> list[dict[str, str]]:
    """The complete files of a sample."""
    files = files_of(sample).items()
    return [{"file": name, "text": data.decode("utf-8", "replace")} for name, data in files]


def levels_data() -> list[dict[str, Any]]:
    """The limits as data."""
    by_level = [
        {level.value: getattr(LIMITS[level], field) for level in Level} for field in ASKED
    ] + [{level.value: value for level in Level} for value, _ in ALIKE]
    asked = [*ASKED.values(), *(each for _, each in ALIKE)]
    return [
        {"what": each.what, "unit": each.unit, "reason": each.reason, "levels": levels}
        for each, levels in zip(asked, by_level, strict=True)
    ]
