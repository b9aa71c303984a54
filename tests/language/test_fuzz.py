"""Any text gives a lesson or problems, never an exception."""

from __future__ import annotations

import json
import os
import re
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from formsheet.problems.drawing import as_data, drawn
from formsheet.report.data import check_data, tune_data
from formsheet.report.table import check_table, tune_table
from tests.helpers import examined
from tests.language.samples import KETTLE_CREEK, LATE_TRAM_LESSON

# `FUZZ_EXAMPLES=20000` runs it hard, with other examples each time.
_EXAMPLES = int(os.environ.get("FUZZ_EXAMPLES", "200"))
fuzz = settings(
    max_examples=_EXAMPLES,
    derandomize="FUZZ_EXAMPLES" not in os.environ,
    deadline=None,
    database=None,
    suppress_health_check=list(HealthCheck),
)

SHELF = """\
position 2nd
rhythm trot q x e x x q x -
lick porch on I in trot
  2d 3d 4d 2d
"""
USING = """\
title Borrowed
harp C
tempo 80
form 8-bar ending I
use porch, porch as step from corner
lick rest-of-it on V, IV
  pickup e3 1d 2d' 1d
  q 4d 5b e 10b''{wah} 6b q -
play x2
  every I porch
  every V rest-of-it
  every IV rest-of-it x2
"""

TOKENS = re.compile(r"\n|[^\S\n]+|[^\s|\[\]]+|[|\[\]]")
_GOOD = [TOKENS.findall(text) for text in (KETTLE_CREEK, LATE_TRAM_LESSON, USING)]
_WORDS = sorted({token for tokens in _GOOD for token in tokens if token.strip()} | {
    "]x99", "]x0", "x0", "x65", "99-1", "0", "1-9999", "]x9999", "=", "-", "x", "w..", "h3", "e9",
    "3d''''''", "910b", "1234567d", "15b", "51b", "11d", "6ob", "6ob'", "7od", "4ob", "4d5b", "0d",
    "q", "bVII7", "iv", "III", "#ivdim", "I7sus4", "VIII", "“Open", "Shut”", '"', "{", "{wah",
    "4d{boing}", "4d!!", "4d’", "4d′", "low", "12th", "13th", "0th", "swing", "60%", "99:1", "0:0",
    "400", "1e9", "٣", "²", "#", ",", "|", "||", "natural minor", "C9", "Cb1", "B#", "E##",
    "„Two", "Words“", "«A»", "\u200b", "\u00ad", "\u200d", "12\u2011bar",
    "\ufeff", "\t", "\r", "\x00", "\u2028", "\u3000", "é", "e\u0301", "漢", "💨",
})  # fmt: skip


@st.composite
def shuffled(draw: st.DrawFn) -> str:
    """A good lesson with some words left out, doubled, swapped or replaced."""
    tokens = list(draw(st.sampled_from(_GOOD)))
    for _ in range(draw(st.integers(1, 6))):
        at = draw(st.integers(0, len(tokens) - 1))
        match draw(st.sampled_from(("drop", "double", "swap", "replace", "insert", "cut"))):
            case "drop" if len(tokens) > 1:
                del tokens[at]
            case "double":
                tokens[at:at] = [tokens[at], " "]
            case "swap":
                other = draw(st.integers(0, len(tokens) - 1))
                tokens[at], tokens[other] = tokens[other], tokens[at]
            case "replace":
                tokens[at] = draw(st.sampled_from(_WORDS))
            case "insert":
                tokens[at:at] = [" ", draw(st.sampled_from(_WORDS)), " "]
            case "cut" if len(tokens[at]) > 1:
                tokens[at] = tokens[at][: draw(st.integers(1, len(tokens[at]) - 1))]
    return "".join(tokens)


@st.composite
def reordered(draw: st.DrawFn) -> str:
    """The lines of a good lesson in another order, some of them left out or doubled."""
    text = draw(st.sampled_from((KETTLE_CREEK, LATE_TRAM_LESSON, USING)))
    return "\n".join(draw(st.lists(st.sampled_from(text.splitlines()), max_size=30)))


random_lines = st.lists(
    st.lists(st.sampled_from(_WORDS), max_size=10).map(" ".join), max_size=12
).map("\n".join)
with_facts = random_lines.map(lambda lines: KETTLE_CREEK.partition("rhythm")[0] + lines)


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    lessons = tmp_path_factory.mktemp("lessons")
    (lessons / "shelf").mkdir()
    (lessons / "shelf" / "corner.licks").write_text(SHELF, encoding="utf-8")
    return lessons


def taken_through(text: str, folder: Path) -> None:
    found = examined(text, folder)
    for problem in found.problems:
        span = problem.span
        assert 0 <= span.start <= span.end <= len(span.source.text)
        assert drawn(problem).strip()
        assert json.dumps(as_data(problem))
    assert found.in_order == (found.tune is not None)
    assert json.dumps([tune_data(found), check_data(found)])
    assert bool(check_table(found)) == found.in_order
    if found.tune:
        assert tune_table(found.tune, found.fits)


def test_the_samples_are_good(folder: Path) -> None:
    """Else the shuffles would never get past the first stage."""
    assert all(examined("".join(tokens), folder).tune for tokens in _GOOD)


@fuzz
@given(st.text())
def test_any_text(folder: Path, text: str) -> None:
    taken_through(text, folder)


@fuzz
@given(shuffled())
def test_words_of_a_good_lesson(folder: Path, text: str) -> None:
    taken_through(text, folder)


@fuzz
@given(reordered())
def test_lines_of_a_good_lesson(folder: Path, text: str) -> None:
    taken_through(text, folder)


@fuzz
@given(st.one_of(random_lines, with_facts))
def test_lines_of_random_words(folder: Path, text: str) -> None:
    taken_through(text, folder)
