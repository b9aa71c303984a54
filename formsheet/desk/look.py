"""Read and check a lesson or a shelf, and make its sheet for the screen."""

from __future__ import annotations

import os
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from formsheet.desk.board import Known, Standing
from formsheet.desk.folder import Found
from formsheet.problems.problem import Severity
from formsheet.sheet.options import Options
from formsheet.source import shown_name

if TYPE_CHECKING:
    from formsheet.lesson.shelves import Shelves
    from formsheet.problems.problem import Problem


@dataclass(frozen=True)
class Look:
    """The result, and every path where a shelf was searched, found or not."""

    known: Known
    shelves: frozenset[str]  # real paths


def look(found: Found, before: Known, shelves: Shelves, options: Options) -> Look:
    """Read and check one file. If it has errors, the sheet of `before` is kept."""
    from formsheet.stages import examine_file

    each = examine_file(found.path, shown_name(found.path), shelves)
    known = replace(before, standing=_standing(each.problems), problems=each.problems)
    if each.lesson and each.lesson.facts.title:
        known = replace(known, title=each.lesson.facts.title)
    if each.in_order and each.tune:
        from formsheet.sheet.make_view import make_view
        from formsheet.sheet.preview import preview_html

        sheet = make_view(each.tune, each.fits, each.file_name, options, each.problems)
        known = known.with_sheet(preview_html(sheet, options))
    looked = shelves.looked_for(found.path)
    return Look(known, frozenset(map(_real, map(str, looked))))


def _real(path: str) -> str:
    """A path with links in its folders resolved; the file itself need not exist."""
    folder, name = os.path.split(path)
    return os.path.join(os.path.realpath(folder), name)


def _standing(problems: tuple[Problem, ...]) -> Standing:
    worst = max((problem.severity for problem in problems), default=Severity.REMARK)
    return {
        Severity.ERROR: Standing.ERRORS,
        Severity.WARNING: Standing.WARNINGS,
        Severity.REMARK: Standing.IN_ORDER,
    }[worst]
