"""The stages in order: text, tree, lesson, tune, checks. The commands call these functions."""

# Annotations are no texts here: as texts, those of named tuples are compiled at every start.
from collections.abc import Sequence
from pathlib import Path
from typing import NamedTuple

from formsheet.judge.breathing import breath_findings
from formsheet.judge.ending import NOTHING, end_findings
from formsheet.judge.feel import feel_findings
from formsheet.judge.findings import fit_findings
from formsheet.judge.fit import BarFit, judge_fit
from formsheet.judge.handling import handling_findings
from formsheet.judge.joins import pairs_of
from formsheet.judge.plain_triads import plain_triad_findings
from formsheet.judge.playable import judge_playable
from formsheet.judge.positions import position_finding
from formsheet.judge.use import use_findings
from formsheet.language.files import read_source
from formsheet.language.parse import parse
from formsheet.lesson.glyphs import glyph_findings
from formsheet.lesson.licks import Licks, known_notes
from formsheet.lesson.long_texts import long_texts
from formsheet.lesson.model import Lesson
from formsheet.lesson.other_harp import on_harp
from formsheet.lesson.read import read_lesson
from formsheet.lesson.shelf import Shelf
from formsheet.lesson.shelves import Shelves
from formsheet.music.harp import Harp
from formsheet.problems.problem import Problem, has_errors, most_shown
from formsheet.source import Source
from formsheet.suffixes import SHELF_SUFFIX
from formsheet.tune.assemble import assemble
from formsheet.tune.timeline import Tune


class Examined(NamedTuple):
    """The result of the stages for one file; a stage that could not be reached is None or empty.

    `problems` are sorted by place; `fits` has one entry a bar of the tune.
    """

    name: str  # of the file, as shown
    path: Path | None
    lesson: Lesson | None = None
    shelf: Shelf | None = None
    tune: Tune | None = None
    fits: tuple[BarFit, ...] = ()
    problems: tuple[Problem, ...] = ()

    @property
    def file_name(self) -> str:
        """The file name without its folder."""
        return Path(self.name).name

    @property
    def in_order(self) -> bool:
        """Whether a handout can be made: there are no errors (warnings and remarks may be)."""
        return not has_errors(self.problems)


def examine_file(path: Path, name: str, shelves: Shelves, harp: Harp | None = None) -> Examined:
    """Read and check a lesson or a shelf; `name` is the path as the teacher gave it.

    `harp` replaces the harp of the lesson, but not its tuning. A file that cannot be read gives
    a problem, not an exception.
    """
    source, problems = read_source(path, name)
    if source is None:
        return Examined(name, path, problems=tuple(problems))
    return examine_any(source, shelves, harp)


def examine_any(source: Source, shelves: Shelves, harp: Harp | None = None) -> Examined:
    """Read and check a lesson, or a shelf if the name ends in `.licks`."""
    if source.name.endswith(SHELF_SUFFIX):
        return _examine_shelf(source, shelves)
    return examine(source, shelves, harp)


def examine(source: Source, shelves: Shelves, harp: Harp | None = None) -> Examined:
    """Read and check a lesson; `harp`, if given, replaces its own."""
    tree, problems = parse(source)
    if tree.newer:
        return Examined(source.name, source.path, problems=tuple(problems))
    lesson, found = read_lesson(tree, shelves)
    if harp:
        lesson = on_harp(lesson, harp)
    problems += found + glyph_findings(tree) + long_texts(tree)
    fits: list[BarFit] = []
    if lesson.facts.known("tuning"):
        licks: Licks = {**lesson.unread, **lesson.licks}
        problems += judge_playable(known_notes(licks), lesson.facts.harp)
    tune, found = assemble(lesson)
    problems += found
    if tune and not has_errors(problems):
        fits, found = judged(tune)
        problems += found
    if problems:
        problems = _with_repairs(problems, lesson)
    return Examined(
        name=source.name,
        path=source.path,
        lesson=lesson,
        tune=tune if fits else None,
        fits=tuple(fits),
        problems=tuple(most_shown(problems)),
    )


def _with_repairs(problems: list[Problem], lesson: Lesson) -> list[Problem]:
    """The problems, with repairs added where the lesson itself offers one: licks, numerals."""
    from formsheet.judge.assign import with_offers  # most lessons have no problem
    from formsheet.lesson.form_names import with_forms
    from formsheet.lesson.letters import with_numerals

    problems = with_forms(with_numerals(problems, lesson))
    if not lesson.facts.known("tuning", "position", "meter"):
        return problems
    return with_offers(problems, lesson)


def judged(tune: Tune, whole: bool = True) -> tuple[list[BarFit], list[Problem]]:
    """The fit of each bar of a tune, and the findings of every check of the tune.

    `whole`: it is a whole tune, not a lick on trial: its position, end and breath are judged too.
    """
    fits = judge_fit(tune)
    problems = _fit_findings(tune, fits, whole)
    pairs = pairs_of(tune)
    problems += handling_findings(tune, pairs)
    if whole:
        problems += breath_findings(tune, pairs)
    problems += feel_findings(tune) + use_findings(tune)
    return fits, problems


def _fit_findings(tune: Tune, fits: Sequence[BarFit], whole: bool) -> list[Problem]:
    """The findings that depend on the key: if the position is wrong, that one alone."""
    wrong = position_finding(tune, fits) if whole else None
    if wrong:
        return [wrong]
    end = end_findings(tune, fits) if whole else NOTHING
    return [*end.problems, *fit_findings(tune, fits, end.notes), *plain_triad_findings(tune)]


def _examine_shelf(source: Source, shelves: Shelves) -> Examined:
    tree, problems = parse(source)
    if tree.newer:
        return Examined(source.name, source.path, problems=tuple(problems))
    circle = (source.path.resolve(),) if source.path else ()
    shelf = shelves.read_tree(tree, problems, circle)
    found = list(shelf.problems) + glyph_findings(tree) + long_texts(tree)
    if shelf.facts.known("tuning"):
        found += judge_playable(known_notes(shelf.licks), shelf.facts.harp)
    return Examined(
        name=source.name, path=source.path, shelf=shelf, problems=tuple(most_shown(found))
    )
