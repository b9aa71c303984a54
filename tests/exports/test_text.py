"""The text tab: what it says, that it lines up, and that it stays narrow."""

from __future__ import annotations

import re

import pytest

from formsheet.cells import cells
from formsheet.exports.text import WIDTH, text_tab
from tests.exports.golden import GOLDEN, tab_of
from tests.helpers import lesson_text, over, own_form, tune_of
from tests.lessons import NAMES


def tab(text: str) -> list[str]:
    return text_tab(tune_of(text)).splitlines()


def bar_of(chords: str, music: str, bar: str = "Bar 1,", **facts: str) -> list[str]:
    """The head of a bar and its rows, stripped."""
    lines = [*tab(over(chords, music, **facts)), ""]
    first = next(at for at, line in enumerate(lines) if line.startswith(bar))
    return [line.strip() for line in lines[first : lines.index("", first)]]


def key(chords: str, music: str, **facts: str) -> dict[str, str]:
    """The signs of the key with their words."""
    lines = tab(over(chords, music, **facts))
    first = lines.index("--- How to read it ---") + 1
    pairs = (re.split(r"\s{2,}", line) for line in lines[first : lines.index("", first)])
    return dict(pairs)


def pairs_of_rows(text: str) -> list[tuple[str, str]]:
    """Counts and tab, as they stand one above the other."""
    rows = [line for line in text.splitlines() if re.match(r"  [1-4.](\s|$)", line)]
    after = dict(zip(text.splitlines(), text.splitlines()[1:], strict=False))
    return [(row, after[row]) for row in rows]


@pytest.mark.parametrize("name", NAMES)
def test_tab_is_the_golden_one(name: str) -> None:
    assert tab_of(name) == (GOLDEN / f"{name}.txt").read_text(encoding="utf-8")


@pytest.mark.parametrize("name", NAMES)
def test_every_count_has_its_sign_and_stands_above_it(name: str) -> None:
    pairs = pairs_of_rows(tab_of(name))
    assert len(pairs) >= 8
    for counts, signs in pairs:
        starts = [[found.start() for found in re.finditer(r"\S+", row)] for row in (counts, signs)]
        assert starts[0] == starts[1], f"{counts}\n{signs}"


@pytest.mark.parametrize("name", NAMES)
def test_no_line_is_wide(name: str) -> None:
    assert max(map(cells, tab_of(name).splitlines())) <= WIDTH


def test_a_bar() -> None:
    assert bar_of("I7", "q 2d e 3d' 4d h -") == [
        "Bar 1, I7 (G7): A, Run",
        "1   2    &   3  4",
        "2d  3d'  4d  -  -",
    ]


def test_notes_sound_on_over_beats_and_bar_lines() -> None:
    assert bar_of("I | I", "q. 2d e 3d h = | q = h. -")[1:] == [
        "1   2  &   3  4",
        "2d  =  3d  =  =",
    ]
    assert bar_of("I | I", "w 2d | q = h. -", "Bar 2,") == [
        "Bar 2, I (G): A (goes on)",
        "1  2  3  4",
        "=  -  -  -",
    ]


def test_chords_splits_and_words_stand_beside_the_holes() -> None:
    row = bar_of("I", 'q 123d{wah} 36b"ka" 2d!{short}"a" -')[2]
    assert row.split() == ["123d(wah)", '36b"ka"', '2d(short)"a"', "-"]


def test_a_crowded_bar_goes_on_below_at_a_beat() -> None:
    rows = bar_of("I", "s [ 3d''{vibrato} ]x16")[1:]
    assert [row.split() for row in rows[::2]] == [
        ["1", "e", "&", "a"], ["2", "e", "&", "a"], ["3", "e", "&", "a"], ["4", "e", "&", "a"],
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("music", "counts"),
    [
        ("e3 2d 3d 4d h. -", "1 trip let 2 3 4"),
        ("s 2d 3d e 4d h. -", "1 e & 2 3 4"),
        ("s3 2d 3d 2d e 4d h. -", "1 . . & 2 3 4"),
        ("q3 2d 3d 4d h -", "1 let 2 trip 3 4"),
        ("s3 2d 3d 2d s 4d 4d h. -", "1 . . & . 2 3 4"),
    ],
)
def test_how_a_beat_is_counted(music: str, counts: str) -> None:
    """Common practice, no source."""
    assert bar_of("I", music)[1].split() == counts.split()


def test_twelve_eight_is_counted_in_threes() -> None:
    row = bar_of("I", "e 2d 3d 4d q. 2d h. -", meter="12/8")[1]
    assert row.split() == ["1", "&", "a", "2", "3", "4"]


def test_two_chords_in_a_bar() -> None:
    assert bar_of("I7 IV7", "w 2d")[0] == "Bar 1, I7 (G7), on 3 IV7 (C7): A, Run"


def test_change_of_feel_is_told() -> None:
    head = bar_of("I", "straight q 2d 3d swing e 2d 2d q 2d", feel="swing")[0]
    assert head == "Bar 1, I (G): A, Run; straight from 1; swing from 3"


def test_pick_ups() -> None:
    lines = tab(over("I | I", "pickup e 1d 2b\n q 2d h. - | q 2d h. -"))
    first = lines.index("Pick-up, before bar 1")
    assert [line.strip() for line in lines[first + 1 : first + 3]] == ["4   &", "1d  2b"]
    body = "lick a on I\n pickup e 1d\n q 2d h. -\nplay\n bars 1-2 a"
    heads = [line for line in tab(lesson_text(body, form=own_form("I | I"))) if "Bar" in line]
    assert heads[0] == "Bar 1, I (G): A, A, 1 of 2; pick-up from 4 &"


def test_only_signs_that_occur_stand_in_the_key() -> None:
    assert key("I", "w 2d") == {
        "2d": "hole 2 draw: breathe in",
        "=": "the note sounds on; do not strike it again",
        "A": "a lick; the list below has its title",
    }
    assert list(key("I", "q 4b e 3d' - h -")) == ["4b", "3d'", "-", "1 &", "A"]
    signs = ["6ob", "7od", "123d", "14b", "(dip)", "A"]
    assert list(key("I", "q 6ob{dip} 7od 123d 14b")) == signs


def test_heading() -> None:
    lines = tab(over("I", "w 2d", harp="low F", tuning="country", feel="swing", learn="50"))
    assert lines[:6] == [
        "Test Blues",
        "Harp: low F, country tuning, 2nd position",
        "Song key: C",
        "Form: Own, 4/4",
        "Tempo: 60 beats a minute, start at 50",
        "Swing: the first of two eighths is twice as long as the second",
    ]


@pytest.mark.parametrize(
    "title", ["Kühler Morgen", "川のブルース", "Улица", "e\u0301tude", "🎶 Tune"]
)
def test_title_in_any_writing(title: str) -> None:
    assert tab(over("I", "w 2d", title=title))[0] == title


@pytest.mark.parametrize("syllable", ["ハ", "e\u0301", "wäh"])
def test_syllables_in_any_writing_line_up(syllable: str) -> None:
    lines = tab(over("I", f'h 2d"{syllable}" 3d'))
    counts, signs = lines[lines.index("Bar 1, I (G): A, Run") + 1 :][:2]
    assert signs.startswith(f'  2d"{syllable}"')
    assert cells(signs[: signs.index("3d")]) == counts.index("3")


def test_choruses_alike_are_written_once() -> None:
    body = 'lick a on I\n w 2d\nplay "Round" x3\n bar 1 a'
    lines = tab(lesson_text(body, form=own_form("I")))
    assert [line for line in lines if line.startswith("---")] == [
        "--- How to read it ---",
        "--- Round ---",
        "--- The licks ---",
    ]
    assert lines[lines.index("--- Round ---") + 1] == "Play 3 times"


TURNAROUND = """lick a on I, IV
 w 2d
turnaround turn on I IV | I V
 h 2d 1b | h 2d 1d
play x2
 bar 1 a
 bar 2 a
 bars 3-4 turn
 last time ending I | I
 last time bars 3-4 a x2"""


def test_ending_of_two_bars_and_a_last_time_without_it() -> None:
    form = own_form("I7 | IV7 | I7 | V7").replace(
        '"Own"', '"The never ending road" ending I IV | I V'
    )
    lines = tab(lesson_text(TURNAROUND, form=form))
    assert "Form: The never ending road ending I IV | I V, 4/4" in lines
    heads = [line for line in lines if line.startswith(("---", "Bar", "Play"))]
    assert heads[1:] == [
        "--- The tune ---",
        "Play twice, the last time with its own bars 3 and 4",
        "Bar 1, I7 (G7): A, A",
        "Bar 2, IV7 (C7): A",
        "Bar 3, I7 (G7), on 3 IV7 (C7): T, Turn",
        "Bar 4, I7 (G7), on 3 V7 (D7): T (goes on)",
        "--- Last time, bars 3 and 4 ---",
        "Bar 3, I7 (G7): A, 1 of 2",
        "Bar 4, I7 (G7): A, 2 of 2",
        "--- The licks ---",
    ]


def test_form_of_a_long_ending_is_wrapped() -> None:
    ending = " | ".join(["I7 VI7"] * 11 + ["ii7 V7"])
    lines = tab(lesson_text("play\n bars 1-12 rest", form=f"12-bar standard ending {ending}"))
    assert max(map(cells, lines)) <= WIDTH
    assert f"Form: 12-bar standard ending {ending}, 4/4" in " ".join(lines)


def test_tips_and_footer() -> None:
    body = "lick a on I\n w 2d\n tip Let it ring.\nplay\n bars 1-2 a"
    facts = {"form": own_form("I | I"), "teacher": "A class", "rights": "Copy it"}
    lines = tab(lesson_text(body, **facts))
    assert lines[-6:] == ["", "A, A: bars 1 and 2", "  Let it ring.", "", "A class", "Copy it"]


def test_every_lick_that_is_played_is_listed_with_its_letter_and_its_bars() -> None:
    """Space stands around a lick with tips alone."""
    body = (
        'lick a "Porch" on I\n w 2d\nlick b "Creek" on I\n w 3d\n tip Softly.\n'
        'lick c "Gate" on I\n w 4d\nlick d "Hill" on I\n w 5d\nlick e "Left out" on I\n w 6d\n'
        "play\n bars 1-5 b, a, c, d, a"
    )
    lines = tab(lesson_text(body, form=own_form("I | I | I | I | I")))
    assert lines[lines.index("--- The licks ---") :] == [
        "--- The licks ---",
        "",
        "A, Creek: bar 1",
        "  Softly.",
        "",
        "B, Porch: bars 2 and 5",
        "C, Gate: bar 3",
        "D, Hill: bar 4",
    ]
    assert [line.partition(": ")[2] for line in lines if line.startswith("Bar")] == [
        "A, Creek", "B, Porch", "C, Gate", "D, Hill", "B"
    ]  # fmt: skip


def test_a_pickup_that_is_played_once_says_so() -> None:
    text = over("I", "pickup once e 1d 2b\n w 2d").replace("play", "play x3")
    lines = tab(text)
    assert lines[lines.index("--- The tune ---") + 1] == (
        "Play 3 times; pick-up only once, at the very beginning"
    )
    assert sum(line.startswith("Pick-up") for line in lines) == 1
    assert not any("pick-up from" in line for line in lines)
