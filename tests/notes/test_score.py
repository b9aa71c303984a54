"""Melodies out of MusicXML, written by the general music library and read back."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest

from formsheet.music.key import Key
from formsheet.notes.melody import Melody, NotesError
from formsheet.notes.quantise import quantised
from formsheet.notes.score import read_score

#: The general music library that writes the files of these tests.
M21: Any = pytest.importorskip("music21")


def part(*notes: Any, time: str = "4/4", signature: Any = None, name: str = "") -> Any:
    made = M21.stream.Part()
    made.partName = name
    made.append(M21.meter.TimeSignature(time))
    if signature is not None:
        made.append(signature)
    for each in notes:
        made.append(each)
    return made


def n(name: str, quarters: float | Fraction = 1) -> Any:
    return M21.note.Note(name.replace("b", "-"), quarterLength=quarters)


def score(path: Path, *parts: Any, title: str = "") -> Path:
    made = M21.stream.Score()
    made.metadata = M21.metadata.Metadata()
    made.metadata.title = title
    for each in parts:
        made.insert(0, each)
    made.write("musicxml", path)
    return path


def melody(path: Path) -> Melody:
    return quantised(read_score(path))


def tones(found: Melody) -> Any:
    return [(t.midi, t.start, t.end) for t in found.tones]


def said(found: Melody) -> set[str]:
    return {each.kind for each in found.said}


@pytest.fixture
def path(tmp_path: Path) -> Path:
    return tmp_path / "a.musicxml"


def test_a_plain_score(path: Path) -> None:
    line = part(n("G4"), n("D5", 1.5), n("C5", 0.5), n("Bb4"), signature=M21.key.Key("g"))
    line.insert(0, M21.tempo.MetronomeMark(number=96))
    found = melody(score(path, line, title="Fence Post"))
    assert tones(found) == [((67,), 0, 1), ((74,), 1, 2.5), ((72,), 2.5, 3), ((70,), 3, 4)]
    assert (found.title, found.key) == ("Fence Post", Key("G", True))
    assert found.tempo == 96
    assert said(found) == set()


def test_ties_over_bars_and_triplets(path: Path) -> None:
    third = Fraction(1, 3)
    line = part(
        n("G4", 3), n("A4", 2), *(n(name, third) for name in ("B4", "C5", "D5")), n("G4", 2)
    )
    assert tones(melody(score(path, line))) == [
        ((67,), 0, 3),
        ((69,), 3, 5),
        ((71,), 5, 5 + third),
        ((72,), 5 + third, 5 + 2 * third),
        ((74,), 5 + 2 * third, 6),
        ((67,), 6, 8),
    ]


def test_a_pickup(path: Path) -> None:
    line = M21.stream.Part()
    first = M21.stream.Measure(number=0)
    first.append([M21.meter.TimeSignature("3/4"), n("D5")])
    first.paddingLeft = 2
    second = M21.stream.Measure(number=1)
    second.append(n("G5", 3))
    line.append([first, second])
    assert [t.start for t in melody(score(path, line)).tones] == [-1, 0]


def test_a_signature_without_a_mode(path: Path) -> None:
    found = melody(score(path, part(n("E4", 4), signature=M21.key.KeySignature(1))))
    assert found.key in (None, Key("G", False))  # the format itself may add a mode
    assert found.signature in (None, 1)


def test_chords_chord_names_and_graces(path: Path) -> None:
    grace = M21.note.Note("F5")
    grace = grace.getGrace()
    line = part(M21.chord.Chord(["G4", "B4"], quarterLength=2), grace, n("C5", 2))
    line.insert(0, M21.harmony.ChordSymbol("G7"))
    found = melody(score(path, line))
    assert tones(found) == [((67, 71), 0, 2), ((72,), 2, 4)]
    assert "graces" in said(found)


def test_the_highest_part_and_voice(path: Path) -> None:
    low = part(n("C3", 4), name="Bass")
    low.insert(0, M21.clef.BassClef())
    measure = M21.stream.Measure(number=1)
    measure.append(M21.meter.TimeSignature("4/4"))
    upper, lower = M21.stream.Voice(), M21.stream.Voice()
    upper.append([n("C5", 2), n("D5", 2)])
    lower.append([n("E4", 1), n("F4", 3)])
    measure.insert(0, lower)
    measure.insert(0, upper)
    high = M21.stream.Part()
    high.append(measure)
    found = melody(score(path, low, high))
    assert [t.midi[0] for t in found.tones] == [72, 74]
    assert {"highest-part", "voices"} <= said(found)


def test_a_harmonica_below(path: Path) -> None:
    reeds = part(n("C4", 4), name="Harmonica")
    reeds.insert(0, M21.instrument.Harmonica())
    found = melody(score(path, part(n("C6", 4), name="Fiddle"), reeds))
    assert found.tones[0].midi == (60,)


def test_short_values_are_rounded_and_told(path: Path) -> None:
    line = part(n("C5", 0.125), n("D5", 0.125), n("E5", 0.75), n("F5", 3))
    found = melody(score(path, line))
    assert "onsets" in said(found)


def test_a_meter_without_a_place(path: Path) -> None:
    with pytest.raises(NotesError, match="a lesson cannot be in 5/4"):
        melody(score(path, part(n("C5", 5), time="5/4")))


def test_what_is_no_score(path: Path) -> None:
    path.write_text("<html/>", encoding="utf-8")
    with pytest.raises(NotesError):
        melody(path)


def test_a_score_of_rests(path: Path) -> None:
    with pytest.raises(NotesError, match="no note"):
        melody(score(path, part(M21.note.Rest(quarterLength=4))))
