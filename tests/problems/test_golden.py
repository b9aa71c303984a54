"""Every kind of problem: its golden lesson, its golden output, and nothing beside it.

`python -m tests.problems.rewrite` writes the outputs anew; look at every one that it names.
"""

from __future__ import annotations

import pytest

from formsheet.problems.registry import KINDS
from formsheet.suffixes import LESSON_SUFFIX, SHELF_SUFFIX
from tests.problems.golden import (
    ERRORS,
    WITHOUT_FILE,
    golden_file,
    lesson_file,
    printed,
    problems_of,
)

each_kind = pytest.mark.parametrize("slug", KINDS)


@each_kind
def test_has_its_golden_files(slug: str) -> None:
    assert golden_file(slug).is_file()
    assert (ERRORS / lesson_file(slug)).is_file() or slug in WITHOUT_FILE


@each_kind
def test_is_told_once_and_alone(slug: str) -> None:
    assert [problem.code for problem in problems_of(slug)] == [slug]


@each_kind
def test_is_printed_word_for_word(slug: str) -> None:
    assert printed(problems_of(slug)) == golden_file(slug).read_text(encoding="utf-8")


def test_no_golden_file_of_an_unknown_kind() -> None:
    paths = [*ERRORS.glob("*.txt"), *ERRORS.glob(f"*{LESSON_SUFFIX}"), *ERRORS.glob("*/")]
    assert {path.stem for path in paths} == set(KINDS)


def test_folders_hold_lessons_and_shelves_only() -> None:
    inside = list(ERRORS.glob("*/*"))
    assert inside
    assert {path.suffix for path in inside} == {LESSON_SUFFIX, SHELF_SUFFIX}


def test_kinds_without_a_file_have_none() -> None:
    assert not [slug for slug in WITHOUT_FILE if (ERRORS / lesson_file(slug)).exists()]
