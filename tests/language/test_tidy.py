"""Tidying: what a file says is unchanged, no comment is lost, twice is as once."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from formsheet.language.parse import parse
from formsheet.language.tidy import tidied
from formsheet.problems.problem import has_errors
from formsheet.source import Source
from tests.helpers import examined
from tests.language.samples import KETTLE_CREEK, LATE_TRAM_LESSON
from tests.language.test_fuzz import reordered, shuffled
from tests.lessons import LESSONS, NAMES, demo
from tests.likeness import placeless

ERRORS = sorted((Path(__file__).parents[1] / "errors").glob("*.lesson"))
some = settings(max_examples=200, derandomize=True, deadline=None, database=None,
                suppress_health_check=list(HealthCheck))  # fmt: skip


def tidy(text: str) -> str:
    found, _ = tidied(Source("test.lesson", text))
    assert found is not None
    return found


def comments(text: str) -> list[str]:
    """What stands behind the last number sign of each line, a comment or the end of a text."""
    ends = [
        line.rpartition("#")[2].strip('"“”„«» \r\t') for line in text.split("\n") if "#" in line
    ]
    return [" ".join(end.split()) for end in ends]


def tidied_well(text: str) -> None:
    """Whatever the text is: it is left alone, or says the same as before."""
    source = Source("test.lesson", text)
    tree, problems = parse(source)
    found, told = tidied(source)
    assert (found is None) == has_errors(problems)
    if found is None:
        assert told == problems
        return
    again, _ = parse(Source("test.lesson", found))
    assert _spelt_alike(placeless(again)) == _spelt_alike(placeless(tree))
    assert comments(found) == comments(text)
    assert tidy(found) == found


def _spelt_alike(tree: object) -> str:
    """Marks that are spelt in more than one way, spelt in one."""
    text = re.sub(r"'text': '\]\s*x0*", "'text': ']x", str(tree))
    return text.replace("'text': '–'", "'text': '-'")


# ---- Every text that there is ------------------------------------------------------------


@pytest.mark.parametrize("text", [
    *((LESSONS / f"{name}.lesson").read_text(encoding="utf-8") for name in NAMES),
    *(path.read_text(encoding="utf-8", errors="replace") for path in ERRORS),
    KETTLE_CREEK,
    LATE_TRAM_LESSON,
])  # fmt: skip
def test_lesson(text: str) -> None:
    tidied_well(text)


@some
@given(shuffled())
def test_words_of_a_lesson(text: str) -> None:
    tidied_well(text)


@some
@given(reordered())
def test_lines_of_a_lesson(text: str) -> None:
    tidied_well(text)


@some
@given(
    st.sampled_from((KETTLE_CREEK, LATE_TRAM_LESSON)),
    st.lists(st.sampled_from(["", "# above", "   # inside", "\t"]), min_size=60, max_size=60),
    st.lists(st.sampled_from(["", "  ", " # beside", " #9 close by", "\r"]), min_size=60,
             max_size=60),
)  # fmt: skip
def test_comments_and_blank_lines_anywhere(text: str, above: list[str], beside: list[str]) -> None:
    lines = zip(text.splitlines(), above, beside, strict=False)
    tidied_well("\n".join(f"{over}\n{line}{more}" for line, over, more in lines))


@pytest.mark.parametrize("name", NAMES)
def test_tune_of_a_demo_lesson_is_the_same(name: str) -> None:
    text = tidy((LESSONS / f"{name}.lesson").read_text(encoding="utf-8"))
    assert placeless(examined(text, LESSONS).tune) == placeless(demo(name).tune)


@pytest.mark.limit("language.aligned._FACT_COLUMN", "language.written.GAP")
@pytest.mark.parametrize("name", NAMES)
def test_demo_lesson_is_tidy(name: str) -> None:
    text = (LESSONS / f"{name}.lesson").read_text(encoding="utf-8")
    assert tidy(text) == text


# ---- How it looks ------------------------------------------------------------------------

UNTIDY = """\


# My tune.
title Kettle   Creek
 harp   low  F
form "Late tram"
| I7|IV7|I7
I7 VI7 | iv | V7|   # the way back


rhythm trot h x x
rhythm long-one q x  e3 x - x
# Above the lick.
lick a "A" on I,IV   in trot
  2d{wah} 3d       # one
lick b on I in long-one
3d 34d
4d         # two
  tip Let it ring.  # three
lick c on I
[ e 36b s 36b 36b]x2 q -|straight h 2d swing e 2d 2d q 2d
play   x2
every I a x2,b
bars 11-12  c
last time bars 11-12  rest
"""

TIDY = """\
# My tune.
title     Kettle   Creek
harp      low F
form "Late tram"
  | I7     | IV7 | I7 |
  | I7 VI7 | iv  | V7 |  # the way back

rhythm trot       h x       x
rhythm long-one   q x  e3 x   - x

# Above the lick.
lick a "A" on I, IV in trot
                    2d{wah} 3d  # one

lick b on I in long-one
                    3d    34d
                                4d  # two
  tip Let it ring.                  # three

lick c on I
  [ e 36b  s 36b 36b ]x2  q -  |  straight h 2d  swing e 2d 2d  q 2d

play x2
  every I      a x2, b
  bars 11-12   c
  last time bars 11-12   rest
"""


def test_untidy_lesson() -> None:
    assert tidy(UNTIDY) == TIDY


def test_line_ends_stay_as_they_are() -> None:
    assert tidy(UNTIDY.replace("\n", "\r\n")) == TIDY.replace("\n", "\r\n")


def test_rhythm_named_twice_keeps_both() -> None:
    text = "rhythm a h x x\nrhythm a q x x x x\nlick b on I in a\n2d 3d\n"
    assert tidy(text).splitlines()[:2] == ["rhythm a   h x  x", "rhythm a   q x x x x"]


def test_rhythm_too_wide_to_set_notes_below() -> None:
    notes = " ".join(['3d{vibrato}"along"'] * 8)
    text = tidy(f"rhythm a e x x x x x x x x\nlick b on I in a\n{notes}\n")
    assert text.splitlines()[-1] == f"  {notes}"


@pytest.mark.parametrize("line", ["  q 2d! #c", "  q 2d |#c", "  q [ 2d ]#c", "tip Hum.  #c"])
def test_comment_close_by(line: str) -> None:
    assert tidy(f"lick a on I\n{line}\n").splitlines()[-1].endswith("  #c")


@pytest.mark.parametrize("line", ["  q 2d!#c", "  q 2d# 3d", "lick b on V#c", "lick b#c on V"])
def test_number_sign_inside_a_word_is_no_comment(line: str) -> None:
    found, problems = tidied(Source("test.lesson", f"lick a on I\n{line}\n"))
    assert found is None
    assert len(problems) == 1


def test_count_that_a_bracket_lacks_stays_with_it() -> None:
    assert tidy("lick a on I\nq [2d 3d]2 |\n").splitlines()[-1] == "  q [ 2d 3d ]2  |"


def test_file_that_cannot_be_read_is_told() -> None:
    text, problems = tidied(Source("test.lesson", "titel A\n"))
    assert text is None
    assert [problem.code for problem in problems] == ["word-unknown"]


def test_empty_file_stays_empty() -> None:
    assert tidy("\n \n") == ""


def test_bars_of_an_ending_are_written_alike() -> None:
    text = (
        'form "Own"   ending | I  IV|I V |  # turn\n|I7|V7|\n'
        "play\n  last  time ending I|I\n ending I VI7|ii7 V7\n"
    )
    assert tidy(text) == (
        'form "Own" ending I IV | I V  # turn\n  | I7 | V7 |\n\n'
        "play\n  last time ending   I | I\n  ending       I VI7 | ii7 V7\n"
    )
    tidied_well(text)
