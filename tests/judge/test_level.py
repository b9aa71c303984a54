"""What each level of student is asked to do, on both sides of each number of `judge/level.py`.

All these numbers are our own choice. A bar is played at tempos that put the time between two notes
just above and just below the limit. The air of each level is in `test_breath.py`.
"""

from __future__ import annotations

import pytest

from formsheet.judge.level import ALIKE, ASKED, LIMITS, LOW_REED
from formsheet.music.harp import HARP_KEYS, REGISTERS, Harp
from formsheet.music.tab import Breath, Tab
from formsheet.music.tunings import HOLES
from formsheet.vocabulary.facts import Level
from tests.helpers import lesson_text, over, own_form, problems_of, slugs_of
from tests.judge.test_handling import KINDS, said

#: Hole 3 draw an octave above its blow reed: the only way to bends deeper than three half steps.
WIDE_TUNING = "wide\n  blow C E G C E G C E G C\n  draw D G G5 D F A B D F A"


# ---- Bends -----------------------------------------------------------------------------------


@pytest.mark.limit("judge.level.LIMITS")
@pytest.mark.parametrize(
    ("level", "passes", "too_deep"),
    [("beginner", "3d'", "3d''"), ("improver", "3d'''", "3d''''"), ("advanced", "3d'''", "3d''''")],
)
def test_the_deepest_bend(level: str, passes: str, too_deep: str) -> None:
    for note, slugs in ((passes, []), (too_deep, ["bend-hard"])):
        assert said(f"h {note} 3d", level=level, tuning=WIDE_TUNING) == slugs


@pytest.mark.limit("judge.level.LIMITS")
@pytest.mark.parametrize("level", ["beginner", "improver", "advanced"])
def test_overbends(level: str) -> None:
    slugs = [] if level == "advanced" else ["overbend-taught"]
    assert said("h 6ob 6d", level=level) == slugs


@pytest.mark.limit("judge.level.LIMITS")
@pytest.mark.parametrize(("level", "most"), [("beginner", 2), ("improver", 3), ("advanced", 5)])
@pytest.mark.parametrize("more", [0, 1])
def test_deep_bends_in_a_row(level: str, most: int, more: int) -> None:
    bent = most + more
    music = f"e {' '.join(['2d' + chr(39) * 2] * bent)} {' '.join(['2d'] * (8 - bent))}"
    assert said(music, level=level).count("bends-repeated") == more


@pytest.mark.limit("judge.level.DEEP_BEND")
@pytest.mark.parametrize(("bend", "slugs"), [("3d'", []), ("3d''", ["bends-repeated"])])
def test_a_bend_is_deep_from_a_whole_step_on(bend: str, slugs: list[str]) -> None:
    assert said(f"e {bend} {bend} {bend} {bend} h 2d", level="improver") == slugs


# 8 blow of a low C harp, bent: Eb, not high at all.
@pytest.mark.limit("judge.level.LIMITS")
@pytest.mark.parametrize("level", ["beginner", "improver", "advanced"])
def test_bends_on_the_top_holes(level: str) -> None:
    slugs = [] if level == "advanced" else ["bend-high"]
    assert said("h 8b' 8b", level=level, harp="low C") == slugs
    assert said("h 6d' 6d", level=level, harp="low C") == []


# 6 draw bent on C and Db harps is G# and A, on F# and high G harps D and Eb; 10 blow bent on F and
# F# harps is E and F, three octaves up.
@pytest.mark.limit("judge.level.LIMITS")
@pytest.mark.parametrize(
    ("level", "music", "harp", "higher"),
    [
        ("beginner", "h 6d' 6d", "C", "Db"),  # 80, 81
        ("improver", "h 6d' 6d", "F#", "high G"),  # 86, 87
        ("advanced", "h 10b' 10b", "F", "F#"),  # 100, 101
    ],
)
def test_the_highest_bend(level: str, music: str, harp: str, higher: str) -> None:
    assert said(music, level=level, harp=harp) == []
    assert said(music, level=level, harp=higher) == ["bend-high"]


# A whole note lasts 240 s / tempo.
@pytest.mark.limit("judge.level.LIMITS")
@pytest.mark.parametrize(
    ("level", "faster", "slower"),
    [
        ("beginner", "61", "59"),  # 3.9 s, 4.1 s
        ("improver", "40.5", "39.5"),  # 5.9 s, 6.1 s
        ("advanced", "24.2", "23.8"),  # 9.9 s, 10.1 s
    ],
)
def test_the_seconds_of_bent_notes(level: str, faster: str, slower: str) -> None:
    for tempo, slugs in ((faster, []), (slower, ["bent-long"])):
        assert said("w 3d'", level=level, tempo=tempo) == slugs


# ---- Moves -----------------------------------------------------------------------------------


# 4 draw to its bend takes 260 ms at ease: easy at 115 in eighths, at 58 in sixteenths.
@pytest.mark.limit("judge.level.LIMITS")
@pytest.mark.parametrize(
    ("level", "music", "slower", "faster"),
    [
        ("beginner", "e 4d 4d' q 4d h 4d", "230", "232"),  # 0.502, 0.497 of the tempo
        ("improver", "e 4d 4d' q 4d h 4d", "287", "290"),  # 0.402, 0.398
        ("advanced", "s 4d 4d' e 4d q 4d h 4d", "191", "194"),  # 0.302, 0.297
    ],
)
def test_the_tempo_at_which_the_hardest_move_is_easy(
    level: str, music: str, slower: str, faster: str
) -> None:
    for tempo, slugs in ((slower, []), (faster, ["move-too-fast"])):
        assert said(music, level=level, tempo=tempo) == slugs


# ---- Turns of the breath ---------------------------------------------------------------------


# Sixteenths last 15 s / tempo, eighths 30 s / tempo.
@pytest.mark.limit("judge.level.LIMITS")
@pytest.mark.parametrize(
    ("level", "music", "slower", "faster"),
    [
        ("beginner", "e 2d 3b 2d 3b h 3b", "123", "127"),  # 244 ms, 236 ms
        ("improver", "e 2d 3b 2d 3b h 3b", "196", "207"),  # 153 ms, 145 ms
        ("advanced", "s 2d 2b 2d 2b h. 2b", "145", "155"),  # 103 ms, 97 ms
    ],
)
def test_the_fastest_turns(level: str, music: str, slower: str, faster: str) -> None:
    for tempo, slugs in ((slower, []), (faster, ["turns-fast"])):
        assert said(music, level=level, tempo=tempo) == slugs


@pytest.mark.limit("judge.level.TURNS_IN_A_ROW")
@pytest.mark.parametrize(
    ("music", "slugs"),
    [("e 2d 2b 2d 2d h 2d", []), ("e 2d 2b 2d 2b h 2b", ["turns-fast"])],
)
def test_three_turns_in_a_row_are_a_finding(music: str, slugs: list[str]) -> None:
    assert said(music, tempo="240") == slugs


# ---- Slides ----------------------------------------------------------------------------------


# From 2 to 6 are four holes: log2(5) bits of Fitts' index, 349 ms at ease (see `judge/effort.py`).
# The limits are 384, 297 and 209 ms. An eighth lasts 30 s / tempo.
@pytest.mark.limit("judge.level.LIMITS", "judge.effort.NEW_NOTE", "judge.effort.SLIDE_PER_BIT")
@pytest.mark.parametrize(
    ("level", "slower", "faster"),
    [
        ("beginner", "78", "78.5"),  # 385 ms, 382 ms
        ("improver", "100.5", "101.7"),  # 299 ms, 295 ms
        ("advanced", "142.2", "144.5"),  # 211 ms, 208 ms
    ],
)
def test_the_time_for_a_wide_slide(level: str, slower: str, faster: str) -> None:
    for tempo, slugs in ((slower, []), (faster, ["slide-too-fast"])):
        assert said("e 2d 6d q 6d h 6d", level=level, tempo=tempo) == slugs


@pytest.mark.limit("judge.level.WIDE_SLIDE")
@pytest.mark.parametrize(("note", "slugs"), [("5d", []), ("6d", ["slide-too-fast"])])
def test_a_slide_is_wide_from_four_holes_on(note: str, slugs: list[str]) -> None:
    assert said(f"e 2d {note} q {note} h {note}", tempo="200") == slugs


@pytest.mark.limit("judge.level.WIDE_SLIDE")
def test_what_is_offered_for_a_wide_slide_is_no_wide_slide() -> None:
    """From 9 draw, over I7: notes three holes away at most."""
    (problem,) = [
        p for p in problems_of(over("I7", "e 9d 2d q 2d h 2d", tempo="170"))
        if p.code == "slide-too-fast"
    ]  # fmt: skip
    assert problem.fields["offers"] == ["9d", "8d", "7d"]


# ---- Changes of the mouth --------------------------------------------------------------------


def changing(times: int) -> str:
    """A bar of eighths: octave and bend in turn, so many changes, then the shape that is left."""
    notes = ["14d", "3d'"] * 4
    after = "14d" if times % 2 == 0 else "3d"
    return f"e {' '.join([*notes[: times + 1], *[after] * (7 - times)])}"


@pytest.mark.limit("judge.level.LIMITS")
@pytest.mark.parametrize(("level", "most"), [("beginner", 1), ("improver", 3), ("advanced", 5)])
def test_changes_of_the_mouth_in_a_row(level: str, most: int) -> None:
    assert said(changing(most), level=level, tempo="100") == []
    assert said(changing(most + 1), level=level, tempo="100") == ["mouth-changes"]


# A quarter lasts 60 s / tempo: 403 ms, 397 ms.
@pytest.mark.limit("judge.level.SOON")
@pytest.mark.parametrize(("tempo", "slugs"), [("149", []), ("151", ["mouth-changes"])])
def test_a_change_is_quick_below_four_tenths_of_a_second(tempo: str, slugs: list[str]) -> None:
    assert said("q 14d 3d' 14d 3d'", level="beginner", tempo=tempo) == slugs


# ---- Low reeds -------------------------------------------------------------------------------


# Eighths last 30 s / tempo, sixteenths 15 s / tempo.
@pytest.mark.limit("judge.level.LIMITS")
@pytest.mark.parametrize(
    ("level", "music", "slower", "faster"),
    [
        ("beginner", "e 1b 1b q 1b h 1b", "99", "101"),  # 303 ms, 297 ms
        ("improver", "e 1b 1b q 1b h 1b", "148", "152"),  # 203 ms, 197 ms
        ("advanced", "s 1b 1b e 1b q 1b h 1b", "106", "108"),  # 142 ms, 139 ms
    ],
)
def test_the_shortest_note_of_a_low_reed(level: str, music: str, slower: str, faster: str) -> None:
    for tempo, slugs in ((slower, []), (faster, ["reed-slow"])):
        assert said(music, level=level, tempo=tempo, harp="low D") == slugs


# 2 draw of a low C harp is the G that is the lowest of a G harp; bent it lies below.
@pytest.mark.limit("judge.level.LOW_REED")
@pytest.mark.parametrize(("note", "slugs"), [("2d", []), ("2d'", ["reed-slow"])])
def test_a_reed_is_low_below_the_lowest_of_a_g_harp(note: str, slugs: list[str]) -> None:
    assert said(f"e {note} {note} q {note} h {note}", harp="low C", tempo="152") == slugs
    assert said("e 1b 1b q 1b h 1b", harp="G", tempo="152") == []


# ---- Licks and phrases -----------------------------------------------------------------------


def many(licks: int, level: str) -> list[str]:
    """What is said of a tune of so many licks, each a bar long."""
    names = [f"l{number}" for number in range(licks)]
    body = "".join(f"lick {name} on I\n  q 2d 3d 4d -\n" for name in names)
    places = "".join(f"  bar {bar} {name}\n" for bar, name in enumerate(names, start=1))
    form = own_form(" | ".join(["I"] * licks))
    text = lesson_text(f"{body}play x2\n{places}", form=form, level=level)
    return [slug for slug in slugs_of(text) if slug in KINDS]


@pytest.mark.limit("judge.level.LIMITS")
@pytest.mark.parametrize(("level", "most"), [("beginner", 5), ("improver", 10), ("advanced", 14)])
def test_different_licks_in_a_tune(level: str, most: int) -> None:
    assert many(most, level) == []
    assert many(most + 1, level) == ["licks-many"]


def phrase(bars: int, level: str, between: str = "") -> list[str]:
    """What is said of one lick of so many bars, `between` at the end of the first."""
    first = f"q 3b 3d 4b {between}" if between else "q 3b 3d 4b 4d"
    music = " | ".join([first, *["q 3b 3d 4b 4d"] * (bars - 1)])
    text = over(" | ".join(["I"] * bars), music, level=level)
    return [slug for slug in slugs_of(text) if slug in KINDS]


@pytest.mark.limit("judge.level.LIMITS")
@pytest.mark.parametrize(("level", "most"), [("beginner", 4), ("improver", 8), ("advanced", 12)])
def test_the_length_of_a_phrase(level: str, most: int) -> None:
    assert phrase(most, level) == []
    assert phrase(most + 1, level) == ["phrase-long"]


# A third of a beat of rest, and half a beat.
@pytest.mark.limit("judge.level.PHRASE_REST")
@pytest.mark.parametrize(("end", "slugs"), [("e3 4b 3d -", ["phrase-long"]), ("e 4b -", [])])
def test_a_phrase_ends_with_a_rest_of_half_a_beat(end: str, slugs: list[str]) -> None:
    assert phrase(5, "beginner", end) == slugs


@pytest.mark.parametrize(
    ("words", "midi"),
    [
        *zip(ASKED["highest_bend"].tab, (LIMITS[each].highest_bend for each in Level), strict=True),
        *((asked.tab[0], value) for value, asked in ALIKE if asked.tab),
    ],
)
def test_a_pitch_is_said_as_harp_and_tab(words: str, midi: int) -> None:
    """The harp gives it; a bend is to the half step, the highest that the reed has."""
    key, tab = words.split()
    breath = Breath.DRAW if "d" in tab else Breath.BLOW
    hole = int(tab.rstrip("bd'"))
    assert Harp(key).pitches(Tab((hole,), breath, tab.count("'"))) == (midi,)


def test_low_reeds_are_on_holes_1_to_3_of_harps_called_low_alone() -> None:
    """As the words of the limit have it."""
    low = {
        (register, hole)
        for register in REGISTERS
        for key in HARP_KEYS
        for hole in range(1, HOLES + 1)
        for breath in Breath
        if Harp(key, register).reed(hole, breath) < LOW_REED
    }
    assert low == {("low", 1), ("low", 2), ("low", 3)}
