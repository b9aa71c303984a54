"""Characters that a word processor hides in a text: read as what they look like."""

from __future__ import annotations

import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from formsheet.language.meaning import meaning
from formsheet.language.parse import parse
from formsheet.language.tidy import tidied
from formsheet.source import Source, read_text
from formsheet.vocabulary.quotes import DOUBLE
from tests.language.making import trees
from tests.language.samples import KETTLE_CREEK, LATE_TRAM_LESSON
from tests.lessons import LESSONS, NAMES

_FILES = (
    KETTLE_CREEK,
    LATE_TRAM_LESSON,
    *((LESSONS / f"{name}.lesson").read_text(encoding="utf-8") for name in NAMES),
)
_NOTHING = "\u00ad\u200b\u2060\u2063\u180e\ufeff"
_PAIRS = ("“”", "„“", "„”", "«»", "»«", "””", '“"', '"”', '„"', "❝❞", "«»")
some = settings(max_examples=150, derandomize=True, deadline=None, database=None)


def tidy(text: str) -> str:
    found, problems = tidied(Source("test.lesson", text))
    assert found is not None, problems
    return found


@st.composite
def sprinkled(draw: st.DrawFn) -> tuple[str, str]:
    """A lesson, and the same with characters in it that cannot be seen."""
    plain = draw(st.sampled_from(_FILES))
    hidden = list(plain)
    for _ in range(draw(st.integers(1, 40))):
        hidden.insert(draw(st.integers(0, len(hidden))), draw(st.sampled_from(_NOTHING)))
    return plain, "".join(hidden)


@some
@given(sprinkled())
def test_what_cannot_be_seen_says_nothing(texts: tuple[str, str]) -> None:
    plain, written = texts
    source = Source("test.lesson", written)
    assert source.text == plain
    assert tidy(written) == tidy(plain)


@some
@given(sprinkled())
def test_places_are_those_of_the_file_as_it_is_written(texts: tuple[str, str]) -> None:
    plain, written = texts
    source = Source("test.lesson", written)
    lines = written.split("\n")
    for offset, char in enumerate(plain):
        line, column = source.line_column(offset)
        assert f"{lines[line - 1]}\n"[column - 1] == char
    assert source.line_column(len(plain)) == (len(lines), len(lines[-1]) + 1)


def test_a_mistake_behind_hidden_characters_is_marked_where_it_is() -> None:
    source = Source("test.lesson", "lick a on I\n\u200b  q 4\u00add \u20604x\u200b 5d\n")
    (problem,) = parse(source)[1]
    assert problem.span.text == "4x"
    assert problem.span.place == ("test.lesson", 2, 11)
    assert source.written.split("\n")[1][10:12] == "4x"


@some
@given(st.sampled_from(_FILES), st.lists(st.sampled_from(_PAIRS), min_size=200, max_size=200))
def test_quotes_of_any_language_say_the_same(text: str, pairs: list[str]) -> None:
    found = iter(pairs)

    def other(match: re.Match[str]) -> str:
        pair = next(found)
        return f"{pair[0]}{match[1]}{pair[1]}"

    quoted = "".join(
        line if "#" in line else re.sub(r'"([^"\s][^"\n]*)"', other, line, count=1)
        for line in text.splitlines(keepends=True)
    )
    tree, problems = parse(Source("test.lesson", quoted))
    assert not problems
    assert meaning(tree) == meaning(parse(Source("test.lesson", text))[0])
    if not re.search(rf"[{DOUBLE}]", text.replace('"', "")):
        assert tidy(quoted) == tidy(text)


@some
@given(trees())
def test_what_is_written_is_plain(tree: object) -> None:
    from formsheet.language.tree import FileTree
    from formsheet.language.writer import tree_text

    assert isinstance(tree, FileTree)
    text = tree_text(tree)
    assert read_text(text) == (text, ())


@pytest.mark.parametrize(
    ("written", "read"),
    [
        ("12\u2011bar", "12-bar"),
        ("a\u2010b\u2012c\ufe63d\uff0de", "a-b-c-d-e"),
        ("a\u00a0b\u202fc\u2007d", "a b c d"),
        ("a–b — c − d", "a–b — c − d"),
        # Joiners shape letters: they stay between letters, and beside others than plain ones.
        ("می\u200cروم", "می\u200cروم"),
        ("\u0647\u200d.", "\u0647\u200d."),
        ("👩\u200d🎤", "👩\u200d🎤"),
        ("x\u200dy", "x\u200dy"),
        ("4\u200dd 4d\u200c -", "4d 4d -"),
        ("3d’\u200d 4d\u200d", "3d’ 4d"),
        ("\u200d", ""),
    ],
)
def test_read_text(written: str, read: str) -> None:
    assert read_text(written)[0] == read


def test_tidy_writes_plain_signs() -> None:
    written = (
        "title «\u00a0Late\u2011tram\u00a0»\nharp\u00a0C\nform 12\u2011bar standard\n"
        "lick a „A\u00adb“ on I\n  q 4d”ka” \u2010 \u200b2d’ –\n"
    )
    assert tidy(written) == (
        "title     Late-tram\nharp      C\nform      12-bar standard\n\n"
        'lick a "Ab" on I\n  q 4d"ka" - 2d\' -\n'
    )
