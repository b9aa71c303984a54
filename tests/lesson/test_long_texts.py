"""Texts that no page can hold."""

from __future__ import annotations

import pytest

from tests.helpers import lesson_text, slugs_of

BODY = "lick a on I, IV, V\n  w 2d\n{}\nplay\n  bars 1-12 a"


def slugs(text: str) -> set[str]:
    return set(slugs_of(lesson_text(BODY.format(text)))) & {"text-too-long", "word-too-long"}


# Our own choice: two pages, and a word as wide as a page.
@pytest.mark.limit("lesson.long_texts.MOST_IN_A_WORD", "lesson.long_texts.MOST_LETTERS")
@pytest.mark.parametrize(
    ("tip", "told"),
    [
        ("a" * 200, set()),
        ("a" * 201, {"word-too-long"}),
        ("早" * 201, set()),
        ("a " * 1999 + "aa", set()),
        ("a " * 1999 + "aaa", {"text-too-long"}),
    ],
)
def test_limits(tip: str, told: set[str]) -> None:
    assert slugs(f"  tip {tip}") == told
