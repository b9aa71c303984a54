"""Names of files for licks of any name."""

from __future__ import annotations

import pytest

from formsheet.file_names import file_names
from formsheet.sheet.cards import GROUNDS


@pytest.mark.parametrize(
    ("names", "wanted"),
    [
        (["porch", "Gate's-end"], ["porch", "gate-s-end"]),
        (["Straße", "ÉTÉ", "шаг"], ["strasse", "ete", "lick"]),
        (["a", "A", "a"], ["a", "a-2", "a-3"]),
        (["con", "lpt1", "console"], ["con-lick", "lpt1-lick", "console"]),
    ],
)
def test_they_are_plain_and_never_alike(names: list[str], wanted: list[str]) -> None:
    assert file_names(names) == wanted


def test_endings_of_one_are_not_those_of_another() -> None:
    found = file_names(["a", "A", "a-solid"], tuple(GROUNDS.values()))
    assert found == ["a", "a-2", "a-solid-2"]
