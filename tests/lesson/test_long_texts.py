"""Texts that no page can hold."""

from __future__ import annotations

import pytest

from formsheet.lesson.long_texts import MOST_IN_A_WORD, MOST_LETTERS
from tests.helpers import lesson_text, slugs_of

BODY = "lick a on I, IV, V\n  w 2d\n{}\nplay\n  bars 1-12 a"


def slugs(text: str) -> set[str]:
    return set(slugs_of(lesson_text(BODY.format(text)))) & {"text-too-long", "word-too-long"}


@pytest.mark.parametrize(
    ("tip", "told"),
    [
        ("a" * MOST_IN_A_WORD, set()),
        ("a" * (MOST_IN_A_WORD + 1), {"word-too-long"}),
        ("早" * (MOST_IN_A_WORD + 1), set()),
        ("a " * (MOST_LETTERS // 2), set()),
        ("a " * (MOST_LETTERS // 2) + "end", {"text-too-long"}),
    ],
)
def test_limits(tip: str, told: set[str]) -> None:
    assert slugs(f"  tip {tip}") == told
