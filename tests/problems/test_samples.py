"""Each kind's samples: the bad one has the problem and no graver one, the good one has no error."""

from __future__ import annotations

import pytest

from formsheet.problems.problem import Problem, Sample, Severity
from formsheet.problems.registry import KINDS
from formsheet.problems.samples import bad_and_good, completed, files_of
from formsheet.report.explained import problems_of_sample

each_kind = pytest.mark.parametrize("code", KINDS)

#: A file that has more problems than are printed has others too.
NOT_ALONE = ("problems-left",)


@each_kind
def test_kind_has_samples_of_its_own(code: str) -> None:
    """A kind without them does not pass the type check either: it could not be raised."""
    for which in ("bad", "good"):
        own = vars(KINDS[code]).get(which)
        assert isinstance(own, (str, Sample)), f"{code} has no {which} sample"


@each_kind
def test_bad_sample_has_the_problem(code: str) -> None:
    problems = problems_of_sample(bad_and_good(KINDS[code])[0])
    found = {problem.code for problem in problems}
    assert code in found
    if code not in NOT_ALONE:
        assert found == {code}


@each_kind
def test_good_sample_is_without_it(code: str) -> None:
    problems = problems_of_sample(bad_and_good(KINDS[code])[1])
    assert code not in {problem.code for problem in problems}
    assert not [each for each in problems if each.severity is Severity.ERROR]


def test_kind_without_samples_cannot_be_made() -> None:
    """The type checker refuses to make one, for its samples are abstract."""
    for part in ("code", "severity", "bad", "good", "message"):
        assert getattr(vars(Problem)[part], "__isabstractmethod__", False)


def test_frame_has_nothing_to_report() -> None:
    assert problems_of_sample(Sample("tempo 100")) == ()


def test_fact_takes_the_place_of_the_frames() -> None:
    lesson = completed("tempo 80").split("\n")
    assert "tempo 80" in lesson
    assert not [line for line in lesson if line.endswith("100")]


def test_two_facts_alike_are_both_there() -> None:
    assert "harp C\nharp A\nposition" in completed("harp C\nharp A")


def test_lick_takes_the_place_of_the_one_of_its_name() -> None:
    lesson = completed("lick creek on IV\n  w 4b")
    assert lesson.count("lick creek") == 1
    assert lesson.index("lick porch") < lesson.index("w 4b") < lesson.index("lick gate")


def test_line_of_play_goes_to_its_end() -> None:
    assert completed("bar 9 rest").endswith("every V   gate\n  bar 9 rest\n")


def test_other_blocks_go_after_the_block_before_them() -> None:
    assert completed("feel swing").index("feel") > completed("feel swing").index("tempo")
    assert "4d 1d\nlearn 60\n" in completed("lick gate on V\n  q 4d 5d 4d 1d\nlearn 60")


def test_frame_without_some_of_its_blocks() -> None:
    lesson = completed("lick gate on V\n  w 1d", without=("title", "lick creek"))
    assert "title" not in lesson
    assert "lick creek" not in lesson


def test_files_beside_a_lesson() -> None:
    files = files_of(Sample("feel swing", beside=(("walks.licks", "position 2nd"),)))
    assert files["walks.licks"] == b"position 2nd"
    assert b"title" in files["sample.lesson"]


def test_no_file() -> None:
    assert files_of(Sample(None, name="gone.lesson")) == {}
