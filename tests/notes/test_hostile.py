"""Files that are broken, huge or made to hurt: refused or read in a moment, never a crash.

Each refusal is one sentence that says what to do. The limits are our own choice.
"""

from __future__ import annotations

import re
import resource
import struct
import time
import zipfile
from collections.abc import Callable
from pathlib import Path

import pytest

from formsheet.cli import main
from tests.notes.score_texts import attributes, chord, note, notes, part, score

FOUR = "G4 B4 D5 B4"


def smf(*tracks: bytes, division: int = 480, kind: int = 1) -> bytes:
    """A MIDI file of these tracks."""
    head = b"MThd" + struct.pack(">IHHh", 6, kind, len(tracks), division)
    return head + b"".join(b"MTrk" + struct.pack(">I", len(each)) + each for each in tracks)


def number(value: int) -> bytes:
    """A number of variable length."""
    found = bytes([value & 0x7F])
    while value := value >> 7:
        found = bytes([value & 0x7F | 0x80]) + found
    return found


def struck(pitch: int, after: int = 0, length: int = 480) -> bytes:
    """A note on channel 1."""
    return number(after) + bytes([0x90, pitch, 80]) + number(length) + bytes([0x80, pitch, 0])


END = b"\x00\xff\x2f\x00"
LONG_SILENCE = 0x0FFFFFFF  # the longest that a number of variable length can say


def far_apart(path: Path) -> None:
    path.write_bytes(smf(b"".join(struck(67, LONG_SILENCE) for _ in range(9)) + END))


def endless_note(path: Path) -> None:
    path.write_bytes(smf(struck(67, 0, LONG_SILENCE) * 9 + END, division=1))


def one_tick(path: Path) -> None:
    path.write_bytes(smf(struck(67, 0, 1) * 4 + END, division=32767))


def endless_number(path: Path) -> None:
    path.write_bytes(smf(struck(67) + b"\xff" * 400_000))


def cut_off(path: Path) -> None:
    path.write_bytes(smf(struck(67) * 8 + END)[:-20])


def in_seconds(path: Path) -> None:
    path.write_bytes(smf(struck(67) + END, division=-6360))


def no_division(path: Path) -> None:
    path.write_bytes(smf(struck(67) + END, division=0))


def patterns(path: Path) -> None:
    path.write_bytes(smf(struck(67) + END, kind=2))


def many_tracks(path: Path) -> None:
    path.write_bytes(smf(*[struck(67) + END] * 300))


def too_large_midi(path: Path) -> None:
    path.write_bytes(smf(struck(67) * 140_000 + END))


def full_midi(path: Path) -> None:
    path.write_bytes(smf(struck(67, 0, 60) * 140_000 + END)[:499_000])


def zero_meter(path: Path) -> None:
    meter = b"\x00\xff\x58\x04\x00\x02\x18\x08"
    path.write_bytes(smf(meter + struck(67) * 4 + END))


def tiny_meter(path: Path) -> None:
    path.write_bytes(smf(b"\x00\xff\x58\x04\x01\xff\x18\x08" + struck(67) * 4 + END))


def drums_alone(path: Path) -> None:
    path.write_bytes(smf(b"\x00\x99\x23\x50\x60\x89\x23\x00" + END))


def no_midi(path: Path) -> None:
    path.write_bytes(b"RIFF of nothing")


def empty(path: Path) -> None:
    path.write_bytes(b"")


def bomb(path: Path) -> None:
    with (
        zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED) as archive,
        archive.open("score.xml", "w") as file,
    ):
        for _ in range(64):
            file.write(b" " * 1_000_000)


def liar(path: Path) -> None:
    """An archive that says less of its size than there is."""
    bomb(path)
    data = path.read_bytes()
    size = struct.pack("<I", 64_000_000)
    assert size in data
    path.write_bytes(data.replace(size, struct.pack("<I", 1000)))


def many_members(path: Path) -> None:
    with zipfile.ZipFile(path, "w") as archive:
        for each in range(500):
            archive.writestr(f"{each}.xml", "<a/>")


def no_score_inside(path: Path) -> None:
    with zipfile.ZipFile(path, "w") as archive:
        archive.writestr("readme", "nothing")


def broken_zip(path: Path) -> None:
    path.write_bytes(b"PK\x03\x04 and so on")


def laughs(path: Path) -> None:
    lines = ['<!DOCTYPE a [<!ENTITY a0 "ha">']
    lines += [f'<!ENTITY a{n} "{f"&a{n - 1};" * 10}">' for n in range(1, 9)]
    path.write_text("".join(lines) + "]><a>&a8;</a>", encoding="utf-8")


def outside(path: Path) -> None:
    path.write_text('<!DOCTYPE a [<!ENTITY x SYSTEM "file:///etc/passwd">]><a>&x;</a>', "utf-8")


def deep(path: Path) -> None:
    path.write_text("<score-partwise>" + "<a>" * 100_000, encoding="utf-8")


def too_large_score(path: Path) -> None:
    path.write_text("<score-partwise>" + " " * 8_000_000 + "</score-partwise>", encoding="utf-8")


def other_xml(path: Path) -> None:
    path.write_text("<html><body>no score</body></html>", encoding="utf-8")


def half_xml(path: Path) -> None:
    score(path, [attributes() + notes(FOUR)])
    path.write_bytes(path.read_bytes()[:-40])


def not_utf8(path: Path) -> None:
    path.write_bytes(b'<?xml version="1.0" encoding="UTF-8"?><score-partwise>\xff\xfe')


def many_bars(path: Path) -> None:
    score(path, [attributes() + notes(FOUR), *[notes("G4:4")] * 4500])


def over_800_bars(path: Path) -> None:
    score(path, [attributes() + notes(FOUR), *[notes("G4:4")] * 800])


def many_notes(path: Path) -> None:
    score(path, [attributes() + notes(FOUR), *[notes("G4:0.5 B4:0.5 " * 4)] * 400])


def changing(path: Path) -> None:
    score(path, [attributes() + notes(FOUR), notes(FOUR), attributes("3/4") + notes("G4:3"),
                 notes("B4:3")])  # fmt: skip


def five_four(path: Path) -> None:
    score(path, [attributes("5/4") + notes("G4:5")])


def overfull(path: Path) -> None:
    score(path, [attributes() + notes(FOUR), notes("G4:5"), notes(FOUR)])


def odd_numbers(path: Path) -> None:
    wild = "<attributes><divisions>-3</divisions><key><fifths>99</fifths></key></attributes>"
    score(
        path,
        [
            attributes("4/4")
            + wild
            + "<note><pitch><step>H</step><octave>4</octave></pitch><duration>24</duration></note>"
            + "<note><pitch><step>C</step><octave>99</octave></pitch><duration>24</duration></note>"
            + "<note><pitch><step>C</step></pitch><duration>24</duration></note>"
            + notes("G4:1e9 G4:1")
        ],
    )


def endless_duration(path: Path) -> None:
    long = f"<note><rest/><duration>{10**30}</duration></note>"
    score(path, [attributes() + notes(FOUR) + long])


def long_backup(path: Path) -> None:
    back = "<backup><duration>999999999</duration></backup>"
    score(path, [attributes() + (notes(FOUR) + back) * 50])


def no_notes(path: Path) -> None:
    score(path, [attributes() + notes("-:4")])


def no_measures(path: Path) -> None:
    path.write_text("<score-partwise><part id='P1'/></score-partwise>", encoding="utf-8")


def drums_score(path: Path) -> None:
    hit = "<note><unpitched/><duration>24</duration></note>"
    score(path, [attributes() + hit * 4])


def wild_chords(path: Path) -> None:
    odd = "<harmony><root><root-step>Q</root-step></root><kind>x</kind></harmony>"
    score(path, [attributes() + odd + chord("C", "no-such-kind") + chord("Cb", "power")
                 + notes(FOUR)])  # fmt: skip


def many_parts(path: Path) -> None:
    listed = "".join(part([attributes() + notes(FOUR)], name=f"P{n}") for n in range(300))
    path.write_text(f"<score-partwise>{listed}</score-partwise>", encoding="utf-8")


def one_long_chord(path: Path) -> None:
    more = "".join(note(f"{name}{octave}", 4, "<chord/>") for octave in range(1, 8)
                   for name in "CDEFGAB")  # fmt: skip
    score(path, [attributes() + note("C1", 4) + more])


Maker = Callable[[Path], None]

REFUSED: list[tuple[str, Maker, str]] = [
    ("mid", far_apart, "take a part, such as --bars"),
    ("mid", endless_note, "take a part, such as --bars"),
    ("mid", in_seconds, "counts in seconds"),
    ("mid", no_division, "counts in seconds"),
    ("mid", patterns, "separate patterns"),
    ("mid", many_tracks, "more than 256 tracks"),
    ("mid", too_large_midi, "500 kB at most"),
    ("mid", full_midi, "take a part, such as --bars"),
    ("mid", drums_alone, "has no notes"),
    ("mid", no_midi, "is not a MIDI file"),
    ("mid", empty, "is not a MIDI file"),
    ("mxl", bomb, "64 MB unzipped"),
    ("mxl", liar, "or more unzipped|cannot be unzipped"),
    ("mxl", many_members, "more than 100 files"),
    ("mxl", no_score_inside, "has no score in it"),
    ("mxl", broken_zip, "cannot be unzipped"),
    ("mxl", empty, "is not readable|is empty"),
    ("xml", laughs, "defines entities"),
    ("xml", outside, "defines entities"),
    ("xml", deep, "nests its elements too deep"),
    ("xml", too_large_score, "scores up to 8 MB"),
    ("xml", other_xml, "not a MusicXML score"),
    ("xml", half_xml, "is not readable as MusicXML"),
    ("xml", not_utf8, "is not readable as MusicXML"),
    ("xml", many_bars, "more than 4000 bars"),
    ("xml", over_800_bars, "has 801 bars"),
    ("xml", many_notes, "3204 notes; 2000 at most"),
    ("xml", changing, "the meter changes in bar 3, from 4/4 to 3/4"),
    ("xml", five_four, "bar 1 is in 5/4"),
    ("xml", overfull, "bar 2 has 5 quarters; 4/4 has 4"),
    ("xml", no_notes, "has no notes"),
    ("xml", no_measures, "has no notes"),
    ("xml", drums_score, "has no notes"),
]  # fmt: skip
READ: list[tuple[str, Maker]] = [
    ("mid", one_tick), ("mid", endless_number), ("mid", cut_off), ("mid", zero_meter),
    ("mid", tiny_meter), ("xml", odd_numbers), ("xml", long_backup), ("xml", wild_chords),
    ("xml", many_parts), ("xml", one_long_chord), ("xml", endless_duration),
]  # fmt: skip


def _name(value: object) -> str:
    return getattr(value, "__name__", "-")


@pytest.fixture(autouse=True)
def in_a_moment() -> object:
    began, before = time.process_time(), resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    yield
    assert time.process_time() - began < 5
    assert resource.getrusage(resource.RUSAGE_SELF).ru_maxrss - before < 500_000  # kB


@pytest.mark.parametrize(
    ("suffix", "make", "says"), REFUSED, ids=lambda each: getattr(each, "__name__", "")
)
def test_refused(
    suffix: str, make: Maker, says: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / f"a.{suffix}"
    make(path)
    assert main(["tab", str(path)]) == 2
    out, err = capsys.readouterr()
    assert not out
    assert err.count("\n") == 1
    assert re.search(says, err), err


@pytest.mark.parametrize(("suffix", "make"), READ, ids=_name)
def test_read(suffix: str, make: Maker, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = tmp_path / f"a.{suffix}"
    make(path)
    assert main(["tab", str(path)]) in (0, 1)
    assert "lick melody" in capsys.readouterr().out


@pytest.mark.parametrize(
    ("suffix", "make", "bars"),
    [("xml", over_800_bars, "1-4"), ("xml", changing, "1-2"), ("xml", changing, "3"),
     ("xml", overfull, "3"), ("xml", many_notes, "1-50")],
)  # fmt: skip
def test_bars_come_before_a_refusal(
    suffix: str, make: Maker, bars: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / f"a.{suffix}"
    make(path)
    assert main(["tab", str(path), "--bars", bars]) == 0, capsys.readouterr().err
