"""The chart of a harp over a chord: what `chords` prints for whoever invents a lick.

The verdicts themselves are held against their sources in `tests/judge/test_verdicts.py`, degrees
and spelling in `tests/judge/test_harmony.py`. How they are drawn and given as data is our own
choice throughout; what is not says so.
"""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest

from formsheet.cells import cells
from formsheet.cli import main
from formsheet.judge.chart import Chart, chord_chart
from formsheet.judge.level import LIMITS
from formsheet.judge.verdicts import Verdict, tone_verdict
from formsheet.music.chord import parse_chord
from formsheet.music.harp import Harp
from formsheet.music.key import song_key
from formsheet.music.tunings import TUNINGS
from formsheet.report.chart import SIGNS, chart_lines, legend
from formsheet.vocabulary.facts import Level
from tests.report.golden import CASES, FOLDER, GOLDEN, printed

NARROW = 80  # cells of a plain terminal


def chart(
    numeral: str,
    position: int = 2,
    level: Level = Level.IMPROVER,
    tuning: str = "richter",
    *,
    overbends: bool = False,
    blue: bool = False,
    minor: bool = False,
) -> Chart:
    return chord_chart(
        parse_chord(numeral),
        song_key("C", position, minor),
        Harp("C", tuning=TUNINGS[tuning]),
        LIMITS[level],
        overbends=overbends,
        blue=blue,
    )


def rows(found: Chart) -> dict[str, list[str]]:
    """The words of each row after its name."""
    lines = chart_lines(found)
    split = [re.fullmatch(r"  (\S.*?)  +(.*)", line) for line in lines]
    return {each[1]: each[2].split() for each in split if each}


@pytest.mark.parametrize("name", CASES)
def test_what_chords_prints_is_the_golden_one(name: str) -> None:
    assert printed(*CASES[name]) == (GOLDEN / f"{name}.txt").read_text(encoding="utf-8")


# ---- The drawing: our own choice ----------------------------------------------------------


def test_rows_from_the_highest_blow_bend_down_to_the_deepest_draw_bend() -> None:
    assert list(rows(chart("I7", overbends=True))) == [
        "overblow", "blow bent 2", "blow bent 1", "blow", "hole",
        "draw", "draw bent 1", "draw bent 2", "draw bent 3", "overdraw",
    ]  # fmt: skip


def test_the_rows_that_the_tuning_has() -> None:
    """In natural minor 2 blow and 3 draw are lowered: 2 draw bends further than 3 draw."""
    found = rows(chart("i7", tuning="natural minor"))
    assert found["draw bent 3"] == [".", "6", *["."] * 8]
    assert found["draw bent 2"][2] == "b9x"
    assert "blow bent 2" not in rows(chart("i7", level=Level.BEGINNER))


def test_second_position_on_the_low_holes() -> None:
    """Common practice, no source: G7 is on the low draw notes; 3 draw bent a half step is blue."""
    found = rows(chart("I7"))
    assert found["draw"][:6] == ["5*", "R*", "3*", "5*", "b7*", "9"]
    assert found["draw bent 1"][:6] == ["b5+", "7x", "b3+", "b5+", ".", "b9x"]
    assert found["draw bent 2"][:3] == [".", "b7*", "9"]
    assert found["blow"][:4] == ["4x", "6", "R*", "4x"]


@pytest.mark.parametrize("numeral", ["I7", "IV7", "V7", "bVIdim7", "#IVdim7", "V7#9", "i7"])
@pytest.mark.parametrize("tuning", TUNINGS)
def test_every_row_has_ten_words_and_fits_the_terminal(numeral: str, tuning: str) -> None:
    """So that it can be read without sight, by counting words, and without colour."""
    found = chart(numeral, tuning=tuning, overbends=True)
    assert {len(words) for words in rows(found).values()} == {10}
    assert max(map(cells, [*chart_lines(found), *legend([found], LIMITS[Level.IMPROVER])])) < NARROW
    assert rows(found)["hole"] == [str(hole) for hole in range(1, 11)]


def test_columns_are_straight() -> None:
    """Each degree ends in the column of its hole's number."""
    lines = chart_lines(chart("#IVdim7", overbends=True))
    holes = next(line for line in lines if line.startswith("  hole"))
    ends = [found.end() for found in re.finditer(r"\d+", holes)]
    for line in lines:
        assert [found.end() for found in re.finditer(r"[b#]*[0-9R]+(?=[*+x ]|$)|\.", line)][
            -10:
        ] == ends, line


def test_each_verdict_has_a_sign_of_its_own() -> None:
    assert set(SIGNS) == set(Verdict)
    assert len(set(SIGNS.values())) == len(SIGNS)
    words = " ".join(legend([], LIMITS[Level.IMPROVER]))
    assert all(verdict.word in words for verdict in Verdict)
    assert all(f" {sign} " in words for sign in SIGNS.values() if sign)


def test_colour_adds_no_word_and_takes_none() -> None:
    found = chart("I7", overbends=True)
    plain = re.sub(r"\033\[[0-9;]*m", "", "\n".join(chart_lines(found, colour=True)))
    assert plain == "\n".join(chart_lines(found))


def test_no_colour_is_heeded(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.delenv("NO_COLOR", raising=False)
    monkeypatch.setenv("FORCE_COLOR", "1")
    main(["chords"])
    assert "\033[1mR*\033[0m" in capsys.readouterr().out
    monkeypatch.setenv("NO_COLOR", "1")
    main(["chords"])
    assert "\033" not in capsys.readouterr().out


# ---- What is in it -------------------------------------------------------------------------


@pytest.mark.parametrize("position", range(1, 13))
@pytest.mark.parametrize("numeral", ["I7", "IV", "V7", "ii7b5", "#IVdim7", "i"])
@pytest.mark.parametrize("tuning", TUNINGS)
def test_it_holds_every_note_of_the_harp_with_its_verdict(
    tuning: str, numeral: str, position: int
) -> None:
    """Never in contradiction with `check`, which has the verdict on a note from the same rules."""
    harp, key = Harp("C", tuning=TUNINGS[tuning]), song_key("C", position)
    chord = parse_chord(numeral)
    found = chart(numeral, position, tuning=tuning, overbends=True, blue=True)
    assert [(note.tab, note.midi) for note in found.notes] == list(
        harp.single_notes(overbends=True)
    )
    for note in found.notes:
        assert note.verdict is tone_verdict(note.midi % 12, chord, key, True)
        assert (note.verdict is Verdict.CHORD_TONE) == (
            (note.midi - key.pitch_class - chord.root) % 12 in chord.tones
        )


@pytest.mark.parametrize(
    ("level", "overbends", "deepest", "over"),
    [
        # Our own choice: what the level may be asked for (`formsheet explain levels`).
        (Level.BEGINNER, False, 1, False),
        (Level.IMPROVER, False, 3, False),
        (Level.ADVANCED, False, 3, True),
        (Level.BEGINNER, True, 1, True),
        (Level.IMPROVER, True, 3, True),
    ],
)
def test_it_holds_what_the_level_may_be_asked_for(
    level: Level, overbends: bool, deepest: int, over: bool
) -> None:
    found = chart("I7", level=level, overbends=overbends)
    assert max(note.tab.bend for note in found.notes) == deepest
    assert any(note.tab.overbend for note in found.notes) is over
    left_out = any("left out" in line for line in legend([found], LIMITS[level]))
    assert left_out is found.deeper is (deepest < 3)


def test_blue_notes_in_a_tune_over_plain_triads_make_the_7_an_avoid_note() -> None:
    """Our own choice: a blues has sevenths there."""
    assert rows(chart("IV", blue=False))["draw"][2] == "7"
    assert rows(chart("IV", blue=True))["draw"][2] == "7x"


# ---- As data -------------------------------------------------------------------------------


def data(capsys: pytest.CaptureFixture[str], *words: str) -> dict[str, dict[str, list[str]]]:
    """For each chord its notes by tab: pitch, degree and verdict."""
    assert main(["chords", *words, "--json"]) == 0
    return {
        chord["chord"]: {
            note["tab"]: [note["pitch"], note["degree"], note["verdict"]] for note in chord["notes"]
        }
        for chord in json.loads(capsys.readouterr().out)
    }


def test_notes_as_data(capsys: pytest.CaptureFixture[str]) -> None:
    found = data(capsys)
    assert found["I7"]["3d'"] == ["Bb4", "b3", "idiomatic"]
    assert found["IV7"]["3d"] == ["B4", "7", "avoid"]
    assert found["V7"]["5d"] == ["F5", "b3", "idiomatic"]
    assert found["V7"]["2d'"] == ["F#4", "3", "chord tone"]
    assert len(found["I7"]) == len(list(Harp("C").single_notes()))


def test_a_diminished_seventh_has_a_bb7_and_no_6(capsys: pytest.CaptureFixture[str]) -> None:
    """F#dim7 is F# A C Eb; the same tone is the b7 of F7 and its name there is Eb too."""
    found = data(capsys, str(FOLDER / "diminished.lesson"))
    assert found["#ivdim7"]["8b'"] == ["Eb6", "bb7", "chord tone"]
    assert "6" not in {degree for _, degree, _ in found["#ivdim7"].values()}
    assert found["V+7"]["8b'"] == ["D#6", "#5", "chord tone"]


def test_pitches_are_named_by_their_degree(capsys: pytest.CaptureFixture[str]) -> None:
    """2 draw bent a half step is the #4 of C in theory books, to players the b5: Gb."""
    assert data(capsys)["IV7"]["2d'"] == ["Gb4", "b5", "colour"]


def test_blue_notes_of_the_lesson_count(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    """The same form: with a blue third in the licks, without it, and where it is not one."""
    plain = FOLDER / "plain.lesson"
    without = tmp_path / "without.lesson"
    without.write_text(plain.read_text(encoding="utf-8").replace("3d'", "3d"), encoding="utf-8")
    assert data(capsys, str(plain))["IV"]["3d"][2] == "avoid"
    assert data(capsys, str(without))["IV"]["3d"][2] == "colour"
    # In 1st position 7 draw is the 7 of I, and of G D Bb the last is the b7.
    assert data(capsys, str(plain), "--position", "1st")["I"]["7d"][2] == "avoid"
    assert data(capsys, str(without), "--position", "1st")["I"]["7d"][2] == "colour"


def test_overbends_are_asked_for(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    assert "6ob" not in data(capsys)["I7"]
    assert data(capsys, "--overbends")["I7"]["6ob"] == ["Bb5", "b3", "idiomatic"]
    advanced = tmp_path / "advanced.lesson"
    text = (FOLDER / "diminished.lesson").read_text(encoding="utf-8")
    advanced.write_text(text.replace("beginner", "advanced"), encoding="utf-8")
    assert "6ob" in data(capsys, str(advanced))["I7"]
    assert "3d''" in data(capsys, str(advanced))["I7"]
    assert "3d''" not in data(capsys, str(FOLDER / "diminished.lesson"))["I7"]
