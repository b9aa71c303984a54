"""Parser and writer are each other's inverse, whatever the tree says."""

from __future__ import annotations

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from formsheet.language import tree as t
from formsheet.language.parse import parse
from formsheet.language.writer import lines_text, music, tree_text
from formsheet.language.written import WIDEST, mark_text, name_text, quoted, rest_of_line
from formsheet.problems.problem import has_errors
from formsheet.source import Source
from tests.helpers import told
from tests.language.making import marks, trees
from tests.language.samples import KETTLE_CREEK, LATE_TRAM_LESSON
from tests.language.trees import marks_of, tree_of
from tests.lessons import LESSONS, NAMES
from tests.likeness import placeless

some = settings(max_examples=150, derandomize=True, deadline=None, database=None,
                suppress_health_check=list(HealthCheck))  # fmt: skip


def parsed(text: str) -> t.FileTree:
    tree, problems = parse(Source("written.lesson", text))
    assert not has_errors(problems), f"{text}\n{told(tuple(problems))}"
    return tree


@some
@given(trees())
def test_tree_written_is_the_tree_read(tree: t.FileTree) -> None:
    assert placeless(parsed(tree_text(tree))) == placeless(tree)


@pytest.mark.parametrize("text", [
    *((LESSONS / f"{name}.lesson").read_text(encoding="utf-8") for name in NAMES),
    (LESSONS / "shelf" / "turnarounds.licks").read_text(encoding="utf-8"),
    KETTLE_CREEK,
    LATE_TRAM_LESSON.replace("[x]x2", "[ x ]x2"),
])  # fmt: skip
def test_tree_of_a_lesson(text: str) -> None:
    assert placeless(parsed(tree_text(tree_of(text)))) == placeless(tree_of(text))


@some
@given(st.lists(marks, max_size=120), st.integers(20, WIDEST))
def test_music_broken_into_lines(written: list[t.AnyMark], width: int) -> None:
    lines = music(written)
    assert [mark for line in lines for mark in line.marks] == written


def test_lines_of_music_end_at_a_bar_where_they_can() -> None:
    bars = " | ".join(["q 1d 2d 3d 4d"] * 9)
    text = lines_text(music(marks_of(bars)))
    assert all(line.endswith("|") for line in text.splitlines()[:-1])
    assert max(map(len, text.splitlines())) <= WIDEST
    assert len(text.splitlines()) == 2


# Our own choice: 100 characters, the indent counted.
@pytest.mark.limit("language.written.WIDEST")
@pytest.mark.parametrize(("first", "lines"), [("10d", 1), ("10d'", 2)])
def test_a_line_of_music_is_100_characters_wide(first: str, lines: int) -> None:
    """Three characters and nineteen times five, and the indent of two."""
    text = lines_text(music(marks_of(f"{first} {' '.join(['10d!'] * 19)}")))
    assert len(text.splitlines()) == lines


@pytest.mark.parametrize(
    ("text", "written"),
    [
        ("Tune of four", "Tune of four"),
        ("Tune #9", '"Tune #9"'),
        ("C# minor", "C# minor"),
        (" spaced ", '" spaced "'),
        ("", '""'),
        ('"Quoted"', '“"Quoted"”'),
        ('a "b" c', 'a "b" c'),
        ("two\nlines", "two lines"),
    ],
)
def test_text_to_the_end_of_a_line(text: str, written: str) -> None:
    assert rest_of_line(text) == written


def test_both_kinds_of_quotes_cannot_be_kept() -> None:
    assert quoted('a "b” c') == '"a \'b” c"'


@pytest.mark.parametrize("name", ["8-bar", "late tram", "a#b"])
def test_name_without_quotes(name: str) -> None:
    assert name_text(name) == name


@pytest.mark.parametrize("name", ["an ending", "a  b", "a #b", "", "“odd"])
def test_name_in_quotes_where_it_needs_them(name: str) -> None:
    assert name_text(name) == f'"{name}"'


def test_note_with_everything() -> None:
    (note,) = marks_of("10d''!{wah}\"ka\"")
    assert mark_text(note) == "10d''!{wah}\"ka\""
