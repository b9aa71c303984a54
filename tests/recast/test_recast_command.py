"""The command `recast`: what it prints can be pasted, and a draft is a lesson without errors."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from formsheet.cli import main
from formsheet.language.parse import parse
from formsheet.language.writer import lines_of, lines_text
from formsheet.lesson.shelves import Shelves
from formsheet.problems.problem import has_errors
from formsheet.recast.naming import recast_name, recast_title
from formsheet.source import Source
from formsheet.stages import Examined, examine
from tests.helpers import told
from tests.lessons import LESSONS
from tests.recast.demos import HOME_LICKS, lesson_named, on
from tests.recast.golden import CASES, GOLDEN, printed
from tests.test_readme import README, block


@pytest.mark.limit("recast.draft._TURNAROUND_BARS")
@pytest.mark.parametrize("name", CASES)
def test_prints_the_golden_text(name: str) -> None:
    assert printed(*CASES[name]) == (GOLDEN / f"{name}.txt").read_text(encoding="utf-8")


def beside(name: str, text: str) -> Examined:
    """A lesson examined as if it lay among the demo lessons."""
    return examine(Source(f"{name}.lesson", text, LESSONS / f"{name}.lesson"), Shelves(LESSONS))


@pytest.mark.parametrize("numeral", ["IV", "V"])
@pytest.mark.parametrize(("name", "lick"), HOME_LICKS)
def test_each_way_can_be_pasted(name: str, lick: str, numeral: str) -> None:
    """Into the lesson of the lick, and played there over its chord, it gives no error.

    The lick itself with a wider `on` goes where it was.
    """
    _, old, chords = on(name, lick, numeral)
    asked = str(chords[0][0])
    (found,) = json.loads(printed(f"{name}.lesson", lick, "--on", asked, "--all", "--json"))
    assert found["ways"]
    source = (LESSONS / f"{name}.lesson").read_text(encoding="utf-8")
    for each in found["ways"]:
        others = _without(source, lick) if each["as_it_is"] else source
        text = _with(others, each["text"], each["lick"], " | ".join([asked] * len(old.bars)))
        found = beside("pasted", text)
        assert not has_errors(found.problems), told(found.problems)
        assert found.tune
        assert [str(note.tab) for note in found.tune.notes][-len(each["tab"]) :] == each["tab"]


def _without(source: str, lick: str) -> str:
    """The lesson without one lick."""
    tree, _ = parse(Source("old.lesson", source))
    tree.licks[:] = [each for each in tree.licks if each.name.text != lick]
    return lines_text(lines_of(tree))


def _with(source: str, lick: str, name: str, chords: str) -> str:
    """The lesson with a form of these chords, this lick added and nothing else played."""
    tree, _ = parse(Source("old.lesson", source))
    tree.plays.clear()
    tree.forms.clear()
    text = lines_text(lines_of(tree))
    head, blank, rest = text.partition("\n\n")
    bars = chords.count("|") + 1
    form = f'\nform "Own"\n  | {chords} | I |\n'
    return (
        f"{head}{form}{blank}{rest}\n{lick}\nplay\n  bars 1-{bars} {name}\n  bar {bars + 1} rest\n"
    )


@pytest.mark.parametrize(("name", "lick"), HOME_LICKS)
def test_every_draft_is_in_order(name: str, lick: str) -> None:
    text = printed(f"{name}.lesson", lick, "--draft", "--title", "New Tune")
    assert text.startswith("title     New Tune\n")
    found = beside("draft", text)
    assert not has_errors(found.problems), told(found.problems)
    assert found.tune
    form = lesson_named(name).form
    assert len([bar for bar in found.tune.bars if bar.number]) == len(form.bars)


def test_draft_goes_to_a_file_and_builds_on_it(tmp_path: Path) -> None:
    out = tmp_path / "new.lesson"
    words = ["recast", str(LESSONS / "back-step-shuffle.lesson"), "chug", "--draft"]
    assert main([*words, "--out", str(out), "--form", "8-bar"]) == 0
    assert main(["check", str(out)]) == 0
    assert main([*words, "--out", str(out)]) == 2  # it is there already
    assert main([*words, "--out", str(out), "--force"]) == 0


def test_the_guide_shows_what_is_printed(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "kitchen.lesson"
    path.write_text(block("lesson"), encoding="utf-8")
    assert main(["recast", str(path), "porch", "--on", "IV"]) == 0
    first, second, _ = capsys.readouterr().out.split("\n\n", maxsplit=2)
    assert f"```\n{first}\n\n{second}\n```" in README


def test_turnaround_of_the_lesson_itself() -> None:
    text = printed("orchard-gate-in-eight.lesson", "latch", "--draft", "--turnaround", "shut")
    assert 'turnaround shut "The gate shuts" on I' in text
    assert "bars 7-8     shut" in text


def test_turnaround_that_lies_on_the_shelf() -> None:
    text = printed("back-step-shuffle.lesson", "chug", "--draft", "--turnaround", "low-lane")
    assert "use low-lane from turnarounds" in text


@pytest.mark.parametrize(
    "words",
    [
        ("porch",),
        ("porch", "--on", "IV", "--draft"),
        ("porch", "--on", "H7"),
        ("porch", "--on", "IV", "--name", "two words"),
        ("porch", "--on", "IV", "--name", "rest"),
        ("porch", "--on", "I | IV | V"),
        ("porch", "--on", "I IV V"),
        ("porch", "--on", ""),
        ("porhc", "--on", "IV"),
        ("porch", "--draft", "--turnaround", "hme"),
        ("porch", "--draft", "--form", "13-bar"),
    ],
)
def test_wrong_usage(words: tuple[str, ...], capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["recast", str(LESSONS / "back-step-shuffle.lesson"), *words]) == 2
    assert capsys.readouterr().err.startswith("formsheet: ")


def test_a_shelf_needs_a_form_for_a_draft() -> None:
    shelf = str(LESSONS / "shelf" / "turnarounds.licks")
    assert main(["recast", shelf, "home", "--draft"]) == 2


def test_a_lesson_with_errors_is_told(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = tmp_path / "a.lesson"
    path.write_text("lick a on I\n q 2x\n", encoding="utf-8")
    assert main(["recast", str(path), "a", "--on", "IV"]) == 1
    assert "note-breath" in capsys.readouterr().out


@pytest.mark.parametrize(
    ("name", "title", "chords", "becomes"),
    [
        ("porch", "Front porch", "IV", ("porch-four", "Front porch on IV")),
        ("hoist-one", "Hoist on one", "ii7", ("hoist-two", "Hoist on ii")),
        ("trot", "Trot", "bVI7", ("trot-flat-six", "Trot flat six")),
        ("porch", "Front porch", "V | IV", ("porch-five-four", "Front porch on V, IV")),
    ],
)
def test_names(name: str, title: str, chords: str, becomes: tuple[str, str]) -> None:
    from formsheet.music.chord import parse_chord

    bars = [(parse_chord(bar.strip()),) for bar in chords.split("|")]
    new = recast_name(name, bars)
    assert (new, recast_title(name, title, bars, new)) == becomes


def test_a_taken_name_is_numbered() -> None:
    from formsheet.music.chord import parse_chord

    bars = [(parse_chord("IV"),)]
    assert recast_name("porch", bars, {"porch-four"}) == "porch-four-2"


@pytest.mark.parametrize(
    ("lick", "told"),
    [
        ("chug", "chug has 1 bar, and `V | IV` is for 2"),
        ("home", "home has 2 bars, and `V | IV | I` is for 3"),
    ],
)
def test_as_many_chords_as_bars(lick: str, told: str, capsys: pytest.CaptureFixture[str]) -> None:
    chords = "V | IV" if lick == "chug" else "V | IV | I"
    path = str(LESSONS / "back-step-shuffle.lesson")
    assert main(["recast", path, lick, "--on", chords]) == 2
    assert told in capsys.readouterr().err


def test_a_draft_has_a_recast_for_the_second_of_two_chords_that_a_lick_is_for() -> None:
    made = printed("last-tram-but-one.lesson", "clatter", "--draft", "--form", "12-bar standard")
    assert [line for line in made.splitlines() if line.startswith("lick")] == [
        "lick clatter on I, IV", "lick clatter-four on IV", "lick clatter-five on V",
    ]  # fmt: skip
