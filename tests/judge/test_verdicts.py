"""The verdict on each of the twelve notes over each kind of chord, against chord-scale theory.

The source: the avoid notes and available tensions of Nettles and Graf, "The Chord Scale Theory and
Jazz Harmony" (1997), as tabled in Wikipedia, "Avoid note". Both are quoted from memory. Wikipedia's
table has the seven chords of a major key (rows marked W: Imaj7, ii7, iii7, IVmaj7, V7, vi7,
vii7b5); the other rows have the scale that the same theory gives to the chord, which is named.

Each chord has three rows:

- what the theory says of the note: C chord tone, T available tension, A avoid note, `.` not in the
  scale;
- the verdict: C chord tone, i idiomatic, c colour, x avoid;
- why: s as the source says (an avoid note is by its definition a half step above a chord tone),
  b a blue note (source: Cutting 2018, below), p common practice without a source, o our own choice.
"""

from __future__ import annotations

from typing import NamedTuple

import pytest

from formsheet.judge.verdicts import BLUE_NOTES, Verdict, tone_verdict, verdict_on
from formsheet.music.chord import parse_chord
from formsheet.music.degree import DEGREES
from formsheet.music.form import FORMS
from formsheet.music.harp import HARP_KEYS, Harp
from formsheet.music.key import Key, song_key
from formsheet.music.tab import Tab

#                     R b9 9 b3 3 4 b5 5 b6 6 b7 7
MAJOR = """
I7 Mixolydian         C .  T .  C A .  C .  T C  .
                      C x  c i  C x i  C x  c C  x
                      s s  s b  s s b  s s  s s  s
IV7 Lydian b7         C .  T .  C . T  C .  T C  .
                      C x  c i  C x c  C x  c C  x
                      s s  s p  s s s  s s  s s  s
V7 Mixolydian, W      C .  T .  C A .  C .  T C  .
                      C x  c i  C x c  C x  c C  x
                      s s  s p  s s p  s s  s s  s
II7 Mixolydian        C .  T .  C A .  C .  T C  .
                      C x  c i  C x c  C x  c C  x
                      s s  s p  s s p  s s  s s  s
VI7 Mixolydian b13    C .  T .  C A .  C T  . C  .
                      C x  c i  C x c  C x  c C  x
                      s s  s p  s s p  s p  p s  s
bVII7 Lydian b7       C .  T .  C . T  C .  T C  .
                      C x  c i  C x c  C x  c C  x
                      s s  s p  s s s  s s  s s  s
I9 Mixolydian         C .  C .  C A .  C .  T C  .
                      C x  C i  C x i  C x  c C  x
                      s s  s b  s s b  s s  s s  s
V9 Mixolydian         C .  C .  C A .  C .  T C  .
                      C x  C i  C x c  C x  c C  x
                      s s  s p  s s p  s s  s s  s
V13 Mixolydian        C .  T .  C A .  C .  C C  .
                      C x  c i  C x c  C x  C C  x
                      s s  s p  s s p  s s  s s  s
I7#9 altered          C T  . C  C . T  C T  . C  .
                      C x  c C  C x i  C x  c C  x
                      s p  p s  s s b  s p  p s  s
V7#9 altered          C T  . C  C . T  C T  . C  .
                      C x  c C  C x c  C x  c C  x
                      s p  p s  s s s  s p  p s  s
V+7 whole tone        C .  T .  C . T  . C  . C  .
                      C x  c i  C x c  c C  c C  x
                      s s  s p  s s s  p s  p s  s
V7sus4 Mixolydian     C .  T .  A C .  C .  T C  .
                      C x  c c  c C x  C x  c C  x
                      s s  s p  p s s  s s  s s  s
Vsus4 Mixolydian      C .  T .  A C .  C .  T T  .
                      C x  c c  c C x  C x  c c  c
                      s s  s p  p s s  s s  s s  p
Imaj7 Ionian, W       C .  T .  C A .  C .  T .  C
                      C x  c i  C x i  C x  c i  C
                      s s  s b  s s b  s s  s b  s
IVmaj7 Lydian, W      C .  T .  C . T  C .  T .  C
                      C x  c c  C x c  C x  c c  C
                      s s  s p  s s s  s s  s p  s
I6 Ionian             C .  T .  C A .  C .  C .  T
                      C x  c i  C x i  C x  C i  c
                      s s  s b  s s b  s s  s b  s
IV6 Lydian            C .  T .  C . T  C .  C .  T
                      C x  c c  C x c  C x  C x  c
                      s s  s p  s s s  s s  s s  s
I Ionian              C .  T .  C A .  C .  T .  T
                      C x  c i  C x i  C x  c i  c
                      s s  s b  s s b  s s  s b  s
IV Lydian             C .  T .  C . T  C .  T .  T
                      C x  c c  C x c  C x  c c  c
                      s s  s p  s s s  s s  s p  s
V Mixolydian          C .  T .  C A .  C .  T T  .
                      C x  c c  C x c  C x  c c  c
                      s s  s p  s s p  s s  s s  p
ii7 Dorian, W         C .  T C  . T .  C .  A C  .
                      C x  c C  x c c  C x  c C  x
                      s s  s s  s s p  s s  p s  s
ii Dorian             C .  T C  . T .  C .  A T  .
                      C x  c C  x c c  C x  c c  x
                      s s  s s  s s p  s s  p s  p
iii7 Phrygian, W      C A  . C  . T .  C A  . C  .
                      C x  c C  x c c  C x  c C  x
                      s s  p s  s s p  s s  p s  s
vi7 Aeolian, W        C .  T C  . T .  C A  . C  .
                      C x  c C  x c c  C x  c C  x
                      s s  s s  s s p  s s  p s  s
vii7b5 Locrian, W     C A  . C  . T C  . T  . C  .
                      C x  c C  x c C  x c  c C  x
                      s s  p s  s s s  s s  p s  s
#ivdim7 whole-half    C .  T C  . T C  . T  C .  T
                      C x  c C  x c C  x c  C x  x
                      s s  s s  s s s  s s  s s  p
"""
MINOR = """
i7 Aeolian            C .  T C  . T .  C A  . C  .
                      C x  c C  x c i  C x  c C  x
                      s s  s s  s s b  s s  p s  s
iv7 Dorian            C .  T C  . T .  C .  A C  .
                      C x  c C  x c c  C x  c C  x
                      s s  s s  s s p  s s  p s  s
i melodic minor       C .  T C  . T .  C .  T .  T
                      C x  c C  x c i  C x  c i  x
                      s s  s s  s s b  s s  s b  p
iv Dorian             C .  T C  . T .  C .  A T  .
                      C x  c C  x c c  C x  c c  x
                      s s  s s  s s p  s s  p s  p
i6 melodic minor      C .  T C  . T .  C .  C .  T
                      C x  c C  x c i  C x  C i  x
                      s s  s s  s s b  s s  s b  p
V7 Mixolydian b9 b13  C T  . .  C A .  C T  . C  .
                      C c  c i  C x c  C c  c C  x
                      s s  p p  s s p  s s  p s  s
V Mixolydian b9 b13   C T  . .  C A .  C T  . T  .
                      C c  c c  C x c  C c  c c  c
                      s s  p p  s s p  s s  p s  p
V7b9 Mixolydian b9    C C  . .  C A .  C T  . C  .
                      C C  c i  C x c  C c  c C  x
                      s s  p p  s s p  s s  p s  s
bVI7 Lydian b7        C .  T .  C . T  C .  T C  .
                      C x  c i  C x c  C x  c C  x
                      s s  s p  s s s  s s  s s  s
ii7b5 Locrian         C A  . C  . T C  . T  . C  .
                      C x  c C  x c C  x c  c C  x
                      s s  p s  s s s  s s  p s  s
viidim7 whole-half    C .  T C  . T C  . T  C .  T
                      C x  c C  x c C  x c  C x  x
                      s s  s s  s s s  s s  s s  p
"""
# A tune that plays blue notes of its key over plain triads: only the 7 is another, our own choice.
BLUE = """
I Ionian              C .  T .  C A .  C .  T .  T
                      C x  c i  C x i  C x  c i  x
                      s s  s b  s s b  s s  s b  o
IV Lydian             C .  T .  C . T  C .  T .  T
                      C x  c c  C x c  C x  c c  x
                      s s  s p  s s s  s s  s p  o
V Mixolydian          C .  T .  C A .  C .  T T  .
                      C x  c c  C x c  C x  c c  x
                      s s  s p  s s p  s s  s s  o
II Mixolydian         C .  T .  C A .  C .  T T  .
                      C x  c c  C x c  C x  c c  c
                      s s  s p  s s p  s s  s s  p
"""

VERDICTS = {
    "C": Verdict.CHORD_TONE, "i": Verdict.IDIOMATIC, "c": Verdict.COLOUR, "x": Verdict.AVOID,
}  # fmt: skip


class Row(NamedTuple):
    """One chord: twelve letters of theory, of verdicts, of reasons."""

    chord: str
    minor: bool
    blue: bool  # the tune has blue notes of its key
    theory: str
    verdicts: str
    why: str


def rows_of(table: str, *, minor: bool = False, blue: bool = False) -> list[Row]:
    lines = [line for line in table.splitlines() if line]
    return [
        Row(
            lines[at].split()[0],
            minor,
            blue,
            *("".join(line[22:].split()) for line in lines[at : at + 3]),
        )
        for at in range(0, len(lines), 3)
    ]


ROWS = [*rows_of(MAJOR), *rows_of(MINOR, minor=True), *rows_of(BLUE, blue=True)]
IDS = [f"{row.chord}{' minor' * row.minor}{' blue' * row.blue}" for row in ROWS]


def test_the_table_has_every_chord_of_the_forms() -> None:
    chords = {(str(chord), form.minor) for form in FORMS.values() for chord in form.chords}
    assert chords <= {(row.chord, row.minor) for row in ROWS}
    assert all(len(part) == 12 for row in ROWS for part in row[3:])


@pytest.mark.parametrize("tonic", ["C", "G", "F#", "Eb"])
@pytest.mark.parametrize("row", ROWS, ids=IDS)
def test_twelve_notes_over_a_chord(row: Row, tonic: str) -> None:
    key, chord = Key(tonic, row.minor), parse_chord(row.chord)
    root = key.pitch_class + chord.root
    found = [tone_verdict((root + up) % 12, chord, key, row.blue) for up in range(12)]
    assert found == [VERDICTS[letter] for letter in row.verdicts]


@pytest.mark.parametrize("row", ROWS, ids=IDS)
def test_every_verdict_has_its_reason(row: Row) -> None:
    """What is marked as the source's agrees with it; what does not agree is marked as our own."""
    tones = parse_chord(row.chord).tones
    for up, (theory, verdict, why) in enumerate(
        zip(row.theory, row.verdicts, row.why, strict=True)
    ):
        above_a_tone = (up - 1) % 12 in tones
        agrees = {
            "C": verdict == "C",
            "T": verdict == "c",
            "A": verdict == "x",
            ".": verdict == "x" and above_a_tone,
        }[theory]
        where = (row.chord, DEGREES[up], why)
        assert (theory == "C") == (up in tones) == (verdict == "C"), where
        if why == "s":
            assert agrees, where
        elif why == "b":
            assert parse_chord(row.chord).root == 0, where
            assert up in BLUE_NOTES, where
            assert verdict == "i", where
        else:
            assert not agrees, where


# Where the verdicts leave the theory, what it says against what we say. Each is a rule of our
# table that the blues has and the theory, which is for jazz, has not: common practice, no source.
LEFT = {
    ("A", "c"): {
        # The 13 over a minor chord: the theory keeps it for the dominant; a blues has it anywhere.
        ("ii7", "6"), ("ii", "6"), ("iv7", "6"), ("iv", "6"),
        # The 3 over a suspended chord is what it resolves to.
        ("V7sus4", "3"), ("Vsus4", "3"),
    },
    ("T", "x"): {
        # Altered tensions belong to V in minor alone; elsewhere they sound like mistakes.
        ("VI7", "b6"), ("I7#9", "b9"), ("I7#9", "b6"), ("V7#9", "b9"), ("V7#9", "b6"),
        # The 7 over a minor or a diminished chord is heard as a wrong b7.
        ("i", "7"), ("i6", "7"), ("#ivdim7", "7"), ("viidim7", "7"),
        # In a blues the triads stand for sevenths (our own choice).
        ("I", "7"), ("IV", "7"),
    },
}  # fmt: skip


def test_all_that_contradicts_the_theory_is_listed() -> None:
    for (theory, verdict), expected in LEFT.items():
        assert {
            (row.chord, DEGREES[up])
            for row in ROWS
            for up in range(12)
            if (row.theory[up], row.verdicts[up]) == (theory, verdict)
        } == expected


@pytest.mark.parametrize("row", ROWS, ids=IDS)
def test_nothing_a_half_step_above_a_chord_tone_is_colour_but_for_what_is_named(row: Row) -> None:
    """The definition of an avoid note (Wikipedia, "Avoid note"), and its exceptions here."""
    chord = parse_chord(row.chord)
    for up in range(12):
        if (up - 1) % 12 in chord.tones and row.verdicts[up] in "ci":
            named = (
                up in (2, 9)  # the 9 beside a b9, the 13 beside a #5: common practice
                or (row.minor and chord.root == 7 and up in (1, 8))  # of V in minor: the source
                or (chord.root == 0 and up in BLUE_NOTES)  # over I: Cutting 2018
                or (up == 3 and chord.dominant)  # beside a 9: common practice
            )
            assert named, (row.chord, DEGREES[up])


# ---- Blue notes ----------------------------------------------------------------------------

#: Cents above the key note at which early blues singers and players sound the blue notes: Cutting,
#: "Microtonal analysis of blue notes and the blues scale", Empirical Musicology Review 13 (2018)
#: 84, doi 10.18061/emr.v13i1-2.6316.
MEASURED = {"b3": 319, "b5": 583, "b7": 1038}
OCTAVE = 1200  # cents


def apart(one: float, other: float) -> float:
    """Cents between two places in the octave, the shorter way round."""
    up = (one - other) % OCTAVE
    return min(up, OCTAVE - up)


@pytest.mark.parametrize("harp_key", HARP_KEYS)
@pytest.mark.parametrize("position", [1, 2])
@pytest.mark.parametrize(("degree", "measured"), MEASURED.items())
def test_the_tabs_called_blue_are_the_nearest_to_the_measured_pitch(
    degree: str, measured: int, position: int, harp_key: str
) -> None:
    """Of all notes of the harp in equal temperament, bends included. Source: Cutting 2018."""
    harp, key, home = Harp(harp_key), song_key(harp_key, position), parse_chord("I7")
    off = {
        tab: apart(100.0 * (midi - key.pitch_class), measured) for tab, midi in harp.single_notes()
    }
    nearest = {str(tab) for tab, cents in off.items() if cents == min(off.values())}
    called = {
        str(tab)
        for tab, midi in harp.single_notes()
        if home.degree((midi - key.pitch_class) % 12) == degree
    }
    assert nearest == called != set()
    assert min(off.values()) < 50  # half of a half step: none of the other eleven is as near
    for tab, midi in harp.single_notes():
        if str(tab) in called:
            best = Verdict.CHORD_TONE if degree == "b7" else Verdict.IDIOMATIC
            assert tone_verdict(midi % 12, home, key) is best


def test_blue_notes_are_the_nearest_of_the_twelve() -> None:
    """Source: Cutting 2018."""
    nearest = [
        min(range(12), key=lambda up: apart(100 * up, measured)) for measured in MEASURED.values()
    ]
    assert tuple(nearest) == BLUE_NOTES


@pytest.mark.parametrize(
    ("position", "degree", "tabs"),
    [
        # Common practice, no source: where players bend for them.
        (2, "b3", {"3d'", "10b''"}),
        (2, "b5", {"1d'", "4d'"}),
        (2, "b7", {"2d''", "5d", "9d"}),
        (1, "b3", {"8b'"}),
        (1, "b5", {"2d'", "9b'"}),
        (1, "b7", {"3d'", "10b''"}),
    ],
)
def test_where_the_blue_notes_lie(position: int, degree: str, tabs: set[str]) -> None:
    harp, key = Harp("C"), song_key("C", position)
    up = BLUE_NOTES[list(MEASURED).index(degree)]
    found = {str(tab) for tab, midi in harp.single_notes() if (midi - key.pitch_class) % 12 == up}
    assert found == tabs


@pytest.mark.parametrize("position", [1, 2])
@pytest.mark.parametrize("measured", MEASURED.values())
def test_a_bend_reaches_the_measured_pitch_itself(measured: int, position: int) -> None:
    """It lies between the two notes of some hole, where bends lie (Bahnson, Antaki, Beery 1998)."""
    harp, key = Harp("C"), song_key("C", position)
    natural = [(tab, midi) for tab, midi in harp.single_notes() if not tab.bend]
    between = []
    for tab, midi in natural:
        other = harp.reed(tab.holes[0], tab.breath.other)
        down = (100 * (midi - key.pitch_class) - measured) % OCTAVE  # cents to bend down
        if 0 < down < 100 * (midi - other):
            between.append(str(tab))
    assert between


# ---- Blocks --------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("chord", "tab", "worst"),
    [
        # Our own choice: a block or split is as good as the worst of its tones. The blocks on
        # holes 1 to 3 in 2nd position: common practice.
        ("I7", "123d", Verdict.CHORD_TONE),
        ("IV7", "123b", Verdict.CHORD_TONE),
        ("V7", "123d", Verdict.AVOID),  # D G B: R 4 6
        ("IV7", "34d", Verdict.AVOID),  # B D: 7 9
        ("IV7", "45d", Verdict.AVOID),  # D F: 9 4
        ("I7", "56d", Verdict.COLOUR),  # F A: b7 9
        ("V7", "14d", Verdict.CHORD_TONE),
    ],
)
def test_a_block_is_as_good_as_its_worst_tone(chord: str, tab: str, worst: Verdict) -> None:
    harp, key = Harp("C"), song_key("C", 2)
    holes = tuple(int(hole) for hole in tab[:-1])
    breath = next(each.breath for each, _ in harp.single_notes() if str(each)[-1] == tab[-1])
    assert verdict_on(harp.pitches(Tab(holes, breath)), parse_chord(chord), key) is worst
