"""Bar numbers in words, everywhere the same."""

from __future__ import annotations

import json
import re
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from formsheet.cli import main
from formsheet.listing import bars_words, listed, run_words, runs
from tests.lessons import LESSONS

NUMBERS = st.sets(st.integers(1, 64), min_size=1).map(sorted)


@pytest.mark.parametrize(
    ("numbers", "words"),
    [
        ([5], "bar 5"),
        ([7, 8], "bars 7 and 8"),
        ([2, 3, 4], "bars 2-4"),
        ([5, 6, 10], "bars 5, 6 and 10"),
        ([1, 2, 3, 4, 7, 8, 11], "bars 1-4, 7, 8 and 11"),
        ([1, 2, 3, 5, 6, 7], "bars 1-3 and 5-7"),
    ],
)
def test_bars_in_words(numbers: list[int], words: str) -> None:
    assert bars_words(numbers) == words


@pytest.mark.parametrize(
    ("items", "words"),
    [([], ""), (["a"], "a"), (["a", "b"], "a or b"), (["a", "b", "c"], "a, b or c")],
)
def test_things_one_after_another(items: list[str], words: str) -> None:
    assert listed(items, "or") == words


@given(NUMBERS)
def test_runs_hold_each_number_once_and_do_not_touch(numbers: list[int]) -> None:
    found = runs(numbers)
    assert [number for run in found for number in run] == numbers
    assert all(run == list(range(run[0], run[-1] + 1)) for run in found)
    assert all(one[-1] + 1 < next_one[0] for one, next_one in pairwise(found))


@given(NUMBERS)
def test_words_read_back_are_the_numbers(numbers: list[int]) -> None:
    pairs = [[int(end) for end in word.split("-")] for word in run_words(numbers)]
    assert [n for pair in pairs for n in range(pair[0], pair[-1] + 1)] == numbers


def test_fit_and_uses_tell_bars_alike(capsys: pytest.CaptureFixture[str]) -> None:
    lesson = str(LESSONS / "back-step-shuffle.lesson")
    assert main(["fit", lesson, "--json"]) == 0
    data = json.loads(capsys.readouterr().out)
    assert main(["fit", lesson]) == 0
    told = re.findall(r"bars? \d[\d, and-]*", capsys.readouterr().out)
    wanted = [bars_words(each["bars"]) for lick in data for each in lick["placements"]]
    assert [words.strip() for words in told] == wanted
    assert any("-" in words for words in wanted)
