"""The known name nearest to a misspelt one."""

from __future__ import annotations

import pytest

from formsheet.problems.nearest import nearest


@pytest.mark.parametrize(
    ("word", "known", "near"),
    [
        ("creak", ["porch", "creek"], "creek"),
        ("PORCH", ["porch", "creek"], "porch"),
        ("tempo:", ["tempo", "title"], "tempo"),
        ("12-bar", ["16-bar", "12-bar standard", "12-bar minor"], "12-bar standard"),
        ("8-bar", ["8-bar late change", "8-bar"], "8-bar"),
        ("turn", ["tuning", "turnaround"], "turnaround"),
        ("po", ["porch"], None),
        ("zither", ["porch", "creek"], None),
        ("", ["porch"], None),
        ("porch", [], None),
    ],
)
def test_nearest(word: str, known: list[str], near: str | None) -> None:
    assert nearest(word, known) == near
