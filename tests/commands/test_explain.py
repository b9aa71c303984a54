"""`formsheet explain`: a kind of problem, all kinds, and what each level is asked."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest
from jsonschema import Draft202012Validator

from formsheet.cli import main
from formsheet.judge.level import ALIKE, ASKED, LIMITS, Limits
from formsheet.problems.registry import KINDS
from formsheet.report.explained import severity_of
from formsheet.report.schema import schema_text
from formsheet.vocabulary.facts import Level

#: What is asked of each level: `python -m formsheet explain levels > tests/golden/levels.txt`.
LEVELS = Path(__file__).parents[1] / "golden" / "levels.txt"
BEND = """\
bend-too-deep: error

A bend goes lower than the two reeds of its hole allow. A natural bend stops a
half step above the other reed of the hole: the closer the reeds, the less there
is to bend.

Reported:
  lick porch on I
    q 2d''' 3d 4d 2d

In a whole lesson, as check prints it:
sample.lesson:8:5: error: 2 draw does not bend a step and a half; on this harp it bends a \
whole step [bend-too-deep]
    8 |   q 2d''' 3d 4d 2d
      |     ^^^^^
      = write `2d''`

Not reported:
  lick porch on I
    q 2d'' 3d 4d 2d
"""


@pytest.fixture(autouse=True)
def no_terminal(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.delenv("COLUMNS", raising=False)


def printed(capsys: pytest.CaptureFixture[str], *words: str) -> str:
    assert main(["explain", *words]) == 0
    return capsys.readouterr().out


def test_kind(capsys: pytest.CaptureFixture[str]) -> None:
    assert printed(capsys, "bend-too-deep") == BEND


def test_code_may_be_copied_with_its_brackets(capsys: pytest.CaptureFixture[str]) -> None:
    assert printed(capsys, "[bend-too-deep]") == BEND


@pytest.mark.parametrize("code", KINDS)
def test_every_kind_is_explained_by_its_own_problem(
    capsys: pytest.CaptureFixture[str], code: str
) -> None:
    text = printed(capsys, code)
    assert text.startswith(f"{code}: {severity_of(KINDS[code]).word}\n")
    assert f"[{code}]\n" in text
    before, sample = text.split("\n\nIn a whole lesson")
    assert len(max(before.split("\n"), key=len)) <= 80
    assert "\nNot reported:\n  " in sample


def test_files_beside_the_lesson_are_shown(capsys: pytest.CaptureFixture[str]) -> None:
    text = printed(capsys, "shelf-unlike")
    assert "  turnarounds.licks:\n    position 3rd\n" in text
    assert "\nturnarounds.licks:" not in text


def test_place_on_a_shelf_is_named_without_a_folder(capsys: pytest.CaptureFixture[str]) -> None:
    assert "\nturnarounds.licks:1:1: error:" in printed(capsys, "shelf-form")


def test_missing_file_is_shown_as_missing(capsys: pytest.CaptureFixture[str]) -> None:
    text = printed(capsys, "file-missing")
    assert "  (no file kitchn.lesson)\n  kitchen.lesson:\n" in text


def test_long_sample_is_cut(capsys: pytest.CaptureFixture[str]) -> None:
    text = printed(capsys, "file-too-long")
    assert "\n  … (8 more lines)\n" in text
    assert max(map(len, printed(capsys, "word-too-long").split("\n\nIn a whole")[0].split())) <= 80


def test_text_is_wrapped_to_the_terminal(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("COLUMNS", "40")
    assert "A bend goes lower than the two reeds of\nits hole allow." in printed(
        capsys, "bend-too-deep"
    )


def test_all_kinds_by_severity(capsys: pytest.CaptureFixture[str]) -> None:
    lines = printed(capsys).split("\n")
    heads = [line for line in lines if re.fullmatch(r"[a-z]+s", line)]
    assert heads == ["errors", "warnings", "remarks"]
    codes = [line.split()[0] for line in lines if re.match(r"  [a-z]", line)]
    assert sorted(codes) == sorted(KINDS)
    assert codes.index("bend-too-deep") < codes.index("bend-hard") < codes.index("lick-unused")
    assert "  lick-cut               Only a part of a longer lick is played in some bars," in lines
    assert max(map(len, lines)) <= 80


def test_nearest_code_is_named(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["explain", "bendtodeep"]) == 2
    assert capsys.readouterr().err == (
        'formsheet: unknown code "bendtodeep"; did you mean bend-too-deep?\n'
    )


def test_unknown_code_without_a_near_one(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["explain", "xyzzy"]) == 2
    assert capsys.readouterr().err.endswith("; formsheet explain lists all of them\n")


def test_levels(capsys: pytest.CaptureFixture[str]) -> None:
    lines = printed(capsys, "levels").split("\n")
    assert lines[0].split() == ["beginner", "improver", "advanced"]
    assert "deepest bend, half steps" in lines[1]
    assert lines[1].split()[-3:] == ["1", "3", "3"]
    assert max(map(len, lines)) <= 80


def test_levels_are_the_golden_ones(capsys: pytest.CaptureFixture[str]) -> None:
    assert printed(capsys, "levels") == LEVELS.read_text(encoding="utf-8")


def test_every_limit_of_a_level_has_words() -> None:
    assert set(ASKED) == set(Limits._fields)


def test_levels_as_data_are_the_limits(capsys: pytest.CaptureFixture[str]) -> None:
    limits = json.loads(printed(capsys, "levels", "--json"))["limits"]
    assert len(limits) == len(ASKED) + len(ALIKE)
    for row, field in zip(limits, ASKED, strict=False):
        assert row["levels"] == {level.value: getattr(LIMITS[level], field) for level in Level}


@pytest.mark.parametrize("words", [(), ("bend-too-deep",), ("file-missing",), ("levels",)])
def test_data_follow_the_schema(capsys: pytest.CaptureFixture[str], words: tuple[str, ...]) -> None:
    data = json.loads(printed(capsys, *words, "--json"))
    schema = Draft202012Validator(json.loads(schema_text("explain")))
    schema.validate(data)
    assert len(data["kinds"]) == {(): len(KINDS), ("levels",): 0}.get(words, 1)


def test_no_file_is_left_behind(
    capsys: pytest.CaptureFixture[str], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("tempfile.tempdir", str(tmp_path))
    printed(capsys, "bend-too-deep")
    assert not list(tmp_path.iterdir())
