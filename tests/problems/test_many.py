"""Many mistakes in one run: each told once, in order; and each alone, told alone.

One mistake hides others for a good reason: without a form nothing is laid out, so an unknown form
hides a lick on the wrong chord, a count that does not come out and what the harp cannot play.
It therefore has a lesson of its own.
"""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from formsheet.cli import main
from tests.helpers import examined, slugs_of

GOOD = """\
title  Ten Slips
harp   C
form   12-bar standard
tempo  96

lick porch on I
  q 2d e 3d' 3d q 4d 2d

lick creek on IV
  q 4b 5b 6b -

lick gate on V
  q 1d 4d 1d -

play
  every I    porch
  every IV   creek
  every V    gate
  bars 1-4   porch x4
"""

#: Slug: what is written in the good lesson, what stands there instead, and what is marked: the
#: line and the column, and the words.
SLIPS: dict[str, tuple[str, str, tuple[int, int], str]] = {
    "lick-unknown": ("IV   creek", "IV   creak", (17, 14), "creak"),
    "bar-too-long": ("4b 5b 6b -", "4b 5b 6b - 4b", (10, 16), "4b"),
    "bar-too-short": ("4b 5b 6b -", "4b 5b 6b", (10, 5), "4b 5b 6b"),
    "count-mismatch": ("porch x4", "porch x3", (19, 14), "porch x3"),
    "bend-too-deep": ("q 1d 4d", "q 1d 4d''", (13, 8), "4d''"),
    "note-breath": ("q 1d 4d", "q 1d 4g", (13, 8), "4g"),
    "form-unknown": ("12-bar standard", "12-baar standard", (3, 8), "12-baar standard"),
    "lick-wrong-chord": ("IV   creek", "IV   gate", (17, 14), "gate"),
    "harp-missing": ("harp   C\n", "", (1, 1), ""),
    "quote-open": ("lick gate on", 'lick gate "At the gate on', (12, 11), '"At the gate on V'),
}

each_slip = pytest.mark.parametrize("slug", SLIPS)


def slipped(slug: str) -> str:
    right, wrong, _, _ = SLIPS[slug]
    assert GOOD.count(right) == 1
    return GOOD.replace(right, wrong)


# ---- Each alone ------------------------------------------------------------------------------


def test_the_good_lesson_is_good() -> None:
    assert examined(GOOD).tune
    assert slugs_of(GOOD) == []


@each_slip
def test_alone(slug: str) -> None:
    (problem,) = examined(slipped(slug)).problems
    span = problem.span
    assert (problem.code, (span.line, span.column), span.text) == (slug, *SLIPS[slug][2:])


@pytest.fixture
def lesson(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, slug: str) -> Path:
    monkeypatch.chdir(tmp_path)
    path = Path("slip.lesson")
    path.write_text(slipped(slug), encoding="utf-8")
    return path


@each_slip
def test_check_tells_it_and_fails(
    slug: str, lesson: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    line, column = SLIPS[slug][2]
    assert main(["check", str(lesson)]) == 1
    told = re.findall(r"^slip\.lesson:.*", capsys.readouterr().out, re.MULTILINE)
    assert [each.split(": error: ")[0] for each in told] == [f"slip.lesson:{line}:{column}"]


@each_slip
def test_build_writes_nothing_and_fails(slug: str, lesson: Path) -> None:
    assert main(["build", str(lesson), "--out", "handouts"]) == 1
    assert list(lesson.parent.iterdir()) == [lesson]


# ---- All in one run --------------------------------------------------------------------------

NINE = """\
title  Ten Slips
form   12-bar standard
tempo  96

lick porch on I
  q 2d e 3d' 3d q 4d 2d

lick creek on IV
  q 4b 5b 6b 5b 4b

lick ferry on IV
  q 4b 5b 6b

lick gate on V
  q 1d 4d'' 4b 1d

lick mill on V
  q 1d 4g 4b 1d

lick stile "Over the stile on I
  q 2d 3d 4d 2d

play
  every I    porch
  every IV   porch
  every V    gate
  bars 1-4   porch x3
  bars 7-8   poarch x2
"""
#: The tenth, and what is still told beside it.
UNKNOWN_FORM = NINE.replace("12-bar standard", "12-baar standard")


def told(text: str) -> list[tuple[str, int, str]]:
    return [(p.code, p.span.line, p.span.text) for p in examined(text).problems]


def test_nine_mistakes_are_told_once_each_and_in_order() -> None:
    assert told(NINE) == [
        ("harp-missing", 1, ""),
        ("bar-too-long", 9, "4b"),
        ("bar-too-short", 12, "4b 5b 6b"),
        ("bend-too-deep", 15, "4d''"),
        ("note-breath", 18, "4g"),
        ("quote-open", 20, '"Over the stile on I'),
        ("lick-wrong-chord", 25, "porch"),
        ("count-mismatch", 27, "porch x3"),
        ("lick-unknown", 28, "poarch"),
    ]


def test_the_tenth_hides_only_what_needs_the_form() -> None:
    assert told(UNKNOWN_FORM) == [
        ("harp-missing", 1, ""),
        ("form-unknown", 2, "12-baar standard"),
        ("bar-too-long", 9, "4b"),
        ("bar-too-short", 12, "4b 5b 6b"),
        ("bend-too-deep", 15, "4d''"),
        ("note-breath", 18, "4g"),
        ("quote-open", 20, '"Over the stile on I'),
        ("lick-unknown", 28, "poarch"),
    ]


@pytest.mark.parametrize("text", [NINE, UNKNOWN_FORM])
@pytest.mark.parametrize("command", ["check", "build", "show"])
def test_commands_tell_them_all_and_fail(
    text: str,
    command: str,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> None:
    monkeypatch.chdir(tmp_path)
    Path("slips.lesson").write_text(text, encoding="utf-8")
    assert main([command, "slips.lesson"]) == 1
    output = capsys.readouterr().out
    assert re.findall(r"\[([a-z-]+)\]$", output, re.MULTILINE) == [
        slug for slug, _, _ in told(text)
    ]
    assert [path.name for path in tmp_path.iterdir()] == ["slips.lesson"]


def test_mistakes_of_two_lessons_are_told_under_their_names(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(tmp_path)
    Path("one.lesson").write_text(slipped("bar-too-long"), encoding="utf-8")
    Path("two.lesson").write_text(slipped("lick-unknown"), encoding="utf-8")
    assert main(["check", "."]) == 1
    output = capsys.readouterr().out
    assert re.findall(r"^(\w+\.lesson):\d+:\d+: error", output, re.MULTILINE) == [
        "one.lesson", "two.lesson",
    ]  # fmt: skip
