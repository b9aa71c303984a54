"""The study page: what is on it, on how many pages, and that all of it can be read.

Measures are our own choice where no source is named; degrees are held against music21, a general
music library.
"""

from __future__ import annotations

import io
import re
from collections.abc import Iterator, Sequence
from fractions import Fraction
from functools import cache
from itertools import pairwise

import pdfplumber
import pypdf
import pytest
from music21.interval import Interval
from music21.pitch import Pitch

from formsheet.music.harp import Harp
from formsheet.music.tab import Breath, Tab
from formsheet.sheet.draw.harp_map import HarpMap
from formsheet.sheet.draw.lick_cards import Setting, card_rows
from formsheet.sheet.draw.look import PLAIN_LOOK, Look
from formsheet.sheet.draw.metrics import width
from formsheet.sheet.draw.paper import PAPERS
from formsheet.sheet.draw.practice_marks import boxed, draw_boxes, tick_sizes
from formsheet.sheet.draw.words import accidentals
from formsheet.sheet.make_view import make_view
from formsheet.sheet.mark_styles import LETTERS
from formsheet.sheet.options import AS_USUAL, Options, PageSize
from formsheet.sheet.study import study
from formsheet.sheet.study_page import NORMAL, StudyPage
from formsheet.sheet.study_table import row_text
from formsheet.sheet.tab_text import printed_tabs, with_dashes
from formsheet.sheet.typeset import sheet_pdf
from formsheet.sheet.view import Bar, Card, HoleMark, Sheet
from tests.helpers import examined, lesson_text, over, own_form, told
from tests.lessons import NAMES, demo
from tests.sheet.printed import MM, Page, read
from tests.sheet.tags import Tag, Tagged

SIZES: tuple[PageSize, ...] = ("A4", "Letter", "A4 portrait", "Letter portrait")
TIP = "Let the first note ring, then drop the jaw for the second and fall back home with it."
#: Six licks of a 12-bar: four of one bar, and two turnarounds of two.
SIX = f"""
lick kettle on I
  q 2d e 3d' 4d q 3d -
  tip {TIP}
lick lid on IV
  q 4b e 5b 6b q 6d e 5b 4b
  tip {TIP}
lick steam on V
  q 4d e 3d'' 3d - 1d q 2d
  tip {TIP}
lick cup on I
  pickup e 1d 2b
  e 2d 3d' 3d 4d - 4d 5d -
  tip {TIP}
turnaround boil on I | V
  q 1d e - 2d q 3d e 4d 4b | q 4d - e - 1d 2b -
  tip {TIP}
turnaround end on I | I
  q 2d e 3d' 3d q 2d e 1d - | w 2d
  tip {TIP}
play x2
  every I      kettle
  every IV     lid
  every V      steam
  bar 3        cup
  bars 11-12   boil
  last time ending I
  last time bars 11-12  end
"""
FACTS = {"title": "Kettle on the Stove", "tempo": "96", "feel": "swing", "learn": "60"}
ENDS = "ask a doctor first."  # of the cautions, the last words of the study page


def view_of(text: str) -> Sheet:
    found = examined(text)
    assert found.tune, told(found.problems)
    return make_view(found.tune, found.fits, "test.lesson", AS_USUAL, found.problems)


@cache
def six() -> Sheet:
    said = "say Come in on four.\nsay Everything is one bar long: breathe where the rest is.\n"
    return view_of(said + lesson_text(SIX, **FACTS))


@cache
def sheet_of(name: str) -> Sheet:
    if name == "six":
        return six()
    found = demo(name)
    assert found.tune
    return make_view(found.tune, found.fits, name, AS_USUAL, found.problems)


@cache
def pdf(name: str, size: PageSize = "A4", *, large: bool = False) -> bytes:
    return sheet_pdf(sheet_of(name), Options(page_size=size, large=large))


def study_pages(data: bytes) -> list[tuple[int, Page]]:
    """The pages from the one with "for practice" to the cautions, with their numbers from 0."""
    pages = list(enumerate(read(data)))
    first = next(number for number, page in pages if "forpractice" in page.text)
    last = next(number for number, page in pages if ENDS.replace(" ", "") in page.text)
    return pages[first : last + 1]


@cache
def pages_of(name: str, size: PageSize = "A4") -> list[tuple[int, Page]]:
    return study_pages(pdf(name, size))


#: All demos on the usual paper, and the six licks on each paper.
PRINTED = [*((name, "A4") for name in NAMES), *(("six", size) for size in SIZES)]


@cache
def many() -> Sheet:
    """Fourteen licks, each of its own length."""
    licks = "".join(
        f'lick l{at} "Lick number {at}" on I\n  q 2d e 3d\' 4d q 4d e 5d 4d\n  tip {TIP}\n'
        for at in range(14)
    )
    names = ", ".join(f"l{at}" for at in range(14))
    form = own_form(" | ".join(["I7"] * 14))
    return view_of(lesson_text(f"{licks}play\n  bars 1-14 {names}", form=form))


# ---- Pages ---------------------------------------------------------------------------------


@pytest.mark.parametrize("size", SIZES)
def test_the_study_of_six_licks_is_one_page(size: PageSize) -> None:
    [(_, page)] = pages_of("six", size)
    assert ENDS.replace(" ", "") in page.text


def test_a_12_bar_of_six_licks_is_one_leaf() -> None:
    assert pages_of("six")[-1][0] == 1


@pytest.mark.parametrize("name", ["slow-barge", "waltz-for-a-paper-boat", "back-step-shuffle"])
def test_a_demo_with_up_to_six_licks_has_one_study_page(name: str) -> None:
    """12 bars of 4/4 and of 12/8, 16 bars of 3/4."""
    assert len(sheet_of(name).cards) <= 6
    [(_, page)] = pages_of(name)
    assert ENDS.replace(" ", "") in page.text


@pytest.mark.parametrize("options", [Options(light=True), Options(marks=LETTERS)], ids=repr)
def test_other_looks_need_no_more_pages(options: Options) -> None:
    assert len(study_pages(sheet_pdf(six(), options))) == 1


def test_many_licks_flow_on_and_no_card_is_broken() -> None:
    data = sheet_pdf(many(), AS_USUAL)
    pages = study_pages(data)
    assert 2 <= len(pages) <= 4
    for at in range(14):
        title = f"Licknumber{at}on"
        tip = "".join(TIP.split())
        [number] = [number for number, page in pages if title in page.text]
        after = dict(pages)[number].text.split(title, 1)[1]
        assert tip in after, at


@pytest.mark.parametrize(("name", "size"), PRINTED)
def test_nothing_is_outside_the_page(name: str, size: PageSize) -> None:
    paper = PAPERS[size]
    data = pdf(name, size)
    study_numbers = [number for number, _ in pages_of(name, size)]
    with pdfplumber.open(io.BytesIO(data)) as document:
        for page in map(document.pages.__getitem__, study_numbers):
            for one in (*page.chars, *page.rects, *page.curves, *page.lines):
                assert one["x0"] >= (paper.side - 1.3) * MM, one
                assert one["x1"] <= (paper.width - paper.side + 1.3) * MM, one
                assert one["top"] >= (paper.top - 0.5) * MM, one
                assert one["bottom"] <= (paper.height - 7.5) * MM, one


@pytest.mark.parametrize(("name", "size"), PRINTED)
def test_parts_do_not_run_into_the_footer(name: str, size: PageSize) -> None:
    """The footer's base line is 9.2 mm from the edge; the text above it ends 3 mm higher."""
    for _, page in pages_of(name, size):
        edge = page.height - 9.2 * MM
        above = [char.bottom for char in page.chars if char.base < edge - 2]
        assert max(above) < edge - 3 * MM


# ---- What can be read ----------------------------------------------------------------------


@pytest.mark.parametrize(("name", "size"), PRINTED)
def test_no_text_is_smaller_than_9_pt(name: str, size: PageSize) -> None:
    for _, page in pages_of(name, size):
        small = [char for char in page.chars if char.size < 8.95 and not char.text.isspace()]
        assert small == []


@pytest.mark.parametrize("name", ["six", "gantry-crane"])
def test_large_print_is_large_on_the_study_page_too(name: str) -> None:
    for _, page in study_pages(pdf(name, large=True)):
        footer = page.height - 12 * MM
        small = [char for char in page.chars if char.size < 12 and char.base < footer]
        assert small == []


def test_large_print_has_two_cards_across() -> None:
    values = study(six(), PAPERS["A4"], PLAIN_LOOK, large=True)
    assert {len(row.cards) for row in values["card_rows"]} <= {1, 2}
    assert values["study"].text == 14


# ---- Cards ---------------------------------------------------------------------------------

#: Semitones above the root -> its names as degrees. From memory, as in lead sheets.
DEGREES = {
    0: {"R"}, 1: {"b9"}, 2: {"9"}, 3: {"b3", "#9"}, 4: {"3"}, 5: {"4"}, 6: {"b5", "#4"},
    7: {"5"}, 8: {"#5", "b6", "b13"}, 9: {"6", "bb7"}, 10: {"b7"}, 11: {"7"},
}  # fmt: skip


def pitches(harp: Harp, mark: HoleMark) -> tuple[int, ...]:
    breath = Breath.DRAW if mark.draw else Breath.BLOW
    return harp.pitches(Tab(mark.holes, breath, mark.bend, mark.overbend))


def sounding(card: Card) -> Iterator[tuple[int, Bar, HoleMark, Fraction]]:
    """The struck notes of a card: number of the bar, -1 for the pick-up, and the onset."""
    numbered = [*enumerate(card.bars), *([(-1, card.pickup)] if card.pickup else [])]
    for at, bar in numbered:
        for mark in bar.marks:
            if mark.tab and not mark.hold:
                yield at, bar, mark.tab, mark.onset


@pytest.mark.parametrize("name", ["six", *NAMES])
def test_degrees_are_those_of_another_library(name: str) -> None:
    found = examined(lesson_text(SIX, **FACTS)) if name == "six" else demo(name)
    assert found.lesson
    for card in sheet_of(name).cards:
        degrees = {(at, onset): text for onset, at, text in card.degrees}
        notes = list(sounding(card))
        assert len(degrees) == len(notes)
        for at, bar, tab, onset in notes:
            [*_, chord] = [chord for chord in bar.chords if chord.onset <= onset]
            letter = re.match("[A-G][b#]?", chord.letter)
            assert letter
            root = Pitch(letter[0].replace("b", "-"))
            heard = pitches(found.lesson.facts.harp, tab)
            steps = [int(Interval(root, Pitch(midi)).semitones) % 12 for midi in heard]
            named = 0 if 0 in steps else steps[0]
            assert degrees[at, onset] in DEGREES[named], (card.title, at, onset)


@pytest.mark.parametrize("units", [6, 4])
@pytest.mark.parametrize("name", ["six", *NAMES])
def test_degrees_stand_under_the_draw_lane_and_none_touch(name: str, units: int) -> None:
    setting = Setting(273 if units == 6 else 186, units, 10.5, PLAIN_LOOK, tight=True)
    cards = [card for row in card_rows(sheet_of(name).cards, setting) for card in row.cards]
    assert [placed.card for placed in cards] == list(sheet_of(name).cards)
    for placed in cards:
        drawn = []
        for line in placed.lines:
            for plan, image in zip(line.plans, line.images(), strict=True):
                words = [
                    (word, run.font)
                    for run in image.drawing.runs
                    for word in run.words
                    if word.y > line.lanes.degrees
                ]
                drawn += [word.text for word, _ in sorted(words, key=lambda each: each[0].x)]
                landings = {note.onset for note in plan.notes if note.landing and note.struck}
                bold = sum(font.face == "bold" for _, font in words)
                assert bold == len(landings)
                assert {font.size for _, font in words} <= {9}
                _apart([(word.x, word.x + width(word.text, font)) for word, font in words])
        ordered = sorted(placed.card.degrees, key=lambda each: (each[1], each[0]))
        assert drawn == [accidentals(text) for _, _, text in ordered]


def _apart(words: list[tuple[float, float]]) -> None:
    for (_, end), (following, _) in pairwise(sorted(words)):
        assert end + 0.7 < following


@pytest.mark.parametrize("name", ["six", *NAMES])
def test_the_combs_of_the_cards_have_the_counts_of_the_front(name: str) -> None:
    setting = Setting(273, 6, 10.5, PLAIN_LOOK, tight=True)
    for row in card_rows(sheet_of(name).cards, setting):
        for placed in row.cards:
            for line in placed.lines:
                for plan, image in zip(line.plans, line.images(), strict=True):
                    struck = {note.onset for note in plan.notes if note.struck}
                    counts = [
                        count.label
                        for count in plan.bar.counts
                        if count.onset >= plan.scale.start and (count.beat or count.onset in struck)
                    ]
                    words = [
                        word
                        for run in image.drawing.runs
                        for word in run.words
                        if line.lanes.comb < word.y < line.lanes.draw
                        and run.font.size != plan.measures.three
                    ]
                    assert [word.text for word in sorted(words, key=lambda each: each.x)] == counts


def test_a_block_has_one_degree_its_root_if_it_sounds() -> None:
    card = sheet_of("back-step-shuffle").cards[1]
    assert [text for _, _, text in card.degrees] == ["R"] * 3  # draw 1-3: D G B over G7
    card = view_of(over("I7", "h 34d 45d")).cards[0]
    assert [text for _, _, text in card.degrees] == ["3", "5"]  # B D, D F


@pytest.mark.parametrize("name", ["six", *NAMES])
def test_the_cards_of_a_row_are_in_line_and_of_two_widths(name: str) -> None:
    setting = Setting(273, 6, 10.5, PLAIN_LOOK, tight=True)
    rows = card_rows(sheet_of(name).cards, setting)
    for row in rows:
        assert len({(card.head, card.bars) for card in row.cards}) == 1
        for lines in zip(*(card.lines for card in row.cards), strict=False):
            assert len({line.lanes for line in lines}) == 1
    assert len({card.width for row in rows for card in row.cards}) <= 2


def test_a_card_with_a_pickup_has_its_degrees() -> None:
    card = next(card for card in six().cards if card.title == "Cup")
    assert [(at, text) for _, at, text in card.degrees][:2] == [(-1, "5"), (-1, "6")]


def test_a_dense_lick_gets_a_wider_card() -> None:
    setting = Setting(273, 6, 10.5, PLAIN_LOOK, tight=False)
    sixteenths = "s 9d 10d 9d 10d 9d 10d 9d 10d 9d 10d 9d 10d 9d 10d 9d 10d"
    wide, usual = (
        card_rows(view_of(over("I7", music)).cards, setting)[0].cards[0].width
        for music in (sixteenths, "q 2d 3d 4d -")
    )
    assert wide > usual == pytest.approx(85.6, abs=0.1)


# ---- What to tick off ----------------------------------------------------------------------


def test_boxes_begin_at_the_start_of_a_row() -> None:
    ladder = ("60", "69", "76", "84", "92")
    assert boxed(ladder, 60) == ladder
    assert boxed(ladder, 69) == ladder[1:]
    assert boxed(ladder, 75.5) == ladder[1:]  # the step that the plan names
    assert boxed(ladder, 200) == ("92",)
    assert boxed(ladder, 40) == ladder


@pytest.mark.parametrize("name", ["six", *NAMES])
def test_each_row_has_a_box_for_each_tempo_from_its_start(name: str) -> None:
    sheet = sheet_of(name)
    sizes = tick_sizes(10.5, sheet.ladder)
    for group in sheet.practice:
        for row in group.rows:
            drawn = draw_boxes(sheet.ladder, row.start, sizes)
            below = [each for each in sheet.ladder if float(each) <= row.start + 0.01]
            wanted = sheet.ladder[max(0, len(below) - 1) :]
            assert sum(len(shape.paths) for shape in drawn.shapes) == len(wanted) > 0
    assert sheet.practice[-1].rows[0].start == float(sheet.ladder[0])


@pytest.mark.parametrize("name", ["six", "slow-barge", "gantry-crane"])
def test_what_is_ticked_off_is_the_same_on_every_copy(name: str) -> None:
    sheet = sheet_of(name)
    wanted = [row_text(row) for group in sheet.practice for row in group.rows if row.last]
    licks = [card.letter for card in sheet.cards]
    copies = [(PAPERS[size], PLAIN_LOOK, False) for size in SIZES]
    copies += [(PAPERS["A4"], Look(light=True), False), (PAPERS["A4"], PLAIN_LOOK, True)]
    copies += [(PAPERS["A4"], Look(marks=LETTERS), False)]
    for paper, look, large in copies:
        table = study(sheet, paper, look, large=large)["ticks"]
        rows = [row for part in table.parts for row in part]
        assert [row.text for row in rows if " to " in row.text or "moves" in row.text] == wanted
        assert [row.sign_words for row in rows[: len(licks)]] == licks
        assert len(rows) == len(licks) + len(wanted) + 1


@pytest.mark.parametrize("name", ["six", *NAMES])
def test_tempos_of_the_plan_are_columns_to_tick(name: str) -> None:
    sheet = sheet_of(name)
    named = [
        tempo
        for line in sheet.plan
        for tempo in re.findall(r"(?:from|easy at|start at) ([0-9]+)", line)
    ]
    assert set(named) <= set(sheet.ladder)


def test_the_plan_names_a_step_of_the_ladder_and_the_hardest_move_by_its_notes() -> None:
    plan = " ".join(sheet_of("back-step-shuffle").plan)
    assert "bar 11: 5 blow to 4 draw" in plan
    assert "easy at 76" in plan  # of 60, 69, 76, 84, 92; it is easy up to 80


def test_a_chorus_with_a_title_is_named_by_it() -> None:
    text = """
lick go on I
  q 2d - 3d -
lick on on I
  q 2d 3d 4d 5d
play "Going out"
  bars 1-2 go, on
play "Coming back"
  bars 1-2 on, on
"""
    sheet = view_of(lesson_text(text, form=own_form("I7 | I7")))
    words = " ".join([*sheet.plan, *sheet.mind])
    assert "of Going out" in words
    assert "chorus" not in words


def test_the_whole_ladder_is_printed_over_the_boxes() -> None:
    [(_, page)] = pages_of("six")
    assert "".join(six().ladder) in page.text


# ---- Harp map and chords -------------------------------------------------------------------


def test_the_map_boxes_what_the_tune_plays_and_shows_the_other_bends() -> None:
    sheet = view_of(over("I7", "q 2d 3d' 6ob 14b", level="advanced"))
    used = [
        (hole.hole, note.draw, note.bend, note.overbend, note.name)
        for hole in sheet.harp_map
        for note in hole.notes
        if note.used
    ]
    assert used == [
        (1, False, 0, False, "C"),
        (2, True, 0, False, "G"),
        (3, True, 1, False, "Bb"),
        (4, False, 0, False, "C"),
        (6, False, 0, True, "Bb"),
    ]
    three = [note.name for note in sheet.harp_map[2].notes if note.draw]
    assert three == ["B", "Bb", "A", "Ab"]


def test_a_shake_sounds_the_next_hole_too() -> None:
    sheet = view_of(over("I7", "h 4d{shake} 2d"))
    played = [hole.hole for hole in sheet.harp_map if any(note.used for note in hole.notes)]
    assert played == [2, 4, 5]


def test_the_colours_of_the_teacher_are_those_of_the_map() -> None:
    look = Look(blow="#003f8c", draw="#8c2f00")
    drawing = HarpMap(86, 10.5).draw(six().harp_map, look)
    assert {"#003f8c", "#8c2f00"} <= {shape.ink for shape in drawing.shapes}


def test_chords_on_the_harp_in_the_words_of_the_sheet() -> None:
    rows = {row.numeral: row for row in six().chords}
    assert rows["I7"].blocks == "draw 1–5, 7–9"  # G B D F of a C harp
    assert rows["IV7"].blocks == "blow 1–10"
    assert rows["V7"].blocks == "none; root: draw 1, 4, 8"
    assert rows["I7"].splits.endswith("draw 1·4")


# ---- Words ---------------------------------------------------------------------------------


def test_tab_in_a_message_is_printed_as_on_the_sheet() -> None:
    assert printed_tabs("`3d''` and `123d`, `14b`, `6ob`") == (
        "3'' draw and 1–3 draw, 1·4 blow, 6 overblow"
    )
    assert with_dashes("bars 1-4, 7 and 10-12") == "bars 1–4, 7 and 10–12"


def test_what_the_judge_found_is_said_to_the_player() -> None:
    sheet = view_of(over("I7 | V7 | I7", "h 2d - | w 2d | h 2d -"))
    assert sheet.mind[0] == "Bar 2: 2 draw (G), the key note, stays while the band plays D7."
    assert "`" not in " ".join(sheet.mind)


def test_of_many_findings_a_handful_is_printed() -> None:
    licks = "".join(f"lick l{at} on I\n  h 5b! 3d'!\n" for at in range(9))
    names = ", ".join(f"l{at}" for at in range(9))
    form = own_form(" | ".join(["I7"] * 9))
    sheet = view_of(lesson_text(f"{licks}play\n  bars 1-9 {names}", form=form))
    assert 1 < len(sheet.mind) <= 5


def test_the_paragraph_on_the_front_is_not_said_again() -> None:
    page = StudyPage(six(), PAPERS["A4"], PLAIN_LOOK, NORMAL[0], six().says[0], large=False)
    assert page.says == six().says[1:]
    [(_, printed)] = pages_of("six")
    assert "Everythingisonebarlong" in printed.text
    assert "Comeinonfour" not in printed.text


def test_links_are_printed_and_can_be_followed() -> None:
    text = 'link "Hear it" https://class.example/27\n'
    data = sheet_pdf(view_of(text + lesson_text(SIX, **FACTS)), AS_USUAL)
    [(number, page)] = study_pages(data)
    assert "Hearit:https://class.example/27" in page.text
    notes = pypdf.PdfReader(io.BytesIO(data)).pages[number].get("/Annots", [])
    assert [note.get_object()["/A"]["/URI"] for note in notes] == ["https://class.example/27"]


# ---- Tags ----------------------------------------------------------------------------------


def tags(name: str) -> list[Tag]:
    tagged = Tagged(pdf(name))
    first = pages_of(name)[0][0]
    return [
        tag
        for tag in tagged.tags
        if any(page >= first for each in tag.walk() for page, _ in each.pieces)
    ]


@pytest.mark.parametrize("name", ["six", *NAMES])
def test_tables_have_headings_and_figures_have_words(name: str) -> None:
    found = tags(name)
    tables = [tag for tag in found if tag.kind == "Table"]
    assert len(tables) in (2, 3)  # chords, and the rows to tick in one part or two
    for table in tables:
        assert sum(tag.kind == "TH" for tag in table.walk()) >= 2
    figures = [tag for tag in found if tag.kind == "Figure"]
    assert all(figure.alt for figure in figures)
    bars = sum(len(card.bars) for card in sheet_of(name).cards)
    assert sum("Degrees: " in figure.alt for figure in figures) >= bars - 4  # some bars rest


@pytest.mark.parametrize("name", ["six", *NAMES])
def test_the_outline_names_the_parts(name: str) -> None:
    def titles(items: Sequence[object]) -> Iterator[str]:
        for item in items:
            if isinstance(item, list):
                yield from titles(item)
            else:
                yield str(getattr(item, "title", ""))

    found = list(titles(pypdf.PdfReader(io.BytesIO(pdf(name))).outline))
    for wanted in ("The licks", "Your harp", "Joins and speed", "Mind"):
        assert wanted in found
