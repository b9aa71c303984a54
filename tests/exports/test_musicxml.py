"""`tune.musicxml`: valid by the standard's schema, and what a music library reads back from it."""

from __future__ import annotations

import re
import warnings
from fractions import Fraction
from functools import cache
from typing import Any
from xml.etree.ElementTree import Element, fromstring

import pytest

from formsheet.exports.musicxml.score import musicxml
from formsheet.music.chord import MAJOR_QUALITIES, MINOR_QUALITIES
from formsheet.music.harp import HARP_KEYS
from formsheet.tune.timeline import Tune
from tests.exports.musicxml_schema import musicxml_schema
from tests.helpers import lesson_text, over, own_form, tune_of
from tests.lessons import NAMES, demo

EVERYTHING = over(
    "I7 IV7 | bVI7 | ii7 V7 | I",
    """pickup e 1d 2b
    e3 2d 3d' -  q3 4d 123d 4d  s 2d 3d{scoop} e 4d |
    straight q.. 14b{wah}"ka" s =  h - |
    swing e 6ob e. 2d s 3d s3 4d 5d 4d q 5d{accent} 10d{shake} |
    w 2d''!""",
    feel="swing", teacher="A & B <class>", rights="Copy it", title="Kühler Mörgen & 川",
)  # fmt: skip


def demo_tune(name: str) -> Tune:
    tune = demo(name).tune
    assert tune
    return tune


def root_of(text: str) -> Element:
    """The score of a lesson."""
    return fromstring(musicxml(tune_of(text)))


@cache
def read_back(name: str) -> Any:
    """The part of a demo lesson as the music library reads it."""
    return read(musicxml(demo_tune(name)))


def read(text: str) -> Any:
    from music21 import converter

    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        score: Any = converter.parseData(text, format="musicxml")
        return score.parts[0]


# ---- The standard --------------------------------------------------------------------------


@pytest.mark.parametrize("name", NAMES)
def test_valid_by_the_schema_of_the_standard(name: str) -> None:
    musicxml_schema().validate(musicxml(demo_tune(name)))


def test_everything_at_once_is_valid() -> None:
    musicxml_schema().validate(musicxml(tune_of(EVERYTHING)))


def test_the_schema_refuses_what_is_not_so() -> None:
    good = musicxml(demo_tune(NAMES[0]))
    assert not musicxml_schema().is_valid(
        good.replace("<divisions>", "<parts>").replace("</divisions>", "</parts>")
    )
    assert not musicxml_schema().is_valid(good.replace(">quarter<", ">crotchet<", 1))


@pytest.mark.parametrize("key", HARP_KEYS)
def test_every_key_is_valid(key: str) -> None:
    for position in ("1st", "2nd", "5th", "12th"):
        text = over("I7 | VI7", "e 2d 3d' 3d'' 4d h - | w 6d'", harp=key, position=position)
        musicxml_schema().validate(musicxml(tune_of(text)))


def test_the_same_tune_gives_the_same_text() -> None:
    assert musicxml(tune_of(EVERYTHING)) == musicxml(tune_of(EVERYTHING))


# ---- Read back by a music library ----------------------------------------------------------


@pytest.mark.parametrize("name", NAMES)
def test_pitches_onsets_and_durations_are_read_back(name: str) -> None:
    tune, part = demo_tune(name), read_back(name)
    early = tune.bars[0].start if not tune.bars[0].number else Fraction(0)
    first = min(tune.bars[note.bar].start + note.onset for note in tune.notes) if early else 0
    wanted = [
        (note.midi, tune.bars[note.bar].start + note.onset - first, note.duration)
        for note in tune.notes
    ]
    found = [
        (
            tuple(sorted(pitch.midi for pitch in note.pitches)),
            Fraction(note.getOffsetInHierarchy(part)).limit_denominator(96),
            Fraction(note.quarterLength).limit_denominator(96),
        )
        for note in part.stripTies().recurse().notes
        if "ChordSymbol" not in note.classes
    ]
    assert found == wanted


@pytest.mark.parametrize("name", NAMES)
def test_spelling_is_read_back(name: str) -> None:
    tune = demo_tune(name)
    key = tune.lesson.key
    wanted = [
        key.spell_octave(midi, tune.bars[note.bar].chord_at(note.onset))
        for note in tune.notes
        for midi in note.midi
    ]
    found = [
        pitch.nameWithOctave.replace("-", "b")
        for note in read_back(name).stripTies().recurse().notes
        if "ChordSymbol" not in note.classes
        for pitch in note.pitches
    ]
    assert found == wanted


@pytest.mark.parametrize("name", NAMES)
def test_measures_are_full(name: str) -> None:
    tune = demo_tune(name)
    measures = list(read_back(name).getElementsByClass("Measure"))
    assert len(measures) == len(tune.bars)
    for bar, measure in zip(tune.bars, measures, strict=True):
        lengths = sum(
            Fraction(each.quarterLength).limit_denominator(96)
            for each in measure.notesAndRests
            if "ChordSymbol" not in each.classes
        )
        pickup = sum(m.mark.value.length for m in bar.marks if m.pickup)
        assert lengths == (tune.lesson.facts.meter.bar if bar.number else pickup)


@pytest.mark.parametrize("name", NAMES)
def test_chord_symbols_are_read_back(name: str) -> None:
    tune, part = demo_tune(name), read_back(name)
    key = tune.lesson.key
    wanted = [
        (bar.number, at, (key.pitch_class + chord.root) % 12, chord.tones)
        for bar in tune.bars
        for at, chord in bar.chords
        if bar.number
    ]
    starts = [bar for bar in tune.bars if bar.number]
    measures = [m for m in part.getElementsByClass("Measure") if m.number]
    found = [
        (
            bar.number,
            Fraction(symbol.offset),
            symbol.root().pitchClass,
            frozenset((p.pitchClass - symbol.root().pitchClass) % 12 for p in symbol.pitches),
        )
        for bar, measure in zip(starts, measures, strict=True)
        for symbol in measure.getElementsByClass("ChordSymbol")
    ]
    assert found == wanted


def test_chords_of_a_plain_form_with_an_ending_of_two_bars() -> None:
    text = over("I | IV | I VI7 | ii7 V7", "w 2d! | 2d! | 2d! | 2d!").replace(
        '"Own"\n  | I | IV | I VI7 | ii7 V7 |', '"Own" ending I VI7 | ii7 V7\n  | I | IV | I | V |'
    )
    root = musicxml(tune_of(text))
    kinds = re.findall(r"<kind[^>]*>([a-z-]+)</kind>", root)
    assert kinds == ["major", "major", "major", "dominant", "minor-seventh", "dominant"]


# The library hears 9 and 11 in a thirteenth chord, and an added seventh as a major one, other than
# the standard has it (MusicXML 4.0, `degree-alter`: "relative to a dominant chord").
NOT_AS_WRITTEN = {"13", "7sus4"}
QUALITIES = [f"V{quality}" for quality in MAJOR_QUALITIES if quality not in NOT_AS_WRITTEN] + [
    f"v{quality}" for quality in MINOR_QUALITIES
]


@pytest.mark.parametrize("numeral", QUALITIES)
def test_every_kind_of_chord_is_read_back(numeral: str) -> None:
    tune = tune_of(over(numeral, "w 1d!"))
    chord = tune.bars[0].chords[0][1]
    (symbol,) = read(musicxml(tune)).recurse().getElementsByClass("ChordSymbol")
    tones = {(pitch.pitchClass - symbol.root().pitchClass) % 12 for pitch in symbol.pitches}
    assert tones == chord.tones
    assert symbol.root().name == "D"


@pytest.mark.parametrize(
    ("numeral", "kind", "degree"),
    [("V7sus4", "suspended-fourth", ["7", "0", "add"]), ("V13", "dominant-13th", [])],
)
def test_chords_that_the_library_hears_otherwise(
    numeral: str, kind: str, degree: list[str]
) -> None:
    root = root_of(over(numeral, "w 1d"))
    assert texts(root, ".//harmony/kind") == [kind]
    assert texts(root, ".//harmony/degree/*") == degree


@pytest.mark.parametrize("name", NAMES)
def test_key_meter_and_tempo_are_read_back(name: str) -> None:
    tune, part = demo_tune(name), read_back(name)
    facts = tune.lesson.facts
    key = next(iter(part.recurse().getElementsByClass("KeySignature")))
    tonic = key.asKey("minor" if tune.lesson.key.minor else "major").tonic.name.replace("-", "b")
    assert tonic == tune.lesson.key.tonic
    meter = next(iter(part.recurse().getElementsByClass("TimeSignature")))
    assert meter.ratioString == facts.meter.text
    tempo = next(iter(part.recurse().getElementsByClass("MetronomeMark")))
    assert tempo.getQuarterBPM() == pytest.approx(float(facts.tempo * facts.meter.beat))


# ---- What stands in it ---------------------------------------------------------------------


def texts(root: Element, path: str) -> list[str]:
    return [element.text or "" for element in root.iterfind(path)]


def test_tab_and_syllables_are_lyrics() -> None:
    root = root_of(over("I", 'q 2d"ka" 3d\' = 123d'))
    assert texts(root, ".//lyric[@name='tab']/text") == ["2d", "3d'", "123d"]
    assert texts(root, ".//lyric[@name='syllable']/text") == ["ka"]


def test_swing_is_written_as_the_standard_has_it() -> None:
    root = root_of(over("I", "straight h 2d swing 2d", feel="swing 3:2"))
    swings = root.findall(".//sound/swing")
    assert [[(part.tag, part.text) for part in swing] for swing in swings] == [
        [("straight", None)],
        [("first", "3"), ("second", "2"), ("swing-type", "eighth")],
    ]


def test_nothing_swings_in_twelve_eight() -> None:
    assert root_of(over("I", "w. 2d", meter="12/8", feel="swing")).find(".//swing") is None


def test_tempo_of_a_dotted_beat() -> None:
    root = root_of(over("I", "w. 2d", meter="12/8"))
    assert root.find(".//metronome/beat-unit-dot") is not None
    assert texts(root, ".//per-minute") == ["60"]
    assert [sound.get("tempo") for sound in root.iterfind(".//sound")] == ["90"]


def test_triplets_have_a_ratio_and_a_bracket() -> None:
    notes = root_of(over("I", "e3 2d 3d - q 2d h -")).findall(".//note")
    assert [note.findtext("time-modification/actual-notes") for note in notes] == [
        "3", "3", "3", None, None,
    ]  # fmt: skip
    assert [[t.get("type") for t in note.findall("notations/tuplet")] for note in notes] == [
        ["start"], [], ["stop"], [], [],
    ]  # fmt: skip


def beams(text: str) -> list[list[str]]:
    notes = root_of(over("I", text)).findall(".//note")
    return [[f"{b.get('number')} {b.text}" for b in note.findall("beam")] for note in notes]


def test_beams() -> None:
    assert beams("e 2d 3d s 2d 3d e 2d h -") == [
        ["1 begin"], ["1 end"], ["1 begin", "2 begin"], ["1 continue", "2 end"], ["1 end"], [],
    ]  # fmt: skip
    assert beams("e. 2d s 3d s 2d e. 3d h -")[:4] == [
        ["1 begin"], ["1 end", "2 backward hook"], ["1 begin", "2 forward hook"], ["1 end"],
    ]  # fmt: skip


def test_holds_are_ties() -> None:
    notes = root_of(over("I | I", "w 12d | h = -")).findall(".//note")
    ties = [[tie.get("type") for tie in note.findall("tie")] for note in notes]
    assert ties == [["start"], ["start"], ["stop"], ["stop"], []]
    assert [note.find("chord") is not None for note in notes] == [False, True, False, True, False]


def test_techniques_are_signs_or_words() -> None:
    root = root_of(over("I", "q 2d{accent} 2d{short} 3d{scoop} 4d{shake}"))
    assert [sign.tag for sign in root.iterfind(".//articulations/*")] == [
        "accent", "staccato", "scoop",
    ]  # fmt: skip
    assert "shake" in texts(root, ".//words")


def accidentals(text: str, **facts: str) -> list[str | None]:
    notes = root_of(over("I | I", text, **facts)).findall(".//note")
    return [note.findtext("accidental") for note in notes]


def test_accidentals_hold_for_the_measure() -> None:
    """C harp, 2nd position: key of G with F sharp; 3 draw bent is Bb, 5 draw F."""
    assert accidentals("q 3d' 3d' 3d 3d' | q 5d 3d' 3d -") == [
        "flat", None, "natural", "flat", "natural", "flat", "natural", None,
    ]  # fmt: skip


def test_a_held_note_has_no_accidental_again() -> None:
    assert accidentals("w 3d' | h = 3d'") == ["flat", None, "flat"]


def test_bar_before_the_tune_is_short() -> None:
    measures = root_of(over("I", "pickup e 1d 2b\n w 2d")).findall(".//measure")
    assert [(m.get("number"), m.get("implicit")) for m in measures] == [("0", "yes"), ("1", None)]
    assert len(measures[0].findall("note")) == 2


def test_chord_in_the_middle_of_a_note() -> None:
    harmonies = root_of(over("I IV", "w 2d")).findall(".//harmony")
    assert [harmony.findtext("offset") for harmony in harmonies] == [None, "2"]


def test_a_lick_has_its_letter_in_a_circle_and_the_first_time_its_title() -> None:
    body = 'lick a "Porch" on I\n w 2d\nlick b "Creek" on I\n w 3d\nplay\n bars 1-4 a x2, b, a'
    root = root_of(lesson_text(body, form=own_form("I | I | I | I")))
    words = [
        [(each.get("enclosure"), each.text) for each in measure.iterfind(".//words[@enclosure]")]
        for measure in root.iter("measure")
    ]
    assert words == [
        [("circle", "A"), ("none", "Porch")],
        [],  # the lick goes round
        [("circle", "B"), ("none", "Creek")],
        [("circle", "A")],
    ]


def test_title_and_makers() -> None:
    root = root_of(EVERYTHING)
    assert root.findtext("work/work-title") == "Kühler Mörgen & 川"
    assert root.findtext("identification/creator") == "A & B <class>"
    assert root.findtext("identification/rights") == "Copy it"


def test_a_pickup_that_is_played_once_has_a_measure_of_its_own() -> None:
    text = over("I", "pickup once e 1d 2b\n w 2d").replace("play", "play x3")
    measures = root_of(text).findall(".//measure")
    assert [(m.get("number"), m.get("implicit")) for m in measures] == [
        ("0", "yes"), ("1", None), ("2", None), ("3", None),
    ]  # fmt: skip
    assert [len(measure.findall("note")) for measure in measures] == [2, 1, 1, 1]
