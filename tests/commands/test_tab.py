"""`formsheet tab` from the command line."""

from __future__ import annotations

from contextlib import redirect_stderr, redirect_stdout
from io import StringIO
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from formsheet.cli import main
from formsheet.problems.problem import has_errors
from tests.helpers import examined, told
from tests.notes.midi_files import midi_file

PLAIN = "q G4 B4 D5 E5 | h D5 B4 | e A4 G4 B4 A4 h G4"
BLUE = "q G4 | e D5 Bb4 C5 Db5 q D5 F5 | e F5 D5 C5 Bb4 h G4"


def run(capsys: pytest.CaptureFixture[str], *words: str) -> tuple[int, str, str]:
    status = main(["tab", *words])
    out, err = capsys.readouterr()
    return status, out, err


def test_a_plain_melody(capsys: pytest.CaptureFixture[str]) -> None:
    status, out, err = run(capsys, PLAIN)
    assert status == 0
    assert out == (
        "harp      G\nposition  1st\nmeter     4/4\n\n"
        "lick melody on I\n"
        "  q 4b 5b 6b 6d  |  h 6b 5b  |  e 4d 4b 5b 4d  h 4b\n"
    )
    lines = err.splitlines()
    assert lines[0] == "key of G, found from the notes (next best: B minor); --key says otherwise"
    assert lines[1] == "G harp, 1st position, key of G; sounds where it was"
    assert len(lines) == 9  # and a table of six


def test_a_blue_one_on_a_harp_that_is_at_hand(capsys: pytest.CaptureFixture[str]) -> None:
    status, out, err = run(capsys, BLUE, "--harp", "C")
    assert status == 0
    assert "position  2nd" in out
    assert "pickup q 2d\n  e 4d 3d' 4b 4d'  q 4d 5d  |  e 5d 4d 4b 3d'  h 2d" in out
    assert "\n" not in err.strip().split("sounds where it was")[1]


def test_a_position(capsys: pytest.CaptureFixture[str]) -> None:
    _, out, _ = run(capsys, BLUE, "--position", "3rd")
    assert out.startswith("harp      F\nposition  3rd\n")


def test_harp_and_position_move_the_key(capsys: pytest.CaptureFixture[str]) -> None:
    _, out, err = run(capsys, PLAIN, "--harp", "C", "--position", "1st")
    assert "q 4b 5b 6b 6d" in out
    assert "sounds a fourth up, then where it was" in err


def test_what_cannot_be_played(capsys: pytest.CaptureFixture[str]) -> None:
    status, _, err = run(capsys, BLUE, "--position", "1st", "--octave", "0")
    assert status == 1
    assert "bar 1, beat 1 1/2: Bb4 is not on this harp" in err


def test_a_lesson_that_checks(capsys: pytest.CaptureFixture[str]) -> None:
    _, out, _ = run(capsys, BLUE, "--lesson", "--name", "fence", "--key", "Gm")
    assert told(examined(out).problems) == "no problems"
    assert "| i | i |" in out


def test_a_midi_file(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    path = midi_file(tmp_path / "gate.mid", [(67, 0, 1), (71, 1, 2), (74, 2, 4)], key="G")
    status, out, err = run(capsys, str(path), "--bars", "1")
    assert status == 0
    assert 'lick melody "gate" on I\n  q 4b 5b  h 6b\n' in out
    assert "key of G, as the file says" in err


def test_a_score(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    converter: Any = pytest.importorskip("music21").converter
    path = tmp_path / "gate.musicxml"
    converter.parse("tinynotation: 3/4 g4 b4 d'4 g'2.").write("musicxml", path)
    _, out, _ = run(capsys, str(path), "--key", "G")
    assert "q 4b 5b 6b  |  h. 7b" in out


def test_a_file(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    path = tmp_path / "a.licks"
    assert run(capsys, PLAIN, "--out", str(path))[0] == 0
    assert run(capsys, PLAIN, "--out", str(path))[0] == 2
    assert "lick melody on I" in path.read_text(encoding="utf-8")


OLD = "Harp in A\n\n-2 -3' 4 -4'\nrain on the gate\n4 -3' -2\n"


@pytest.fixture
def old(tmp_path: Path) -> str:
    path = tmp_path / "gate.txt"
    path.write_text(OLD, encoding="utf-8")
    return str(path)


def test_old_tab(capsys: pytest.CaptureFixture[str], old: str) -> None:
    status, out, err = run(capsys, old)
    assert status == 0
    assert out.startswith("harp      A\nposition  2nd\n")
    assert "q 2d 3d' 4b 4d'  |  4b 3d' 2d -" in out
    assert "read as `minus` (-4 draw, 4 blow); --shorthand says otherwise" in err
    assert "left out as words: lines 1 and 4" in err
    assert err.count("old tab has no rhythm") == 1
    assert "for the A harp, as the tab says" in err


def test_old_tab_in_a_rhythm(capsys: pytest.CaptureFixture[str], old: str) -> None:
    _, out, err = run(capsys, old, "--in", "q x e x x - x q x", "--harp", "C", "--lesson")
    assert "q 2d  e 3d' 4b - 4d'  q 4b  |  3d'  e 2d - -" in out or "q 2d  e 3d' 4b -" in out
    assert "harp      C" in out
    assert "no rhythm" not in err
    assert not has_errors(examined(out).problems)


@pytest.mark.parametrize("text", ["-4 4 -5 5", "4D 4B 5D 5B", "4↓ 4↑ 5↓ 5↑", "+4 -4 +5 -5"])
def test_old_tab_on_the_command_line(capsys: pytest.CaptureFixture[str], text: str) -> None:
    status, out, err = run(capsys, text)
    assert (status, "d" in out) == (0, True), err
    assert "the tab names no harp: C is used; --harp says otherwise" in err


def test_draw_and_blow_of_a_file_are_not_the_notes_d_and_b(
    capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    path = tmp_path / "a.txt"
    path.write_text("D4 B4 D3 D2", encoding="utf-8")
    assert "letters-first" in run(capsys, str(path))[2]
    path.write_text("q G4 B4 D5 B4", encoding="utf-8")
    assert "q 4b 5b 6b 5b" in run(capsys, str(path))[1]


@pytest.mark.parametrize("encoding", ["utf-8-sig", "utf-16", "cp1252"])
def test_encodings(capsys: pytest.CaptureFixture[str], encoding: str, tmp_path: Path) -> None:
    path = tmp_path / "a.txt"
    path.write_bytes("été\n-2 –3 4".encode(encoding))
    assert "q 2d 3d 4b" in run(capsys, str(path))[1]


@pytest.mark.parametrize(
    ("words", "message"),
    [
        (("4 5 6",), "nothing shows which notes are draw"),
        (("-4 4 -4 (4)",), "may be left out? "),
        (("-4 4", "--in", "q x y"), "y is no mark of a rhythm"),
        (("-4 4", "--in", "q - -"), "has no x"),
        (("-4 4", "--in", " x" * 501), "501 marks; 500 at most"),
        (("-4 4", "--octave", "1"), "old tab stays as it is"),
        (("-4 4", "--shorthand", "letters"), "no tab in the shorthand `letters`"),
        (("-4 4", "--columns", "x"), '"x" is not a number of columns'),
        (("-4 4", "--part", "2"), "--part is for MIDI and MusicXML files"),
        (("gone.txt",), "file not found: gone.txt"),
        (("B4 D4 B4",), "is this blow and draw, or the notes B and D?"),
    ],
)
def test_old_tab_asks(
    capsys: pytest.CaptureFixture[str], words: tuple[str, ...], message: str
) -> None:
    status, out, err = run(capsys, *words)
    assert (status, out, message in err) == (2, "", True), err


@pytest.mark.parametrize(
    ("words", "message"),
    [
        (("q H4",), "H4 is B4 here; write B4"),
        (("gone.mid",), "file not found: gone.mid"),
        ((PLAIN, "--bars", "9-4"), '"9-4" is not a range of bars'),
        ((PLAIN, "--bars", "9"), "the melody has 3 bars"),
        (("w C4" + " =" * 64, "--lesson"), "take a part with --bars"),
        ((PLAIN, "--key", "H"), '"H" is not a key; write B'),
        ((PLAIN, "--meter", "5/4"), "a lesson cannot be in 5/4"),
        ((PLAIN, "--name", "rest"), '"rest" cannot be the name of a lick'),
        ((PLAIN, "--harp", "H"), "no harp is stamped `H`"),
    ],
)
def test_usage(capsys: pytest.CaptureFixture[str], words: tuple[str, ...], message: str) -> None:
    status, _, err = run(capsys, *words)
    assert (status, message in err) == (2, True), err


VALUES = ["q", "e3", "s", "w", "h.", "q..."]
PITCHES = ["C5", "G4", "Bb4", "F#9", "C-1", "G4+B4", "G4+A4+C#5", "H", "4d", "x"]
words = st.sampled_from([*VALUES, *PITCHES, "-", "=", "|", "||", "é"])


@settings(max_examples=80, derandomize=True, deadline=None, database=None)
@given(st.lists(words, max_size=12), st.sampled_from([(), ("--lesson",), ("--harp", "C")]))
def test_any_words_give_a_lick_or_a_message(notes: list[str], options: tuple[str, ...]) -> None:
    with redirect_stdout(StringIO()) as out, redirect_stderr(StringIO()) as err:
        status = main(["tab", " ".join(["q", *notes]), *options])
    assert status in (0, 1, 2)
    assert err.getvalue()
    if status < 2:
        assert "lick melody on" in out.getvalue()
    if status < 2 and options == ("--lesson",):
        assert not has_errors(examined(out.getvalue()).problems), out.getvalue()
