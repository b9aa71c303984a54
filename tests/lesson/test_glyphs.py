"""Characters that the sheet's typeface lacks."""

from __future__ import annotations

import pytest

from tests.helpers import lesson_text, problems_of


# Our own choice: enough to find them by.
@pytest.mark.limit("lesson.glyphs._MOST")
@pytest.mark.parametrize(
    ("signs", "named", "more"),
    [
        ("早安你好吗我们去", "早安你好吗我们去", ""),
        ("早安你好吗我们去吃", "早安你好吗我们去", " and 1 more sign"),
    ],
)
def test_eight_signs_are_named(signs: str, named: str, more: str) -> None:
    text = lesson_text("play\n  bars 1-12 rest", title=signs)
    (problem,) = [each for each in problems_of(text) if each.code == "glyph-missing"]
    assert sorted(problem.fields["signs"].split()) == sorted(named)
    assert problem.fields["more"] == more
