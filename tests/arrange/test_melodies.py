"""A sample of the open melodies; all of them: `python -m tests.arrange.many_melodies`."""

from __future__ import annotations

import pytest

from tests.arrange.melodies import paths, tried

_SAMPLE = 25


def test_the_book_is_there() -> None:
    assert len(paths()) > 1000


@pytest.mark.parametrize("index", range(_SAMPLE))
def test_the_tab_sounds_the_melody(index: int) -> None:
    book = paths()
    result = tried(book[index * len(book) // _SAMPLE])
    assert not result.wrong, f"{result.name}: {result.wrong}"
    assert result.skipped or result.notes > 30
