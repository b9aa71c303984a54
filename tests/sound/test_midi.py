"""The MIDI file, read back by music21 and by mido."""

from __future__ import annotations

from functools import cache
from io import BytesIO

import mido
import music21
import pytest

from formsheet.music.harp import HARP_KEYS
from formsheet.music.key import song_key
from formsheet.sound.excerpts import tune_excerpt
from formsheet.sound.grooves import KICK
from formsheet.sound.midi import midi_bytes
from formsheet.sound.midi_notes import TICKS
from formsheet.sound.takes import BAND, GUIDE, Take, take
from formsheet.tune.timeline import Tune
from tests.helpers import over, tune_of
from tests.lessons import NAMES, demo

RATIOS = [("straight", 1.0), ("swing", 2.0), ("swing 3:2", 1.5), ("swing 60%", 1.5)]


def taken(tune: Tune, *, band: bool = False) -> Take:
    voices = (*GUIDE, *BAND) if band else GUIDE
    return take(tune_excerpt(tune), tune.lesson.facts.meter, voices=voices, count_in=1)


def written(tune: Tune, *, band: bool = False) -> bytes:
    tempo = float(tune.lesson.facts.tempo)
    return midi_bytes(taken(tune, band=band), tune.lesson, tempo, tune.lesson.facts.title)


def read(data: bytes) -> mido.MidiFile:
    return mido.MidiFile(file=BytesIO(data), charset="utf-8")


def track(file: mido.MidiFile, name: str) -> mido.MidiTrack:
    return next(track for track in file.tracks if track.name == name)


Timed = list[tuple[int, mido.Message]]


def timed(messages: mido.MidiTrack) -> Timed:
    """Each message with its tick from the start."""
    now, found = 0, []
    for message in messages:
        now += message.time
        found.append((now, message))
    return found


@cache
def demo_tune(name: str) -> Tune:
    tune = demo(name).tune
    assert tune
    return tune


def parsed(data: bytes) -> music21.stream.Score:
    """As music21 reads the file, ticks taken as they are."""
    read = music21.converter.parseData(data, format="midi", quantizePost=False)
    assert isinstance(read, music21.stream.Score)
    return read


def marks(score: music21.stream.Score) -> list[music21.tempo.MetronomeMark]:
    return list(score.recurse().getElementsByClass(music21.tempo.MetronomeMark))


def sounds(part: music21.stream.Part) -> list[tuple[float, float, tuple[int, ...]]]:
    """Onset and length in quarters, and pitches, of each note or chord, in order."""
    return sorted(
        (
            float(each.getOffsetInHierarchy(part)),
            float(each.quarterLength),
            tuple(sorted(pitch.midi for pitch in each.pitches)),
        )
        for each in part.recurse().notes
    )


@pytest.mark.parametrize("name", NAMES)
def test_music21_reads_the_notes_where_the_event_list_has_them(name: str) -> None:
    """Onsets and lengths within a tick or two of a quarter's 480; a shake's turns aside."""
    tune = demo_tune(name)
    beat = float(tune.lesson.facts.meter.beat)
    guide = [e for e in taken(tune).events if e.voice == "guide"]
    wanted = {(round(e.start * beat, 2), midi) for e in guide for midi in e.midi}
    score = parsed(written(tune))
    part = next(part for part in score.parts if part.partName == "Harmonica")
    found = {(round(start, 2), midi) for start, _, pitches in sounds(part) for midi in pitches}
    shaken = {midi for e in guide if e.neighbour for midi in (*e.midi, *e.neighbour)}
    assert wanted <= found
    assert {midi for _, midi in found - wanted} <= shaken


@pytest.mark.parametrize("tempo", ["60", "120", "200"])
@pytest.mark.parametrize(("feel", "ratio"), RATIOS)
def test_a_swung_pair_has_the_ratio_of_the_lesson(feel: str, ratio: float, tempo: str) -> None:
    tune = tune_of(over("I", "e 2d 3d 4d 5d 4d 3d 2d 3d", feel=feel, tempo=tempo))
    score = parsed(written(tune))
    (number,) = {mark.number for mark in marks(score)}
    assert number == pytest.approx(float(tempo), rel=1e-4)
    part = next(part for part in score.parts if part.partName == "Harmonica")
    lengths = [length for _, length, _ in sounds(part)]
    for long, short in zip(lengths[::2], lengths[1::2], strict=True):
        assert long / short == pytest.approx(ratio, rel=0.02)
        assert long + short == pytest.approx(1, abs=0.005)


@pytest.mark.parametrize("name", NAMES)
def test_every_track_is_as_long_as_count_and_form(name: str) -> None:
    tune = demo_tune(name)
    meter = tune.lesson.facts.meter
    bars = 1 + len([bar for bar in tune.bars if bar.number])
    file = read(written(tune, band=True))
    assert file.type == 1
    for each in file.tracks:
        assert sum(message.time for message in each) == bars * meter.bar * TICKS
    assert file.length == pytest.approx(
        bars * meter.beats * 60 / float(tune.lesson.facts.tempo), 1e-4
    )


def test_the_first_track_has_tempo_meter_and_key() -> None:
    tune = demo_tune("slow-barge")  # 12/8 at 56 dotted quarters; a G harp in third position
    score = parsed(written(tune))
    (meter,) = {each.ratioString for each in score.recurse().getElementsByClass("TimeSignature")}
    (key,) = {(each.tonic.name, each.mode) for each in score.recurse().getElementsByClass("Key")}
    (quarters,) = {mark.getQuarterBPM() for mark in marks(score)}
    assert (meter, key) == ("12/8", ("A", "minor"))
    assert quarters == pytest.approx(84, rel=1e-4)  # 56 dotted quarters


@pytest.mark.parametrize("position", range(1, 13))
@pytest.mark.parametrize("minor", [False, True])
def test_every_key_of_a_song_is_a_key_signature(position: int, minor: bool) -> None:
    for harp in HARP_KEYS:
        key = song_key(harp, position, minor)
        message = mido.MetaMessage("key_signature", key=f"{key.tonic}{'m' if minor else ''}")
        assert message.bytes()


def test_tracks_have_names_and_general_midi_programs() -> None:
    """General MIDI 1: harmonica 23, bass 33, electric piano 5, counted from one; drums on 10."""
    file = read(written(demo_tune("back-step-shuffle"), band=True))
    names = ["Back Step Shuffle", "Harmonica", "Bass", "Chords", "Drums", "Count"]
    assert [each.name for each in file.tracks] == names
    programs = {
        each.name: message.program + 1
        for each in file.tracks
        for message in each
        if message.type == "program_change"
    }
    assert programs == {"Harmonica": 23, "Bass": 33, "Chords": 5}
    drums = [message for message in track(file, "Drums") if message.type == "note_on"]
    assert {message.channel + 1 for message in drums} == {10}
    assert KICK in {message.note for message in drums}


def test_syllables_are_lyrics_at_their_notes() -> None:
    tune = tune_of(over("I", 'q 2d"ka" 3d h 4d"whoo"'))
    found = timed(track(read(written(tune)), "Harmonica"))
    lyrics = {at: message.text for at, message in found if message.type == "lyrics"}
    assert lyrics == {4 * TICKS: "ka", 6 * TICKS: "whoo"}


def test_a_bend_is_the_bent_pitch() -> None:
    tune = tune_of(over("I", "q 3d 3d' 3d'' 3d'''"))
    found = track(read(written(tune)), "Harmonica")
    assert [m.note for m in found if m.type == "note_on"] == [71, 70, 69, 68]
    assert not [m for m in found if m.type == "pitchwheel"]


@pytest.mark.parametrize("technique", ["scoop", "dip", "vibrato"])
def test_the_wheel_moves_within_the_note_and_goes_back(technique: str) -> None:
    tune = tune_of(over("I", f"h 3d{{{technique}}} 2d"))
    found = timed(track(read(written(tune)), "Harmonica"))
    wheel = [(at, message.pitch) for at, message in found if message.type == "pitchwheel"]
    assert min(pitch for _, pitch in wheel) < -500
    assert wheel[-1][1] == 0
    assert all(4 * TICKS <= at <= 6 * TICKS for at, _ in wheel)
    before = [m for at, m in found if at == 6 * TICKS]
    kinds = [message.type for message in before if message.type != "control_change"]
    assert kinds.index("note_off") < kinds.index("note_on")


def test_a_shake_is_two_notes_by_turns() -> None:
    found = track(read(written(tune_of(over("I", "w 4d{shake}")))), "Harmonica")
    notes = [message.note for message in found if message.type == "note_on"]
    assert len(notes) > 10
    assert notes == [(74, 77)[turn % 2] for turn in range(len(notes))]


def test_an_accent_is_struck_harder_and_a_short_note_ends_early() -> None:
    tune = tune_of(over("I", "q 2d 2d{accent} 2d{short} 2d"))
    found = timed(track(read(written(tune)), "Harmonica"))
    plain, accent, *_ = [m.velocity for _, m in found if m.type == "note_on"]
    assert accent > plain + 15
    ends = [at for at, message in found if message.type == "note_off"]
    assert ends == [5 * TICKS, 6 * TICKS, 6.5 * TICKS, 8 * TICKS]


def test_every_note_that_begins_ends() -> None:
    for name in NAMES:
        for each in read(written(demo_tune(name), band=True)).tracks:
            sounding: dict[int, int] = {}
            for message in each:
                if message.type in ("note_on", "note_off"):
                    change = 1 if message.type == "note_on" else -1
                    sounding[message.note] = sounding.get(message.note, 0) + change
            assert set(sounding.values()) <= {0}


def test_the_same_tune_is_the_same_bytes() -> None:
    tune = demo_tune("two-lamps-on-mill-lane")
    assert written(tune, band=True) == written(tune, band=True)


def test_a_title_of_any_alphabet_is_kept() -> None:
    tune = tune_of(over("I", "w 2d", title="Мост и тополь"))
    assert read(written(tune)).tracks[0].name == "Мост и тополь"
