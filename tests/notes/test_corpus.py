"""A sample of the corpus; 600 of its melodies: `python -m tests.notes.corpus 600`."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.notes.corpus import LONGEST_SECONDS, MOST_MEGABYTES, Tune, tried, tunes

pytest.importorskip("music21")
_SAMPLE = 6
#: Folders of small files: the others take minutes to parse.
_SMALL = ("oneills1850", "bach")


@pytest.fixture(scope="module")
def sample() -> list[Tune]:
    return list(tunes(_SAMPLE, _SMALL))


def test_the_sample_has_all_folders(sample: list[Tune]) -> None:
    assert {tune.folder for tune in sample} == set(_SMALL)


@pytest.mark.parametrize("index", range(_SAMPLE))
def test_a_melody(index: int, sample: list[Tune], tmp_path: Path) -> None:
    for done in tried(sample[index], tmp_path):
        assert done.status != -2, done.error
        assert not done.wrong, done
        assert done.seconds < LONGEST_SECONDS
        assert done.megabytes < MOST_MEGABYTES
        assert done.status != 2 or done.error.count("\n") == 0
