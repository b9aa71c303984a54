"""Melodies out of MIDI files: the part, the line, the rhythm, the feel."""

from __future__ import annotations

import random
from fractions import Fraction
from itertools import pairwise
from pathlib import Path
from typing import Any

import pytest

from formsheet.music.key import Key
from formsheet.music.swing import STRAIGHT, SWING
from formsheet.notes.bars import in_bars
from formsheet.notes.melody import Melody, NotesError
from formsheet.notes.midi import read_midi
from formsheet.notes.quantise import quantised
from tests.notes.midi_files import TICKS, Note, midi_file

SCALE: list[Note] = [(60 + step, step, step + 1) for step in (0, 2, 4, 5)]
THIRD = Fraction(1, 3)


def melody(path: Path) -> Melody:
    return quantised(read_midi(path))


def said(found: Melody) -> set[str]:
    return {each.kind for each in found.said}


def fact(found: Melody, kind: str, name: str) -> Any:
    return next(each.facts[name] for each in found.said if each.kind == kind)


def starts(found: Melody) -> list[Fraction]:
    return [tone.start for tone in found.tones]


def test_a_plain_file(tmp_path: Path) -> None:
    found = melody(midi_file(tmp_path / "a.mid", SCALE, key="Gm", tempo=96))
    assert [(t.midi[0], t.start, t.end) for t in found.tones] == SCALE
    assert (found.key, found.title) == (Key("G", True), "a")
    assert found.tempo == 96
    assert said(found) == set()


def test_tempo_in_beats_of_the_meter(tmp_path: Path) -> None:
    assert melody(midi_file(tmp_path / "a.mid", SCALE, meter="6/8", tempo=90)).tempo == 60


def test_a_meter_that_is_written_in_another(tmp_path: Path) -> None:
    found = melody(midi_file(tmp_path / "a.mid", SCALE, meter="2/4"))
    assert (found.meter.text, said(found)) == ("4/4", {"meter"})


def test_no_meter(tmp_path: Path) -> None:
    found = melody(midi_file(tmp_path / "a.mid", SCALE, meter=None))
    assert (found.meter.text, said(found)) == ("4/4", {"no-meter"})


def test_the_highest_of_several_parts(tmp_path: Path) -> None:
    bass: list[Note] = [(midi - 24, start, end) for midi, start, end in SCALE]
    found = melody(midi_file(tmp_path / "a.mid", bass, SCALE))
    assert found.tones[0].midi == (60,)
    assert fact(found, "highest-part", "count") == 2


def test_a_harmonica_below_a_piano(tmp_path: Path) -> None:
    """General MIDI program 23, counted from 1, is the harmonica."""
    above: list[Note] = [(midi + 24, start, end) for midi, start, end in SCALE]
    found = melody(midi_file(tmp_path / "a.mid", above, SCALE, programs=(0, 22)))
    assert found.tones[0].midi == (60,)
    assert "harmonica-part" in said(found)


def test_drums_are_no_part(tmp_path: Path) -> None:
    """General MIDI keeps channel 10, counted from 1, for drums."""
    found = melody(midi_file(tmp_path / "a.mid", [(90, 0, 1)], SCALE, channels=(9, 0)))
    assert len(found.tones) == 4
    assert said(found) == set()


def test_chords_are_kept_and_lower_lines_are_not(tmp_path: Path) -> None:
    notes: list[Note] = [(72, 0, 2), (67, 0, 2), (76, 2, 4), (60, 2, 3), (62, 3, 4)]
    found = melody(midi_file(tmp_path / "a.mid", notes))
    assert [tone.midi for tone in found.tones] == [(67, 72), (76,)]
    assert fact(found, "lower-notes", "count") == 2


def test_silence_before_it_is_left_out(tmp_path: Path) -> None:
    late: list[Note] = [(midi, start + 8, end + 8) for midi, start, end in SCALE]
    found = melody(midi_file(tmp_path / "a.mid", late))
    assert starts(found)[0] == 0
    assert fact(found, "empty-bars", "count") == 2


@pytest.mark.parametrize("seed", range(5))
def test_a_loose_hand_is_rounded_and_told(tmp_path: Path, seed: int) -> None:
    hand = random.Random(seed)
    rhythm = [0, 1, 1.5, 2, 2.75, 3, 4, 4 + 1 / 3, 4 + 2 / 3, 5, 6, 7.5, 8]
    wanted = [Fraction(at).limit_denominator(12) for at in rhythm[:-1]]
    loose = [at + hand.uniform(-0.03, 0.03) for at in rhythm]
    loose[0] = 0.0
    notes: list[Note] = [
        (60 + index, start, end - 0.06) for index, (start, end) in enumerate(pairwise(loose))
    ]
    found = melody(midi_file(tmp_path / "a.mid", notes))
    assert starts(found) == wanted
    assert [t.end for t in found.tones[:-1]] == wanted[1:]
    assert 0 < fact(found, "onsets", "most") < Fraction(4, 100)
    assert fact(found, "triplets", "count") == 1


def test_rests_are_rests(tmp_path: Path) -> None:
    found = melody(midi_file(tmp_path / "a.mid", [(60, 0, 0.5), (62, 1, 1.45), (64, 2, 3)]))
    assert starts(found) == [0, 1, 2]
    assert [t.end for t in found.tones] == [Fraction(1, 2), Fraction(3, 2), 3]


def swung(share: float) -> list[Note]:
    """Two bars of eighths that swing, a triplet among them."""
    notes: list[Note] = []
    for beat in range(6):
        notes += [(60, beat, beat + share), (62, beat + share, beat + 1)]
    return [*notes, *((64 + n, 6 + n * THIRD, 6 + (n + 1) * THIRD) for n in range(3)), (67, 7, 8)]


@pytest.mark.parametrize("share", [0.6, 0.64, 0.58])
def test_swing_is_heard(tmp_path: Path, share: float) -> None:
    found = melody(midi_file(tmp_path / "a.mid", swung(share)))
    assert float(found.feel.share) == pytest.approx(share, abs=0.011)
    assert starts(found)[:4] == [0, Fraction(1, 2), 1, Fraction(3, 2)]
    assert starts(found)[-4:] == [6, 6 + THIRD, 6 + 2 * THIRD, 7]
    assert fact(found, "swing", "beats") == 6


def test_the_triplet_feel(tmp_path: Path) -> None:
    assert melody(midi_file(tmp_path / "a.mid", swung(0.667))).feel == SWING


def test_even_eighths_are_straight(tmp_path: Path) -> None:
    found = melody(midi_file(tmp_path / "a.mid", swung(0.5)))
    assert found.feel == STRAIGHT


@pytest.mark.parametrize("data", [b"", b"MThd", b"not a file", b"MThd" + bytes(40)])
def test_what_is_no_midi(tmp_path: Path, data: bytes) -> None:
    path = tmp_path / "a.mid"
    path.write_bytes(data)
    with pytest.raises(NotesError):
        read_midi(path)


def test_a_meter_that_changes(tmp_path: Path) -> None:
    import mido

    path = midi_file(tmp_path / "a.mid", SCALE)
    file = mido.MidiFile(path)
    meter = mido.MetaMessage("time_signature", numerator=5, denominator=4, time=4 * TICKS)
    file.tracks[0].append(meter)
    file.save(path)
    with pytest.raises(NotesError, match="the meter changes in bar 2, from 4/4 to 5/4"):
        quantised(read_midi(path))
    assert len(in_bars(read_midi(path), (1, 1)).tones) == 2


def smf(path: Path, *messages: Any, name: str = "") -> Path:
    """A file of one track with these messages."""
    import mido

    file = mido.MidiFile(ticks_per_beat=TICKS)
    track = mido.MidiTrack()
    track += [mido.MetaMessage("track_name", name=name), *messages]
    file.tracks.append(track)
    file.save(path)
    return path


def test_bent_notes_sound_where_the_bend_puts_them(tmp_path: Path) -> None:
    """Two half steps at full bend, by General MIDI 1."""
    import mido

    down = mido.Message("pitchwheel", pitch=-4096)
    level = mido.Message("pitchwheel", pitch=0)
    on, off = (mido.Message(f"note_{each}", note=74, time=(each == "off" and TICKS) or 0)
               for each in ("on", "off"))  # fmt: skip
    path = smf(tmp_path / "a.mid", down, on, off, level, on, off)
    found = read_midi(path)
    assert [tone.midi for tone in found.tones] == [(73,), (74,)]
    assert {each.kind: each.facts for each in found.said}["bends"] == {"count": 1}


@pytest.mark.parametrize(("until", "midi"), [(TICKS // 4, 74), (3 * TICKS // 4, 73)])
def test_a_bend_that_leads_to_a_note_is_said(until: int, midi: int, tmp_path: Path) -> None:
    """The pitch of a note is where it is for most of its time."""
    import mido

    path = smf(
        tmp_path / "a.mid",
        mido.Message("pitchwheel", pitch=-4096),
        mido.Message("note_on", note=74),
        mido.Message("pitchwheel", pitch=0, time=until),
        mido.Message("note_off", note=74, time=TICKS - until),
    )
    found = read_midi(path)
    assert found.tones[0].midi == (midi,)
    assert "bends-lost" in {each.kind for each in found.said}


@pytest.mark.parametrize(
    ("name", "program", "taken"),
    [("Harmonica", 0, True), ("Blues harp", 0, True), ("Harp", 46, False),
     ("Harpsichord", 6, False),
     ("", 22, True)],
)  # fmt: skip
def test_names_of_tracks_and_programs(name: str, program: int, taken: bool, tmp_path: Path) -> None:
    """Programs of General MIDI 1, counted from 0: 22 harmonica, 46 orchestral harp."""
    import mido

    path = midi_file(tmp_path / "a.mid", SCALE, [(84, 0, 4)], programs=[program, 73])
    file = mido.MidiFile(path)
    file.tracks[1].insert(0, mido.MetaMessage("track_name", name=name))
    file.save(path)
    assert (read_midi(path).tones[0].midi == (60,)) is taken
    assert read_midi(path, "2").tones[0].midi == (84,)


def test_what_stands_beside_swing_is_left_as_it_is(tmp_path: Path) -> None:
    """Three over two beats, and a dotted eighth with its sixteenth."""
    two = 2 * THIRD
    notes = [*swung(0.667)[:8], (65, 4, 4 + two), (66, 4 + two, 5 + THIRD), (67, 5 + THIRD, 6)]
    notes += [(68, 6, 6.75), (69, 6.75, 7), (70, 7, 8)]
    found = melody(midi_file(tmp_path / "a.mid", notes))
    assert found.feel == SWING
    assert starts(found)[8:] == [4, 4 + two, 5 + THIRD, 6, Fraction(27, 4), 7]
