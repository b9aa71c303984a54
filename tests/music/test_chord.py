"""Chords: what is read, what is refused, what meets what, and their tones in music21."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from music21 import harmony, roman
from music21 import key as second_key

from formsheet.music import pitch
from formsheet.music.chord import MAJOR_QUALITIES, MINOR_QUALITIES, Chord, in_blues, parse_chord
from formsheet.music.form import FORMS
from formsheet.music.key import song_key

ROMAN = ("I", "II", "III", "IV", "V", "VI", "VII")
TEXTS = [
    *(sign + numeral + quality for sign in ("", "b", "#") for numeral in ROMAN
      for quality in MAJOR_QUALITIES),
    *(sign + numeral.lower() + quality for sign in ("", "b", "#") for numeral in ROMAN
      for quality in MINOR_QUALITIES),
]  # fmt: skip
TWELVE_KEYS = ("C", "G", "D", "A", "E", "B", "F#", "Db", "Ab", "Eb", "Bb", "F")

numerals = st.sampled_from(TEXTS).map(parse_chord)


def ours(name: str) -> str:
    """A music21 name as we write it, without double flats or sharps."""
    return pitch.simplified(name.replace("-", "b"))


@pytest.mark.parametrize("text", TEXTS)
def test_chord_is_written_as_it_was_read(text: str) -> None:
    assert str(parse_chord(text)) == text


@pytest.mark.parametrize(
    ("alias", "plain"),
    [("vii°", "viidim"), ("vii°7", "viidim7"), ("iiø", "ii7b5"), ("iiø7", "ii7b5"), ("Vaug", "V+"),
     ("V7+", "V+7"), ("♭VII7", "bVII7"), ("♯iv°7", "#ivdim7")],
)  # fmt: skip
def test_alias_is_the_plain_chord(alias: str, plain: str) -> None:
    assert parse_chord(alias) == parse_chord(plain)


@pytest.mark.parametrize(
    "text",
    ["", "7", "b", "H7", "C7", "Iv", "iV7", "IIII", "VV", "IVI", "VIII", "I8", "I77", "iimaj7",
     "i+", "vsus4", "bbVII", " I", "I ", "I 7", "I7\n", "I7|", "Iø", "l7", "1"],
)  # fmt: skip
def test_no_chord(text: str) -> None:
    with pytest.raises(ValueError, match="not a chord"):
        parse_chord(text)


@pytest.mark.parametrize("text", ["I7", "IV7", "V7", "I9", "I13", "V7#9", "II7"])
def test_dominant(text: str) -> None:
    assert parse_chord(text).dominant


@pytest.mark.parametrize(
    "text", ["I", "IV", "V", "II", "VI", "bVII", "Imaj7", "I6", "i7", "iv", "I7sus4", "viidim7"]
)
def test_not_dominant(text: str) -> None:
    assert not parse_chord(text).dominant


@pytest.mark.parametrize("text", ["i", "iv7", "ii7b5", "viidim7", "Idim", "v9", "i6"])
def test_minor_third(text: str) -> None:
    assert parse_chord(text).minor_third


@pytest.mark.parametrize("text", ["I", "IV7", "V7#9", "V+7", "Vsus4", "bVI7"])
def test_no_minor_third(text: str) -> None:
    assert not parse_chord(text).minor_third


# A chord is what is written: a plain numeral is a plain triad (common practice, no source).
@pytest.mark.parametrize("text", ["I", "IV", "V", "II", "bVII", "VI"])
def test_plain_major_numeral_is_a_triad(text: str) -> None:
    chord = parse_chord(text)
    assert (chord.tones, chord.seventh) == (frozenset({0, 4, 7}), None)


@pytest.mark.parametrize("text", ["i", "ii", "iv", "v", "bvii"])
def test_plain_minor_numeral_is_a_triad(text: str) -> None:
    chord = parse_chord(text)
    assert (chord.tones, chord.seventh) == (frozenset({0, 3, 7}), None)


# Where no form says it, blues players mean sevenths: common practice, no source.
@pytest.mark.parametrize(
    ("text", "meant"),
    [("I", "I7"), ("IV", "IV7"), ("V", "V7"), ("II", "II"), ("bVII", "bVII"), ("i", "i"),
     ("iv", "iv"), ("I6", "I6"), ("Imaj7", "Imaj7"), ("V7", "V7"), ("V+", "V+")],
)  # fmt: skip
def test_bare_numeral_in_blues(text: str, meant: str) -> None:
    assert str(in_blues(parse_chord(text))) == meant


# The lesson language: a numeral without a quality is met by any chord on that degree with a
# major third, a lower-case one by a minor third; with a quality it asks for that chord exactly.
@pytest.mark.parametrize(
    ("form", "asked"),
    [("IV", "IV"), ("IV7", "IV"), ("IV9", "IV"), ("IV6", "IV"), ("IVmaj7", "IV"), ("V7#9", "V"),
     ("iv", "iv"), ("iv7", "iv"), ("iv6", "iv"), ("ii7b5", "ii"), ("viidim7", "vii"),
     ("IV7", "IV7"), ("I7", "I7"), ("ii7", "ii7"), ("bVI7", "bVI"),
     ("bVI7", "bVI7"), ("#IVdim7", "#ivdim7"), ("#ivdim7", "#IVdim7"), ("#IV7", "bV7"),
     ("iiø7", "ii7b5")],
)  # fmt: skip
def test_meets(form: str, asked: str) -> None:
    assert parse_chord(form).meets(parse_chord(asked))


@pytest.mark.parametrize(
    ("form", "asked"),
    [("IV7", "I"), ("I", "I7"), ("V", "V7"), ("I7", "I6"), ("iv7", "IV"),
     ("IV7", "iv"), ("iv", "IV7"), ("IV7", "iv7"), ("IV9", "IV7"),
     ("IV6", "IV7"), ("IV7", "IV9"), ("II", "II7"), ("ii", "ii7"), ("ii7", "II7"), ("VI7", "bVI7"),
     ("IV", "IVmaj7"), ("Idim", "I"), ("i", "i7")],
)  # fmt: skip
def test_does_not_meet(form: str, asked: str) -> None:
    assert not parse_chord(form).meets(parse_chord(asked))


@given(numerals)
def test_every_chord_meets_itself(chord: Chord) -> None:
    assert chord.meets(chord)


@given(numerals, numerals)
def test_chord_of_another_root_is_never_met(form: Chord, asked: Chord) -> None:
    assert form.root == asked.root or not form.meets(asked)


@pytest.mark.parametrize(
    ("text", "tonic", "name"),
    [("IV7", "C", "F7"), ("ii7", "C", "Dm7"), ("V", "D", "A"), ("bVI7", "C", "Ab7"),
     ("VI7", "G", "E7"), ("bVII", "A", "G"), ("V7", "B", "F#7"), ("IV7", "F", "Bb7"),
     ("viidim7", "C", "Bdim7"), ("#ivdim7", "C", "F#dim7"), ("ii7b5", "C", "Dm7b5"),
     ("i", "A", "Am"), ("i6", "A", "Am6"), ("V+7", "C", "G+7"), ("bVI7", "Gb", "D7")],
)  # fmt: skip
def test_letter_name(text: str, tonic: str, name: str) -> None:
    assert parse_chord(text).name(tonic) == name


# The library puts a suspended fourth into no third's place, and a sixth into no seventh's.
@pytest.mark.parametrize(
    "numeral",
    [
        *(f"I{quality}" for quality in MAJOR_QUALITIES),
        *(f"i{quality}" for quality in MINOR_QUALITIES),
    ],
)
def test_third_fifth_and_seventh_as_music21(numeral: str) -> None:
    chord = parse_chord(numeral)
    theirs = harmony.ChordSymbol(chord.name("C"))
    third, fifth, seventh = (
        tone and tone.pitchClass for tone in (theirs.third, theirs.fifth, theirs.seventh)
    )
    assert chord.third == (5 if "sus" in numeral else third)
    assert chord.fifth == fifth
    assert chord.seventh == {"I6": 9, "i6": 9}.get(numeral, seventh)


# A thirteenth chord of music21 has all the thirds up to the thirteenth, as theory books stack
# them; players leave the eleventh out.
STACKED = {text for text in TEXTS if text.endswith("13")}
# A raised ninth is a blue third to us and keeps its name, a flat third.
BLUE_THIRD = {text for text in TEXTS if text.endswith("#9")}


@pytest.mark.parametrize("quality", [quality for quality in MAJOR_QUALITIES if quality != "13"])
def test_major_quality_has_the_tones_of_music21(quality: str) -> None:
    theirs = harmony.ChordSymbol(parse_chord(f"I{quality}").name("C")).pitches
    assert {tone.pitchClass for tone in theirs} == set(parse_chord(f"I{quality}").tones)


@pytest.mark.parametrize("quality", MINOR_QUALITIES)
def test_minor_quality_has_the_tones_of_music21(quality: str) -> None:
    theirs = harmony.ChordSymbol(parse_chord(f"i{quality}").name("C")).pitches
    assert {tone.pitchClass for tone in theirs} == set(parse_chord(f"i{quality}").tones)


def test_thirteenth_chord_is_within_music21s_stack() -> None:
    stack = {tone.pitchClass for tone in harmony.ChordSymbol("C13").pitches}
    assert stack - set(parse_chord("I13").tones) == {2, 5}


@pytest.mark.parametrize("tonic", TWELVE_KEYS)
@pytest.mark.parametrize("numeral", [sign + n for sign in ("", "b", "#") for n in ROMAN])
def test_root_as_music21_reads_the_numeral(numeral: str, tonic: str) -> None:
    theirs = roman.RomanNumeral(numeral, second_key.Key(tonic.replace("b", "-"))).root()
    assert parse_chord(numeral).root_name(tonic) == ours(theirs.name)


FORM_CHORDS = sorted({(str(chord), form.minor) for form in FORMS.values() for chord in form.chords})


@pytest.mark.parametrize("position", range(1, 13))
@pytest.mark.parametrize(("numeral", "minor"), FORM_CHORDS)
def test_tones_of_the_forms_in_twelve_keys(numeral: str, minor: bool, position: int) -> None:
    """Every built-in form's chords, spelled, against music21's seventh chords."""
    chord, key = parse_chord(numeral), song_key("C", position, minor)
    degree = numeral.removesuffix("7").replace("i", "I").replace("v", "V")
    root = roman.RomanNumeral(degree, second_key.Key(key.tonic.replace("b", "-"))).root()
    seventh = harmony.ChordSymbol(root.name + ("m7" if chord.minor else "7"))
    home = key.pitch_class + chord.root
    spelled = {key.spell((home + tone) % 12, chord) for tone in chord.tones}
    assert spelled == {ours(tone.name) for tone in seventh.pitches}


@pytest.mark.parametrize("text", sorted({*TEXTS} - STACKED - BLUE_THIRD))
def test_chord_tones_are_spelled_as_music21_spells_the_chord(text: str) -> None:
    chord, key = parse_chord(text), song_key("C", 1)
    root = chord.root_name("C")
    symbol = harmony.ChordSymbol(root.replace("b", "-") + chord.name("C").removeprefix(root))
    home = key.pitch_class + chord.root
    spelled = {key.spell((home + tone) % 12, chord) for tone in chord.tones}
    assert spelled == {ours(tone.name) for tone in symbol.pitches}
