"""What a kind of problem means, with its samples and what is reported of the bad one."""

from __future__ import annotations

import errno
import os
from collections.abc import Iterable
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any, NamedTuple

from formsheet.lesson.shelves import Shelves
from formsheet.problems import kinds
from formsheet.problems.problem import Problem, Sample, Severity
from formsheet.problems.registry import meaning
from formsheet.problems.samples import bad_and_good, files_of
from formsheet.source import Source, Span
from formsheet.stages import examine_file


class Explained(NamedTuple):
    """A kind of problem for the teacher."""

    code: str
    severity: Severity
    meaning: str
    bad: Sample
    good: Sample
    problem: Problem  # what is reported of the bad sample


def explained(kind: type[Problem]) -> Explained:
    """A kind of problem, its bad sample run through the stages."""
    bad, good = bad_and_good(kind)
    problem = next(each for each in problems_of_sample(bad) if type(each) is kind)
    return Explained(problem.code, problem.severity, meaning(kind), bad, good, problem)


def severity_of(kind: type[Problem]) -> Severity:
    """How grave a kind is; of one that is graver at times, as grave as its bad sample."""
    own: Any = kind.severity
    return own if isinstance(own, Severity) else explained(kind).severity


def problems_of_sample(sample: Sample) -> tuple[Problem, ...]:
    """What the stages report of a sample, its files in a folder of their own."""
    if sample.locked:  # an administrator may read any file, so none can be made that is locked
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
    """The problem with the names of its files alone, without the folder."""
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
