"""What the sheet shows, before it is drawn."""

from __future__ import annotations

from fractions import Fraction
from operator import attrgetter

import pytest

from formsheet.judge.joins import find_joins
from formsheet.judge.practice import practice_of
from formsheet.judge.practice_words import breathe_words, order_words
from formsheet.sheet import sheet_words
from formsheet.sheet.draw.legend import entry_sign
from formsheet.sheet.draw.look import Look
from formsheet.sheet.make_view import make_view
from formsheet.sheet.mark_styles import ARROWS, LETTERS, MARK_STYLES, SIGNS, MarkStyle
from formsheet.sheet.options import Options
from formsheet.sheet.tab_text import printed_tabs, with_dashes
from formsheet.sheet.view import Bar, ChordRow, Chorus, Sheet
from formsheet.sheet.view_practice import chord_rows
from formsheet.tune.lick_letters import LickLetters
from formsheet.vocabulary.techniques import TECHNIQUES
from tests.helpers import examined, lesson_text, over, own_form, told
from tests.lessons import NAMES, demo

PLAYED = "  every I a\n  every IV a\n  every V a"
LICK = "lick a on I, IV, V\n  q 2d 3d h 4d"


def sheet_of(text: str) -> Sheet:
    found = examined(text)
    assert found.tune, told(found.problems)
    return make_view(found.tune, found.fits, "test.lesson")


def first_bar(music: str, chords: str = "I7", **facts: str) -> Bar:
    return sheet_of(over(chords, music, **facts)).choruses[0].lines[0][0]


def counted(bar: Bar) -> str:
    return " ".join(count.label for count in bar.counts)


@pytest.mark.parametrize(
    ("music", "meter", "counts"),
    [
        ("w 2d", "4/4", "1 2 3 4"),
        ("q 2d e3 2d 2d 2d h 2d", "4/4", "1 2 & a 3 4"),
        ("s 2d 2d 2d 2d h. 2d", "4/4", "1 e & a 2 3 4"),
        ("q3 2d 2d 2d h 2d", "4/4", "1 a 2 & 3 4"),
        ("s3 2d 2d 2d e 2d h. 2d", "4/4", "1 · · & 2 3 4"),
        ("h. 2d", "3/4", "1 2 3"),
        ("h. 2d", "6/8", "1 2"),
        ("w. 2d", "12/8", "1 2 3 4"),
        ("q 2d 2d e 2d 2d h. 2d", "12/8", "1 a 2 & a 3 4"),
    ],
)
def test_bars_are_counted_as_players_count(music: str, meter: str, counts: str) -> None:
    assert counted(first_bar(music, meter=meter)) == counts


def test_counts_stand_where_they_are_counted() -> None:
    onsets = [count.onset for count in first_bar("e3 2d 2d 2d h. 2d").counts][:3]
    assert onsets == [0, Fraction(1, 3), Fraction(2, 3)]


def test_half_bar_chords_stand_at_their_place() -> None:
    chords = first_bar("h 2d 4b", "I7 IV7").chords
    assert [(int(c.onset), c.numeral, c.letter) for c in chords] == [
        (0, "I7", "G7"),
        (2, "IV7", "C7"),
    ]


def test_a_hold_ties_to_the_note_before() -> None:
    marks = first_bar("h 2d =").marks
    assert [(mark.tied_on, mark.hold) for mark in marks] == [(True, False), (False, True)]


def test_a_hold_over_the_bar_line_leaves_and_enters() -> None:
    line = sheet_of(over("I7 | I7", "h. 2d q 4d | = h. 2d")).choruses[0].lines[0]
    assert line[0].marks[-1].tied_on
    assert line[1].marks[0].hold


def test_landings_are_chord_tones_on_strong_beats() -> None:
    marks = first_bar("q 2d 3d 2b! 4d").marks  # over G7: G on one, B on two, E on three, D on four
    assert [mark.landing for mark in marks] == [True, False, False, False]


def test_feel_changes_are_marked_where_they_are_heard() -> None:
    bar = first_bar("h 2d straight e 2d 3d swing 2d 3d", feel="swing")
    assert [(int(f.onset), f.feel) for f in bar.feels] == [(2, "straight"), (3, "swing")]


def test_a_feel_ends_with_its_lick() -> None:
    text = over("I7 | I7", "w 2d | straight w 2d", feel="swing")
    line = sheet_of(text.replace("play\n", "play x2\n")).choruses[0].lines[0]
    assert [f.feel for f in line[1].feels] == ["straight"]


def test_what_a_screen_reader_says() -> None:
    bar = first_bar("""q 4b e 3d' -  q 123b 6ob{wah}"ka" """, "IV7")
    assert bar.spoken == (
        "Bar 1, four chord C 7, lick A, Run: 4 blow, quarter; 3 draw bent a half step, eighth; "
        "rest, eighth; holes 1 2 3 blow, quarter; 6 overblow, wah, say ka, quarter."
    )


LETTERED = lesson_text(
    """
lick a "Porch" on I
  q 2d e 3d' 4d q 2d -
lick b "Creek" on IV
  e 4b 5b q 6b h -
turnaround home "Way home" on V
  q 4d 3d'' 1d -
play x2
  bars 1-4 a
  bars 5-6 b
  bars 7-8 a
  bar 9 home
  bar 10 b
  bar 11 a
  bar 12 rest
""",
)


def test_a_bar_bears_the_letter_of_its_lick_and_knows_where_it_comes_first() -> None:
    sheet = sheet_of(LETTERED)
    bars = [bar for chorus in sheet.choruses for line in chorus.lines for bar in line]
    assert "".join(bar.letter or "-" for bar in bars) == "AAAABBAATBA-"
    assert [bar.number for bar in bars if bar.first_time] == [1, 5, 9]
    assert all(bar.starts_lick for bar in bars if bar.first_time)
    said = [bar.spoken.partition(": ")[0] for bar in bars]
    assert said[0].endswith(", lick A, Porch, time 1 of 4")
    assert said[1].endswith(", lick A, time 2 of 4")
    assert said[8].endswith(", turnaround T, Way home")
    assert said[11] == "Bar 12, five chord D 7"


def test_cards_and_log_bear_the_letters_of_licks() -> None:
    sheet = sheet_of(LETTERED.replace("tempo 60", "tempo 200"))  # a move inside a lick is hard
    assert [(card.letter, card.title) for card in sheet.cards] == [
        ("A", "Porch"), ("B", "Creek"), ("T", "Way home")
    ]  # fmt: skip
    assert not any(bar.letter or bar.lick for card in sheet.cards for bar in card.bars)
    assert "lick A: " in sheet.cards[0].bars[0].spoken
    rows = {row.name: row for group in sheet.practice for row in group.rows}
    assert (rows["Creek"].letter, rows["Creek"].letters) == ("B", ())
    assert (rows["Porch › Creek"].letter, rows["Porch › Creek"].letters) == ("", ("A", "B"))
    assert rows["Way home › Creek"].letters == ("T", "B")
    assert rows["Inside Way home"].letters == ("T",)


def test_the_key_lists_only_what_occurs() -> None:
    sheet = sheet_of(over("I7", "h 2d q 3d' -"))
    assert [entry.sign for entry in sheet.key_entries] == [
        "blow", "draw", "length", "bend", "landing"
    ]  # fmt: skip


@pytest.mark.parametrize("name", NAMES)
def test_every_sign_of_the_key_has_words_and_is_drawn(name: str) -> None:
    found = demo(name)
    assert found.tune
    for entry in make_view(found.tune, found.fits, name).key_entries:
        assert entry.words
        assert entry_sign(entry, Look()) or entry.sign == "length"


def test_harp_map_marks_the_holes_of_the_tune() -> None:
    holes = sheet_of(over("I7", "q 2d 3d' 6b 3d")).harp_map
    used = [(h.hole, n.draw, n.name, n.bend) for h in holes for n in h.notes if n.used]
    assert used == [(2, True, "G", 0), (3, True, "B", 0), (3, True, "Bb", 1), (6, False, "G", 0)]


def test_choruses_alike_are_printed_once() -> None:
    choruses = sheet_of(lesson_text(f"{LICK}\nplay x3\n{PLAYED}")).choruses
    assert [(c.title, c.note) for c in choruses] == [("", "play 3 times")]


def last_time(bars: str) -> list[Chorus]:
    text = lesson_text(f"{LICK}\nplay x3\n{PLAYED}\n  last time {bars} rest")
    return list(sheet_of(text).choruses)


def test_of_a_last_time_only_the_changed_bars_are_printed() -> None:
    first, last = last_time("bars 11-12")
    assert (first.title, first.note, first.times) == ("", "play 3 times", "1st and 2nd time")
    assert (last.title, last.note) == ("Last time, instead of bars 11 and 12", "")
    assert last.places == (10, 11)
    assert [[bar.number for bar in line] for line in last.lines] == [[11, 12]]


def test_a_last_time_that_ends_at_home_is_printed_from_the_start_of_its_lick() -> None:
    licks = f"{LICK}\nlick b on I | V, I\n  w 2d | w 2d"
    plays = f"play x3\n{PLAYED}\n  bars 11-12 b\n  last time ending I"
    _, last = sheet_of(lesson_text(f"{licks}\n{plays}")).choruses
    assert [[bar.number for bar in line] for line in last.lines] == [[11, 12]]
    assert [bar.chords[0].numeral for bar in last.lines[0]] == ["I7", "I7"]


def test_last_time_with_an_ending_of_two_bars_prints_both() -> None:
    plays = f"play x3\n{PLAYED}\n  ending I IV | I V\n  bars 11-12 rest\n"
    rests = plays + "  last time ending I | I"
    first, last = sheet_of(lesson_text(f"{LICK}\n{rests}")).choruses
    assert first.note == "play 3 times"
    assert last.title == "Last time, instead of bars 11 and 12"
    chords = [[chord.numeral for chord in bar.chords] for bar in first.lines[2]]
    assert chords == [["V7"], ["IV7"], ["I7", "IV7"], ["I7", "V7"]]
    assert [[c.numeral for c in bar.chords] for bar in last.lines[0]] == [["I7"], ["I7"]]
    stands = [len(first.stands_for), *map(len, first.stands_for[-3:])]
    assert stands == [12, 3, 2, 2]
    assert list(map(len, last.stands_for)) == [1, 1]


def test_heading_and_chord_rows_of_an_ending_of_two_bars() -> None:
    sheet = sheet_of(
        lesson_text(f"{LICK}\nplay\n{PLAYED}\n  bars 11-12 rest\n  ending I VI7 | ii7 V7",
                    form="12-bar standard ending I IV | I V")
    )  # fmt: skip
    assert {fact.label: fact.text for fact in sheet.facts}["Form"] == (
        "12-bar standard ending I IV | I V"
    )
    assert [row.numeral for row in sheet.chords] == ["I7", "IV7", "V7", "VI7", "ii7"]


def test_a_last_time_with_many_changes_is_printed_whole() -> None:
    first, last = last_time("bars 8-12")
    assert (first.title, first.note) == ("Choruses 1 to 2", "play twice")
    assert (last.title, last.note) == ("Chorus 3, last time", "")
    assert sum(map(len, last.lines)) == 12


def test_joins_that_are_easy_are_counted_and_not_listed() -> None:
    name = "mill-in-winter"  # one hard join, and no hard move inside a lick
    found = demo(name)
    assert found.tune
    joins = make_view(found.tune, found.fits, name).practice[1]
    assert [row.tempo for row in joins.rows] == ["44", "full tempo", "full tempo"]
    assert len(find_joins(found.tune)) > 3


def test_the_log_has_hard_moves_and_joins_in_one_list_told_apart() -> None:
    found = demo("back-step-shuffle")
    assert found.tune
    sheet = make_view(found.tune, found.fits, "back-step-shuffle")
    licks, moves, whole = sheet.practice
    assert {row.name: row.tempo for row in licks.rows} == {
        "On the porch": "80",
        "Boots on the step": "full tempo",
        "Down at the creek": "80",
        "Through the gate": "80",
        "The way home": "63",
    }
    assert [row.name for row in moves.rows] == [
        "Inside The way home",
        "Inside The way home",
        "Inside On the porch",
        "Boots on the step › Down at the creek",
        "Through the gate › The way home",
        "Down at the creek › On the porch",
    ]
    assert [row.start for row in (*licks.rows, *whole.rows)] == [80, 92, 80, 80, 63, 60]


def test_the_log_has_plan_and_breath_as_the_command_says_them() -> None:
    found = demo("slow-barge")
    assert found.tune
    sheet = make_view(found.tune, found.fits, "slow-barge")
    practice = practice_of(found.tune)
    letters = LickLetters(found.tune)
    said = [*order_words(practice, letters.of), breathe_words(practice)]
    assert sheet.plan == tuple(
        with_dashes(printed_tabs(line)).replace("->", "›") for line in said if line
    )
    assert (
        sheet.mind[-1] == "77 per cent of the air is drawn. Rests to breathe: bars 1, 2 and 4–10."
    )


def test_the_key_names_the_techniques_that_occur() -> None:
    entries = sheet_of(over("I7", "h 2d{vibrato} q 3d{slap} -")).key_entries
    assert [entry.text for entry in entries if entry.sign == "technique"] == ["slap", "vibrato"]


@pytest.mark.parametrize("marks", MARK_STYLES, ids=attrgetter("name"))
def test_the_key_explains_the_marks_that_are_used(marks: MarkStyle) -> None:
    found = examined(over("I7", "h 2d 4b"))
    assert found.tune
    chosen = make_view(found.tune, found.fits, "test.lesson", Options(marks=marks))
    words = {entry.sign: entry.words for entry in chosen.key_entries}
    assert words["blow"] == marks.blow_words
    assert words["draw"] == marks.draw_words


@pytest.mark.parametrize(
    ("marks", "blow", "draw"),
    [
        (ARROWS, "arrow up", "arrow down"),
        (SIGNS, "plus", "minus"),
        (LETTERS, "b", "d"),
    ],
)
def test_the_key_names_each_mark(marks: MarkStyle, blow: str, draw: str) -> None:
    assert marks.blow_words.startswith(f"{blow}, above")
    assert marks.draw_words.startswith(f"{draw}, below")


def test_titled_choruses_keep_their_titles() -> None:
    text = lesson_text(f'{LICK}\nplay "Out"\n{PLAYED}\nplay "Home" x2\n{PLAYED}')
    choruses = sheet_of(text).choruses
    assert [(c.title, c.note) for c in choruses] == [("Out", ""), ("Home", "play twice")]


def test_each_lick_has_one_card_with_its_bars() -> None:
    cards = sheet_of(lesson_text(f"{LICK}\nplay\n{PLAYED}")).cards
    assert [(card.title, card.played, card.on) for card in cards] == [
        ("A", "bars 1–12", "on I, IV, V")
    ]
    assert [name for _, _, name in cards[0].degrees] == ["R", "3", "5"]


def test_start_tempo_is_printed() -> None:
    facts = {fact.label: fact.text for fact in sheet_of(over("I7", "w 2d", learn="50")).facts}
    assert facts["Start at"] == "50"


def test_the_key_has_words_for_every_technique() -> None:
    assert set(sheet_words.TECHNIQUES) == set(TECHNIQUES)


@pytest.mark.parametrize(
    ("plays", "ends"),
    [
        ("play\n{all}", [("final", False)]),
        ("play x2\n{all}", [("repeat", False)]),
        ("play\n{all}\nplay\n{all}", [("double", False), ("final", False)]),
        ("play\n{all}\nplay x2\n{all}", [("double", False), ("repeat", True)]),
        ("play x2\n{all}\n  last time bars 12 rest", [("repeat", False), ("final", False)]),
        (
            "play x3\n{all}\n  last time bars 12 rest\nplay\n{all}",
            [("repeat", False), ("double", False), ("final", False)],
        ),
    ],
)
def test_how_choruses_end(plays: str, ends: list[tuple[str, bool]]) -> None:
    """A repeat goes back to the beginning of the tune, or to the sign that opens it.

    Behind a chorus that is over stands a double bar line, behind the tune a final one (common
    practice, no source).
    """
    sheet = sheet_of(lesson_text(f"{LICK}\n{plays.format(all=PLAYED)}"))
    assert [(chorus.ending, chorus.opens_repeat) for chorus in sheet.choruses] == ends


def test_a_repeat_behind_a_pickup_opens_with_its_sign() -> None:
    lick = LICK.replace("h 4d", "4d -")
    text = lesson_text(f"{lick}\n  pickup e 3d 3d\nplay x2\n{PLAYED}")
    first, last = sheet_of(text).choruses  # the last time has no pick-up at its end
    assert (first.pickup is not None, first.ending, first.opens_repeat) == (True, "repeat", True)
    assert (last.ending, last.opens_repeat) == ("final", False)


# ---- The practice page: how much of it is printed ----------------------------------------------


def joins_printed(order: str) -> int:
    """The joins on the practice page of a tune that plays these licks, none of its moves easy."""
    licks = "".join(f"lick {name} on I\n  q 9b - - 2d\n" for name in sorted(set(order)))
    bars = "".join(f"  bar {number} {name}\n" for number, name in enumerate(order, start=1))
    form = own_form(" | ".join(["I"] * len(order)))
    sheet = sheet_of(lesson_text(f"{licks}play\n{bars}", form=form, tempo="300"))
    return len(sheet.practice[1].rows)


# Our own choice: 6 moves and joins to tick off at most, however many licks there are.
@pytest.mark.limit("sheet.view_practice.TICKED_JOINS")
@pytest.mark.parametrize(
    ("order", "printed"),
    [
        ("abcd", 5),
        ("abcde", 6),
        ("abcdefgaceb", 6),
        ("abcdefghijklm", 6),
    ],
)
def test_joins_on_the_practice_page(order: str, printed: int) -> None:
    assert joins_printed(order) == printed


# Our own choice: three splits, octaves first, and four runs of neighbours.
@pytest.mark.limit(
    "sheet.view_practice._MOST_BLOCKS",
    "sheet.view_practice._MOST_SPLITS",
    "sheet.view_practice._MOST_ROOTS",
)
def test_blocks_and_splits_of_a_chord_are_printed() -> None:
    lesson = examined(over("IV7 | V7", "w 4b | w 4d")).lesson
    assert lesson
    four, five = chord_rows(lesson)
    assert (four.blocks, four.splits) == ("blow 1–10", "blow 1·4, 2·5, 3·6")
    assert (five.blocks, five.splits) == ("none; root: draw 1, 4, 8", "blow 1·4, 4·7, 7·10")
    # Draw 7-8 is the fifth run; 10 blow is the fourth root.
    assert _only_row("I6").blocks == "blow 2–3, 5–6, 8–9; draw 1–4"
    minor = _only_row("Vaug", position="12th", tuning="natural minor")
    assert minor.blocks == "none; root: blow 1, 4, 7"


def _only_row(numeral: str, **facts: str) -> ChordRow:
    lesson = examined(over(numeral, "w 4b", **facts)).lesson
    assert lesson
    (found,) = chord_rows(lesson)
    return found


def _led_in(once: str, count_in: str) -> str:
    return lesson_text(
        f"lick run on I\n pickup{once} e 1d 2b\n h 2d q 2d -\nplay x3\n every I run",
        form=own_form("I"), count_in=count_in,
    )  # fmt: skip


def test_a_pickup_that_is_played_once_says_so_wherever_it_is_printed() -> None:
    sheet = sheet_of(_led_in(" once", "1"))
    (chorus,) = sheet.choruses
    assert chorus.note == "play 3 times; pick-up only once, at the very beginning"
    assert chorus.pickup is not None
    assert chorus.pickup.spoken.startswith("Pick-up, played once, one chord")
    assert not any(mark.pickup for line in chorus.lines for bar in line for mark in bar.marks)
    assert sheet.cards[0].played == "bar 1; pick-up only once, before bar 1"


def test_a_pickup_that_is_played_each_time_does_not_say_once() -> None:
    sheet = sheet_of(_led_in("", "1"))
    assert [chorus.note for chorus in sheet.choruses] == ["play 3 times", ""]
    assert sheet.cards[0].played == "bar 1"


def test_the_card_of_a_lick_has_no_pickup_that_is_never_played() -> None:
    text = lesson_text(
        "lick run on I\n w 2d\nlick turn on IV\n pickup once e 1d 2b\n w 4b\n"
        "play\n every I run\n every IV turn",
        form=own_form("I | IV"),
    )
    card = sheet_of(text).cards[1]
    assert (card.pickup, card.played) == (None, "bar 2")


@pytest.mark.parametrize(
    ("count_in", "words"),
    [("0", "1 bar, for the pick-up"), ("1", None), ("2", "2 bars")],
)
@pytest.mark.parametrize("once", ["", " once"])
def test_the_count_in_has_room_for_a_pickup(once: str, count_in: str, words: str | None) -> None:
    facts = {fact.label: fact.text for fact in sheet_of(_led_in(once, count_in)).facts}
    assert facts.get("Count-in") == words
