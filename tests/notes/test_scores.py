"""What scores have beside notes: chords, swing, bars that are not full, parts, instruments."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pytest

from formsheet.cli import main
from formsheet.music.key import Key
from formsheet.music.swing import STRAIGHT, SWING, Feel
from formsheet.notes.bars import in_bars
from formsheet.notes.melody import Melody, NotesError, Reading
from formsheet.notes.quantise import quantised
from formsheet.notes.score import read_score
from tests.helpers import examined, told
from tests.notes.score_texts import attributes, blues, chord, note, notes, score

FOUR = "G4 B4 D5 B4"


@pytest.fixture
def path(tmp_path: Path) -> Path:
    return tmp_path / "a.musicxml"


def tab(capsys: pytest.CaptureFixture[str], *words: str) -> tuple[int, str, str]:
    status = main(["tab", *words])
    out, err = capsys.readouterr()
    return status, out, err


def said(found: Reading | Melody) -> dict[str, object]:
    return {each.kind: dict(each.facts) for each in found.said}


def starts(found: Reading | Melody) -> list[Fraction]:
    return [tone.start for tone in found.tones]


# ---- Chords ------------------------------------------------------------------------------------


def test_chord_symbols_are_the_form(path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    _, out, err = tab(capsys, str(blues(path)), "--lesson")
    assert "form      12-bar standard\n" in out
    assert "position  2nd\n" in out
    assert "key of G, by its chords, which are a blues in it" in err
    assert "error" not in told(examined(out).problems)


def test_a_lick_for_each_chord_and_repeats(path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    _, out, _ = tab(capsys, str(blues(path)), "--lesson", "--name", "mill")
    assert [line for line in out.splitlines() if line.startswith(("lick", "turn", "  bar"))] == [
        "lick mill-one on I",
        "lick mill-four on IV",
        "lick mill-five on V",
        "turnaround mill-home on I | V",
        "  bars 1-4     mill-one x4",
        "  bars 5-6     mill-four x2",
        "  bars 7-8     mill-one x2",
        "  bar 9        mill-five",
        "  bar 10       mill-four",
        "  bars 11-12   mill-home",
    ]


def test_a_blues_signed_as_c(path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Many programs write the signature of C where none was chosen."""
    _, out, err = tab(capsys, str(blues(path, fifths=0)), "--lesson")
    assert "harp      C\nposition  2nd" in out
    assert "(the file says C)" in err


def test_triads_stay_triads(path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    _, out, _ = tab(capsys, str(blues(path, 1, "major")), "--lesson")
    assert "  | I  | I  | I | I |" in out or "| I | I | I | I |" in out
    assert "I7" not in out


def test_a_form_that_is_given(path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    score(path, [(attributes("4/4", 1, "major") if not n else "") + notes(FOUR) for n in range(12)])
    _, out, _ = tab(capsys, str(path), "--lesson", "--form", "12-bar quick-change")
    assert "form      12-bar quick-change" in out
    assert "  bars 1-12" not in out


def test_two_choruses(path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    blues(path)
    once = path.read_text(encoding="utf-8")
    measures = once[once.index("<measure") : once.rindex("</part>")]
    path.write_text(once.replace(measures, measures * 2), encoding="utf-8")
    _, out, _ = tab(capsys, str(path), "--lesson")
    assert "play x2" in out
    assert "form      12-bar standard" in out


def test_chords_that_do_not_fit_the_bar_are_said(path: Path) -> None:
    bar = chord("G") + chord("C", offset=1) + chord("D", offset=2) + chord("G", offset=3)
    found = quantised(read_score(score(path, [attributes() + bar + notes(FOUR)])))
    assert len(found.chords) == 4


def test_the_chord_over_a_chosen_bar_is_the_one_in_force(
    path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    measures = [attributes("4/4", 1, "major") + chord("G") + notes(FOUR), notes(FOUR),
                chord("C") + notes(FOUR), notes(FOUR)]  # fmt: skip
    _, out, _ = tab(capsys, str(score(path, measures)), "--bars", "2-3")
    assert "on I | IV" in out


# ---- Swing -------------------------------------------------------------------------------------

_WORDS = "<direction><direction-type><words>{}</words></direction-type></direction>"
_SOUND = "<direction><sound><swing>{}</swing></sound></direction>"


@pytest.mark.parametrize(
    ("mark", "feel"),
    [
        (_SOUND.format("<first>2</first><second>1</second>"), SWING),
        (_SOUND.format("<first>3</first><second>2</second>"), Feel(Fraction(3, 5))),
        (_SOUND.format("<straight/>"), STRAIGHT),
        (_SOUND.format("<first>2</first><second>1</second><swing-type>16th</swing-type>"),
         STRAIGHT),
        ("<sound><swing><first>2</first><second>1</second></swing></sound>", SWING),
        (_WORDS.format("Medium Swing"), SWING),
        (_WORDS.format("Slow shuffle"), SWING),
        (_WORDS.format("Straight 8ths"), STRAIGHT),
        ("<direction><direction-type><metronome><metronome-note/><metronome-relation/>"
         "<metronome-note><metronome-tuplet/></metronome-note></metronome></direction-type>"
         "</direction>", SWING),
    ],
)  # fmt: skip
def test_swing(mark: str, feel: Feel, path: Path) -> None:
    """MusicXML 4.0, `swing`; the words are common practice, no source."""
    found = quantised(read_score(score(path, [attributes() + mark + notes(FOUR)])))
    assert found.feel == feel


def test_swing_that_stops(path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    swing, straight = (_SOUND.format(each) for each in
                       ("<first>2</first><second>1</second>", "<straight/>"))  # fmt: skip
    measures = [attributes("4/4", 1, "major") + swing + notes(FOUR), straight + notes(FOUR),
                swing + notes(FOUR)]  # fmt: skip
    _, out, _ = tab(capsys, str(score(path, measures)))
    assert "feel      swing" in out
    assert "straight" in out.split("lick")[1]
    assert "swing" in out.split("straight")[1]


# ---- Bars --------------------------------------------------------------------------------------


def test_a_bar_in_two_halves(path: Path) -> None:
    measures = [attributes() + notes(FOUR), notes("G4 B4"), '@number="X1" implicit="yes"@'
                + notes("D5 B4"), notes("A4:4")]  # fmt: skip
    found = quantised(read_score(score(path, measures)))
    assert starts(found) == [*range(8), 8]
    assert "short-bars" not in said(found)


def test_a_short_bar_is_filled_and_said(path: Path) -> None:
    measures = [attributes() + notes(FOUR), notes("G4 B4 D5"), notes("A4:4")]
    found = quantised(read_score(score(path, measures)))
    assert starts(found)[-1] == 8
    assert said(found)["short-bars"] == {"numbers": ["2"]}


@pytest.mark.parametrize(
    ("meters", "places"),
    [
        (("1/4", "4/4", "4/4"), [-1, 0, 4]),
        (("4/4", "4/4", "3/4"), [0, 4, 8]),
        (("4/4", "3/4", "1/4", "4/4", "4/4"), [0, 4, 7, 8, 12]),
    ],
)
def test_a_part_of_a_bar_in_a_meter_of_its_own(
    meters: tuple[str, ...], places: list[int], path: Path
) -> None:
    measures = [attributes(each) + notes(f"G4:{each[0]}") for each in meters]
    assert starts(quantised(read_score(score(path, measures)))) == places


def test_a_pickup_and_its_last_bar(path: Path) -> None:
    measures = [attributes() + notes("D5"), notes(FOUR), notes("G4:3")]
    found = quantised(read_score(score(path, measures, first=0)))
    assert starts(found) == [-1, 0, 1, 2, 3, 4]
    assert not said(found)


@pytest.mark.parametrize(("bars", "first"), [((1, 1), -1), ((2, 2), 0)])
def test_bars_count_as_the_score_does(bars: tuple[int, int], first: int, path: Path) -> None:
    """A pick-up belongs to bar 1."""
    measures = [attributes() + notes("D5"), notes(FOUR), notes("G4:4"), notes("B4:4")]
    found = in_bars(read_score(score(path, measures, first=0)), bars)
    assert starts(found)[0] == first
    assert len(found.tones) == (5 if first else 1)


def test_bars_that_are_not_there(path: Path) -> None:
    score(path, [attributes() + notes(FOUR)])
    with pytest.raises(NotesError, match="the file has no bars 5-6; it has 1 to 1"):
        in_bars(read_score(path), (5, 6))


def test_nine_eight_in_triplets(path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    bar = "G4:0.5 A4:0.5 B4:0.5 D5:1 B4:0.5 G4:1.5"
    _, out, err = tab(capsys, str(score(path, [attributes("9/8", 1, "major") + notes(bar)])))
    assert "meter     3/4" in out
    assert "e3 4b 4d 5b  q3 6b  e3 5b  q 4b" in out
    assert "9/8 is written as 3/4, its eighths as triplets" in err


@pytest.mark.parametrize(
    ("meter", "bar", "places"),
    [
        ("4/2", "G4:2 B4:2 D5:4", [0, 1, 2]),
        ("3/2", "G4:2 B4:4", [0, 1]),
        ("4/1", "G4:4 B4:4 D5:8", [0, 1, 2]),
        ("3/1", "G4:4 B4:8", [0, 1]),
    ],
)
def test_long_values_in_shorter_ones(meter: str, bar: str, places: list[int], path: Path) -> None:
    found = quantised(read_score(score(path, [attributes(meter) + notes(bar)])))
    assert starts(found) == places
    assert found.meter.text == f"{meter[0]}/4"


def test_doubled_values_keep_thirty_seconds(path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    bar = "G4:0.125 A4:0.125 B4:0.125 D5:0.125 G4:3 D5:0.5"
    score(path, [attributes("4/4", 1, "major") + notes(bar)])
    assert "rounded" in tab(capsys, str(path))[2]
    _, out, err = tab(capsys, str(path), "--double")
    assert "s 4b 4d 5b 6b" in out
    assert "rounded" not in err
    assert "in doubled values: a bar of the source is two bars" in err


# ---- Parts and voices --------------------------------------------------------------------------


def test_a_part_for_b_flat_sounds_a_step_lower(
    path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    down = "<transpose><diatonic>-1</diatonic><chromatic>-2</chromatic></transpose>"
    measures = [attributes("4/4", 3, "major", down) + chord("A") + notes("A4 C#5 E5 A5")]
    found = read_score(score(path, measures))
    assert [tone.midi for tone in found.tones] == [(67,), (71,), (74,), (79,)]
    assert found.key == Key("G", False)
    assert found.chords[0][1].root == "G"
    assert "a second down from what is written" in tab(capsys, str(path))[2]


def test_parts_by_name(path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    high, low = ([attributes("4/4", 1, "major") + notes(each)] for each in
                 ("G5 B5 D6 B5", FOUR))  # fmt: skip
    score(path, high, low, names=["Flute", "Guitar"])
    _, _, err = tab(capsys, str(path))
    assert "of 2 parts the highest is used (Flute); --part takes 1 (Flute), 2 (Guitar)" in err
    for name in ("guitar", "2", "Gui"):
        _, _, err = tab(capsys, str(path), "--part", name)
        assert "highest" not in err
    status, _, err = tab(capsys, str(path), "--part", "Oboe")
    assert status == 2
    assert 'no part is named "Oboe"; --part takes 1 (Flute), 2 (Guitar)' in err


@pytest.mark.parametrize("name", ["Harmonica", "Blues Harp", "Mundharmonika", "Lead vocal"])
def test_names_that_have_the_melody(name: str, path: Path) -> None:
    high, low = ([attributes() + notes(each)] for each in ("G5 B5 D6 B5", FOUR))
    found = read_score(score(path, high, low, names=["Flute", name]))
    assert found.tones[0].midi == (67,)


def test_one_voice_is_followed(path: Path) -> None:
    """The upper voice rests where the lower one goes above it."""
    back = "<backup><duration>96</duration></backup>"
    low = "<voice>2</voice>"
    first = notes(FOUR) + back + note("C4", 4, inside=low)
    second = notes("G4:2 -:2") + back + note("C4", 2, inside=low) + note("C6", 2, inside=low)
    found = read_score(score(path, [attributes() + first, second]))
    assert [tone.midi[0] for tone in found.tones] == [67, 71, 74, 71, 67]
    assert said(found)["voices"] == {"count": 2, "notes": 3}


def test_what_is_lost_is_said(path: Path) -> None:
    grace = "<note><grace/><pitch><step>G</step><octave>4</octave></pitch></note>"
    half_flat = (
        "<note><pitch><step>B</step><alter>-0.5</alter><octave>4</octave></pitch>"
        "<duration>24</duration><lyric><text>la</text></lyric></note>"
    )
    found = read_score(score(path, [attributes() + grace + half_flat + notes("G4:3")]))
    assert {"graces", "quarter-tones", "lyrics"} <= set(said(found))
    assert found.tones[0].midi == (70,)


def test_a_file_arranged_by_time(path: Path) -> None:
    """MusicXML 4.0, `score-timewise`."""
    bar = attributes() + notes(FOUR)
    path.write_text(
        f"<score-timewise><measure number='1'><part id='P1'>{bar}</part></measure>"
        f"<measure number='2'><part id='P1'>{notes('G4:4')}</part></measure></score-timewise>",
        encoding="utf-8",
    )
    assert starts(read_score(path)) == [0, 1, 2, 3, 4]


# ---- Harps and keys ----------------------------------------------------------------------------


def test_a_blues_in_c_is_an_f_harp_in_second_position_first(
    capsys: pytest.CaptureFixture[str],
) -> None:
    line = (
        "q C4 Eb4 E4 G4 | Bb4 G4 Eb4 C4 | C4 E4 G4 Bb4 | h C4 C4 | q F4 A4 C5 Eb5 | C5 A4 F4 - | "
    )
    line += "C4 Eb4 E4 G4 | Bb4 G4 Eb4 C4 | G4 B4 D5 F5 | F4 A4 C5 A4 | C4 Eb4 E4 G4 | h C4 -"
    _, out, err = tab(capsys, line)
    assert out.startswith("harp      F\nposition  2nd\n")
    assert "a blues: 2nd position comes first, then 3rd and 1st" in err
    rows = [row for row in err.splitlines() if row.startswith(("1.", "2.", "3."))]
    assert [row.split()[2] for row in rows][:2] == ["2nd", "3rd"], err


def test_low_harps_where_the_octave_is_fixed(capsys: pytest.CaptureFixture[str]) -> None:
    line = "q F3 A3 C4 F4 A4 C5 F5 C5"
    _, out, err = tab(capsys, line, "--key", "F", "--position", "1st")
    assert "a low F harp sounds it where it was" in err
    _, out, _ = tab(capsys, line, "--key", "F", "--position", "1st", "--octave", "0")
    assert out.startswith("harp      low F\n")
