"""Chords on this harp: degrees, spelling and names of blocks, and what players say of them.

Outside checks are against music21, a general music library.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache

import pytest
from music21.chord import Chord as OutsideChord
from music21.harmony import ChordSymbol
from music21.interval import Interval
from music21.pitch import Pitch

from formsheet.judge.chart import chord_chart
from formsheet.judge.harmony import ChordOnHarp, blocks, chord_on_harp, sounding_name, splits
from formsheet.judge.level import LIMITS
from formsheet.music import pitch
from formsheet.music.chord import Chord, parse_chord
from formsheet.music.form import FORMS
from formsheet.music.harp import HARP_KEYS, Harp
from formsheet.music.key import Key, song_key
from formsheet.music.tab import Breath, Tab
from formsheet.music.tunings import TUNINGS
from formsheet.vocabulary.facts import Level
from tests.helpers import only_problem, over

POSITIONS = range(1, 13)
#: The chords of the built-in forms, with the mode of their key, and others of own forms.
CHORDS = sorted(
    {(str(chord), form.minor) for form in FORMS.values() for chord in form.chords}
    | {(text, False) for text in ("I", "IV", "V", "Imaj7", "I6", "V9", "V13", "V7#9", "Vsus4",
                                  "V+7", "I+", "ii7", "VI7", "bVII7", "iii7", "vi", "vii7b5",
                                  "#ivdim7", "bIIIdim7", "Idim7")}
    | {(text, True) for text in ("i", "iv", "v7", "V7b9", "ii7b5", "viidim7", "#ivdim7", "i6")}
)  # fmt: skip


def on_harp(numeral: str, position: int = 2, key: str = "C") -> ChordOnHarp:
    return chord_on_harp(parse_chord(numeral), song_key(key, position), Harp(key))


def tabs(items: tuple[object, ...]) -> list[str]:
    return [str(item) for item in items]


def tab_of(text: str) -> Tab:
    """The tab of a block or split of holes below 10."""
    return Tab(tuple(map(int, text[:-1])), Breath(text[-1]))


def on_holes_1_to_3(found: ChordOnHarp) -> list[str]:
    return [str(tab) for tab in found.blocks if tab.holes == (1, 2, 3)]


# ---- Degrees and spelling, against music21 -------------------------------------------------

#: Degree -> the interval above the root, as theory books name it. Held against music21 below.
INTERVALS = {
    "R": "P1", "b9": "m2", "9": "M2", "b3": "m3", "3": "M3", "4": "P4", "b5": "d5", "5": "P5",
    "#5": "A5", "b6": "m6", "6": "M6", "bb7": "d7", "b7": "m7", "7": "M7",
    # Our own choice: the raised ninth is spelled as the blue third that it is on the harp.
    "#9": "m3",
}  # fmt: skip


@cache
def theirs(name: str) -> Pitch:
    """A name as a pitch of music21, whose flats are "-"."""
    return Pitch(name.replace("b", "-"))


@cache
def their_name(root: str, degree: str) -> str:
    """What music21 calls the note an interval above a root, without double accidentals."""
    above = theirs(root).transpose(INTERVALS[degree])
    return pitch.simplified(above.name.replace("-", "b"))


@cache
def their_home(harp_key: str, position: int) -> int:
    """Pitch class of the key note: as many fifths above the harp's key as music21 makes them."""
    return int((theirs(harp_key).pitchClass + Interval("P5").semitones * (position - 1)) % 12)


@pytest.mark.parametrize("position", POSITIONS)
@pytest.mark.parametrize("harp_key", HARP_KEYS)
def test_degrees_and_names_of_every_note_are_the_librarys(harp_key: str, position: int) -> None:
    """In all keys and positions, bends and overbends too, over every chord.

    Source: intervals and their spelling by music21.
    """
    for text, minor in CHORDS:
        chord, key = parse_chord(text), song_key(harp_key, position, minor)
        root = chord.root_name(key.tonic)
        from_home = (theirs(root).pitchClass - their_home(harp_key, position)) % 12
        assert from_home == chord.root
        chart = chord_chart(chord, key, Harp(harp_key), LIMITS[Level.ADVANCED])
        for note in chart.notes:
            name = key.spell_degree(note.midi % 12, chord)
            assert (text, note.degree, name) == (text, note.degree, their_name(root, note.degree))
            assert theirs(name).pitchClass == note.midi % 12


@pytest.mark.parametrize("position", POSITIONS)
@pytest.mark.parametrize("harp_key", ["C", "Gb"])
def test_degrees_of_chord_tones_are_the_librarys(harp_key: str, position: int) -> None:
    """The degrees in the table of chords. Source: the tones of music21's chord symbols."""
    for text, minor in CHORDS:
        chord, key = parse_chord(text), song_key(harp_key, position, minor)
        found = chord_on_harp(chord, key, Harp(harp_key))
        root = chord.root_name(key.tonic)
        named = {their_name(root, tone.degree) for tone in found.tones}
        assert (text, named) == (text, their_tones(root, chord))


@cache
def their_tones(root: str, chord: Chord) -> set[str]:
    """The names of the tones of a chord symbol in music21, as far as our chords have them."""
    kind = chord.name("C").removeprefix(chord.root_name("C"))
    symbol = ChordSymbol(root.replace("b", "-") + kind)
    tones = {pitch.simplified(tone.name.replace("-", "b")) for tone in symbol.pitches}
    if chord.quality == "13":  # stacked in thirds there; players leave out 9 and 11
        tones -= {their_name(root, "9"), their_name(root, "4")}
    if chord.quality == "7#9":  # see INTERVALS
        raised = pitch.simplified(theirs(root).transpose("A9").name.replace("-", "b"))
        tones = (tones - {raised}) | {their_name(root, "#9")}
    return tones


@pytest.mark.parametrize("harp_key", HARP_KEYS)
def test_a_diminished_seventh_has_no_6(harp_key: str) -> None:
    """Source: music21 has a diminished seventh in `dim7`, and a major sixth nowhere in it."""
    degrees = [tone.degree for tone in on_harp("#ivdim7", key=harp_key).tones]
    assert degrees == ["R", "b3", "b5", "bb7"]
    symbol = ChordSymbol("F#dim7")
    sizes = [Interval(symbol.root(), each).simpleName for each in symbol.pitches]
    assert sizes == [INTERVALS[degree] for degree in degrees]


# ---- Names of blocks and splits, against music21 -------------------------------------------

#: Our name of a kind of chord -> what music21 calls it.
OUTSIDE_KINDS = {
    "": "major triad",
    "m": "minor triad",
    "7": "dominant seventh chord",
    "m7": "minor seventh chord",
    "dim": "diminished triad",
    "maj7": "major seventh chord",
    "m7b5": "half-diminished seventh chord",
    "dim7": "diminished seventh chord",
    "+": "augmented triad",
}
BY_SOUND = "enharmonic equivalent to "  # of chords that are spelled in another way

#: Our name of an interval -> music21's.
OUTSIDE_INTERVALS = {
    "minor second": {"Minor Second"},
    "second": {"Major Second"},
    "augmented second": {"Augmented Second"},
    "diminished third": {"Diminished Third"},
    "minor third": {"Minor Third"},
    "third": {"Major Third"},
    "diminished fourth": {"Diminished Fourth"},
    "fourth": {"Perfect Fourth"},
    "tritone": {"Augmented Fourth", "Diminished Fifth"},
    "fifth": {"Perfect Fifth"},
    "augmented fifth": {"Augmented Fifth"},
    "minor sixth": {"Minor Sixth"},
    "sixth": {"Major Sixth"},
    "augmented sixth": {"Augmented Sixth"},
    "diminished seventh": {"Diminished Seventh"},
    "minor seventh": {"Minor Seventh"},
    "major seventh": {"Major Seventh"},
}


#: Chords over which blocks are named, one of each kind that spells its tones in a way of its own.
OF_BARS = (("I7", False), ("IV7", False), ("V+7", False), ("#ivdim7", False), ("vi7", False),
           ("Imaj7", False), ("i6", True), ("bVI7", True), ("ii7b5", True))  # fmt: skip


def chords_and_splits() -> Iterator[Tab]:
    for size in (2, 3, 4):
        yield from blocks(size)
    yield from splits()


def spelled(tab: Tab, harp: Harp, key: Key, chord: Chord) -> tuple[str, ...]:
    """The names of what sounds, with octaves, as the library writes them; lowest first."""
    names = (key.spell_octave(midi, chord) for midi in harp.pitches(tab))
    return tuple(name.replace("b", "-") for name in names)


@cache
def their_kind(names: tuple[str, ...]) -> tuple[str, str]:
    """What music21 calls a chord, and its root."""
    found = OutsideChord(list(names))
    return found.commonName, found.root().name.replace("-", "b")


@cache
def their_interval(names: tuple[str, str]) -> str:
    return str(Interval(Pitch(names[0]), Pitch(names[1])).semiSimpleNiceName)


@cache
def their_symbol(root: str, kind: str) -> set[int]:
    return {tone.pitchClass for tone in ChordSymbol(root.replace("b", "-") + kind).pitches}


@pytest.mark.parametrize("position", POSITIONS)
@pytest.mark.parametrize("harp_key", HARP_KEYS)
def test_names_of_blocks_and_splits_are_the_librarys(harp_key: str, position: int) -> None:
    """Every block and split over chords of each kind, in all keys and positions. Source: music21.

    A chord that is named by the tones of the bar's chord has the library's root and its common
    name; every other has the pitches of the library's chord symbol of that name.
    """
    compared: set[str] = set()
    harp = Harp(harp_key)
    for text, minor in OF_BARS:
        chord, key = parse_chord(text), song_key(harp_key, position, minor)
        tones = {(key.pitch_class + chord.root + tone) % 12 for tone in chord.tones}
        for tab in chords_and_splits():
            name, midi = sounding_name(tab, harp, key, chord), harp.pitches(tab)
            names = spelled(tab, harp, key, chord)
            of_chord = {each % 12 for each in midi} <= tones
            compared.add(checked(name, names, of_chord))
    assert compared >= {"octave", "third", "", "m"}


@cache
def checked(name: str, names: tuple[str, ...], of_chord: bool) -> str:
    """The kind of what was compared."""
    where = (name, names)
    plain = [each.rstrip("0123456789").replace("-", "b") for each in names]
    if name.startswith("octave"):
        assert set(plain) == {name.removeprefix("octave ")}, where
        return "octave"
    if len(names) == 2:
        kind = name.removesuffix(f" {' '.join(plain)}")
        semitones = (Pitch(names[1]).midi - Pitch(names[0]).midi) % 12
        if of_chord:
            assert their_interval((names[0], names[1])) in OUTSIDE_INTERVALS[kind], where
        else:  # named by their sound, as players do
            assert Interval(semitones).niceName in OUTSIDE_INTERVALS[kind], where
        return kind
    if name == " ".join(plain):  # no name: none of our kinds
        assert their_kind(names)[0] not in OUTSIDE_KINDS.values(), where
        return "unnamed"
    root = name[:2] if name[1:2] in ("b", "#") else name[0]
    kind = name.removeprefix(root)
    assert their_symbol(root, kind) == {Pitch(each).pitchClass for each in names}, where
    if of_chord and kind in OUTSIDE_KINDS:
        common, their_root = their_kind(names)
        assert common.removeprefix(BY_SOUND) == OUTSIDE_KINDS[kind], where
        if not common.startswith(BY_SOUND):
            assert their_root == root, where
        else:  # three tones of a diminished seventh, such as C Eb F# of F#dim7: our own choice
            assert kind == "dim", where
    return kind


@pytest.mark.parametrize(
    ("tuning", "chord", "tab", "name"),
    [
        # Source: music21 finds the root of a diminished seventh by its spelling. 3 to 6 draw of a
        # C harp in harmonic minor are B D F Ab.
        ("harmonic minor", "viidim7", "3456d", "Bdim7"),
        ("harmonic minor", "iidim7", "3456d", "Ddim7"),
        ("harmonic minor", "ivdim7", "3456d", "Fdim7"),
        ("harmonic minor", "viidim7", "36d", "diminished seventh B Ab"),
        ("harmonic minor", "V7b9", "36d", "diminished seventh B Ab"),
        ("harmonic minor", "iidim7", "46d", "tritone D Ab"),
        # Over a chord with a sixth of its own it is none.
        ("richter", "II7", "36d", "minor seventh B A"),
        ("richter", "IV", "46d", "fifth D A"),
    ],
)
def test_a_diminished_seventh_has_the_name_that_the_bar_gives_it(
    tuning: str, chord: str, tab: str, name: str
) -> None:
    harp, key = Harp("C", tuning=TUNINGS[tuning]), song_key("C", 1)
    of_bar = parse_chord(chord)
    assert sounding_name(tab_of(tab), harp, key, of_bar) == name
    names = spelled(tab_of(tab), harp, key, of_bar)
    if name.endswith("dim7") and chord != "ivdim7":  # whose Ebb is written D
        assert their_kind(names) == ("diminished seventh chord", name.removesuffix("dim7"))


@pytest.mark.parametrize(
    ("chord", "name"), [("I6", "C6"), ("vi7", "Am7"), ("IV7", "C6"), (None, "C6")]
)
def test_a_block_with_two_names_has_that_of_the_bar(chord: str | None, name: str) -> None:
    """Common practice, no source: C E G A is C6 on C, and Am7 on A; else the lowest note names it.

    No tuning of ours has it: 4 to 7 blow of this one are C E G A.
    """
    blow = (0, 4, 7, 12, 16, 19, 21, 28, 31, 36)
    harp = Harp("C", tuning=TUNINGS["richter"]._replace(name="own", blow=blow))
    of_bar = parse_chord(chord) if chord else None
    assert sounding_name(tab_of("4567b"), harp, song_key("C", 1), of_bar) == name


@pytest.mark.parametrize(
    ("tab", "name"),
    [("123d", "G"), ("1234d", "G"), ("2345d", "G7"), ("14d", "octave D"), ("23d", "third G B"),
     ("24b", "minor sixth E C"), ("456d", "Dm"), ("345d", "Bdim"), ("678d", "A B D")],
)  # fmt: skip
def test_what_a_block_or_split_sounds_as(tab: str, name: str) -> None:
    """On a C harp in 2nd position: draw D G B D F A B D F A, blow C E G over and over.

    Source: the layout, Wikipedia, "Richter-tuned harmonica"; the names, music21 above.
    """
    assert sounding_name(tab_of(tab), Harp("C"), song_key("C", 2)) == name


# ---- What players say ----------------------------------------------------------------------


# Common practice, no source: in second position I and IV have a block on holes 1-3, V has none,
# and one doubles its root instead.
@pytest.mark.parametrize("key", HARP_KEYS)
@pytest.mark.parametrize(("numeral", "block"), [("I7", ["123d"]), ("IV7", ["123b"]), ("V7", [])])
def test_blocks_on_holes_1_to_3_in_second_position(
    numeral: str, block: list[str], key: str
) -> None:
    assert on_holes_1_to_3(on_harp(numeral, key=key)) == block


# Common practice, no source.
@pytest.mark.parametrize(
    ("numeral", "root"), [("I7", "2d"), ("I7", "3b"), ("IV7", "1b"), ("V7", "1d"), ("V7", "4d")]
)
def test_roots_in_second_position(numeral: str, root: str) -> None:
    assert root in tabs(on_harp(numeral).roots)


# Common practice, no source: over V in second position the root is doubled as an octave split.
def test_the_doubled_root_over_v() -> None:
    assert "14d" in tabs(on_harp("V7").splits)


# Common practice, no source: the third of V is a half-step bend of 2 draw, its fifth a
# whole-step bend of 3 draw, on the low holes.
def test_what_v_needs_bent_in_second_position() -> None:
    tones = {tone.degree: tabs(tone.tabs) for tone in on_harp("V7").tones}
    assert "2d'" in tones["3"]
    assert "3d''" in tones["5"]


# Our own choice: what needs no bend is named first.
def test_natural_notes_come_before_bends() -> None:
    assert tabs(on_harp("I7").tones[3].tabs) == ["5d", "9d", "2d''"]


# By the definition of a chord tone.
@pytest.mark.parametrize("position", [1, 2, 3, 4, 5, 12])
@pytest.mark.parametrize("numeral", ["I7", "IV7", "V7", "i7", "iv7", "#ivdim7"])
def test_everything_offered_sounds_chord_tones_only(numeral: str, position: int) -> None:
    harp, key, chord = Harp("A"), song_key("A", position), parse_chord(numeral)
    found = chord_on_harp(chord, key, harp)
    for tab in (*found.blocks, *found.splits, *(tab for tone in found.tones for tab in tone.tabs)):
        degrees = {(midi - key.pitch_class - chord.root) % 12 for midi in harp.pitches(tab)}
        assert degrees <= chord.tones


# Common practice, no source: over V in second position the doubled 1 draw stands in for a block.
@pytest.mark.parametrize("block", ["123d", "12d", "23d"])
def test_a_block_over_v_is_answered_with_the_doubled_root(block: str) -> None:
    problem = only_problem(over("V7", f"w {block}"))
    assert next(iter(problem.fields["offers"].items())) == ("14d", "octave D")


# Common practice, no source.
@pytest.mark.parametrize("key", HARP_KEYS)
def test_2_draw_and_3_blow_are_one_pitch(key: str) -> None:
    harp = Harp(key)
    assert harp.reed(2, Breath.DRAW) == harp.reed(3, Breath.BLOW)


# Our own choice: wider mouths are rare. In second position 1 to 5 draw sound I7.
@pytest.mark.limit("judge.harmony.LARGEST_BLOCK")
def test_blocks_are_four_holes_wide_at_most() -> None:
    assert {tab.span for tab in on_harp("I7").blocks} == {2, 3, 4}
