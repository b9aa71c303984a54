"""Choruses on pages, the heading's measures, words beside their notes."""

from __future__ import annotations

import re
from dataclasses import replace
from fractions import Fraction as F
from operator import attrgetter

import pytest

from formsheet.sheet.draw import glyphs
from formsheet.sheet.draw.bar import draw_bar
from formsheet.sheet.draw.breath import DRAW
from formsheet.sheet.draw.canvas import Canvas
from formsheet.sheet.draw.form import MOST_GAP, in_fours
from formsheet.sheet.draw.heading import draw_lick
from formsheet.sheet.draw.lines import plan_line
from formsheet.sheet.draw.masthead import line_count, masthead
from formsheet.sheet.draw.metrics import Font, width
from formsheet.sheet.draw.pages import STUDY_GAP, leaves_room, place_choruses
from formsheet.sheet.draw.paper import PAPERS, Paper
from formsheet.sheet.draw.rhythm import head_scale
from formsheet.sheet.draw.rows import TECHNIQUE, BarPlan, plan_rows, word_rows
from formsheet.sheet.draw.scale import bar_scale
from formsheet.sheet.draw.svg import svg
from formsheet.sheet.draw.words import place, share_row
from formsheet.sheet.mark_styles import MARK_STYLES, MarkStyle
from formsheet.sheet.view import Chorus
from tests.sheet.gallery import EIGHT, PORCH, STEP, TWELVE, bar, sheet, tune
from tests.sheet.printed import MM, Char, pages

WIDE = PAPERS["A4"]


def chorus(title: str, form: tuple[str, ...] = EIGHT) -> Chorus:
    return Chorus(title, "", tune(form, [PORCH, STEP]))


def new_pages(*choruses: Chorus, paper: Paper = WIDE) -> list[bool]:
    placed = place_choruses(choruses, paper.room, paper.depth, paper.depth, 1000)
    return [one.new_page for one in placed]


def plan(text: str, *, tight: bool = False) -> BarPlan:
    return plan_line([bar(1, "I7", text)], 64, 14, tight=tight)[0]


def test_short_choruses_share_a_page_and_long_ones_do_not() -> None:
    assert new_pages(chorus("One"), chorus("Two")) == [False, False]
    assert new_pages(chorus("One", TWELVE), chorus("Two", TWELVE)) == [False, True]


def test_a_shared_page_holds_all_its_lines() -> None:
    placed = place_choruses([chorus("One"), chorus("Two")], WIDE.room, WIDE.depth, WIDE.depth, 1000)
    lines = [line for one in placed for line in one.chorus.pages[0]]
    assert len(lines) == 4
    assert placed[-1].left >= 0


def test_a_chorus_too_high_for_the_first_page_goes_on_over_the_next() -> None:
    [placed] = place_choruses([chorus("", TWELVE)], WIDE.room, 60, WIDE.depth, 1000)
    assert [len(page) for page in placed.chorus.pages] == [1, 2]


def test_lines_keep_close_where_study_matter_can_follow() -> None:
    def gap(follows: float) -> float:
        return place_choruses([chorus("")], WIDE.room, 191, 191, follows)[0].chorus.gap

    assert gap(60) == STUDY_GAP
    assert gap(150) == pytest.approx(MOST_GAP)


def test_words_for_the_student_come_first_only_where_the_form_has_room() -> None:
    assert leaves_room(chorus(""), WIDE.room, 150, 20)
    assert not leaves_room(chorus("", TWELVE), WIDE.room, 110, 40)


def test_portrait_has_two_bars_a_line() -> None:
    paper = PAPERS["A4 portrait"]
    [placed] = place_choruses([chorus("")], paper.room, paper.depth, paper.depth, 1000)
    assert [len(line.images) for line in placed.chorus.pages[0]] == [2, 2, 2, 2]
    assert [len(line) for line in in_fours(chorus("").lines, 2)] == [2, 2, 2, 2]


def test_a_new_page_begins_at_its_top() -> None:
    title = next(c for c in pages("three-choruses")[1].chars if c.text == "S")
    assert title.top < (WIDE.top + 4) * MM


def test_a_technique_stands_by_its_note() -> None:
    blown, drawn = plan("q 4b{wah} - - -"), plan("q 4d{wah} - - -")
    assert (len(blown.techniques), len(blown.low_techniques)) == (1, 0)
    assert (len(drawn.techniques), len(drawn.low_techniques)) == (0, 1)
    assert word_rows(blown).technique < 0 < word_rows(drawn).low_technique


def test_tight_rows_have_all_techniques_over_the_numbers() -> None:
    assert len(plan("q 4b{wah} 4d{dip} - -", tight=True).techniques) == 2


def test_a_printed_technique_is_under_its_draw_note() -> None:
    chars = pages("common")[0].chars
    word = next(c for c in chars if c.text == "w" and c.size == TECHNIQUE.size)
    note = next(c for c in chars if c.size > 13 and c.text == "2" and _near(c, word))
    assert note.bottom < word.top < note.bottom + 3 * MM


def _near(one: Char, other: Char) -> bool:
    return abs(one.left - other.left) < 5 * MM and abs(one.base - other.base) < 8 * MM


def test_words_of_two_kinds_share_a_row_where_none_touch() -> None:
    font = Font("regular", 10)
    first, near, far = (place([(x, "wah")], font, 60) for x in (10, 13, 30))
    assert share_row(first, font, far, font)
    assert not share_row(first, font, near, font)
    assert not share_row([], font, far, font)


def test_degrees_of_a_line_stand_in_one_row() -> None:
    bars = [bar(1, "I7", "q 123d - - -"), bar(2, "I7", "q 4b - - -")]
    plans = plan_line(bars, 64, 14, degrees=[((F(0), "1"),), ((F(0), "4"),)])
    low, high = (word_rows(one).degree for one in plans)
    assert low == high


def test_a_side_with_no_notes_takes_little_room() -> None:
    drawn, both = word_rows(plan("w 4d")), word_rows(plan("h 4b 4d"))
    assert drawn.top < both.top - 2
    assert drawn.foot == both.foot


def test_a_hold_from_before_keeps_the_room_of_its_line() -> None:
    assert word_rows(plan("w =")).foot == word_rows(plan("w 4d")).foot


def test_the_form_is_cut_to_fours_as_the_sheet_is() -> None:
    head = masthead(sheet([], form_rows=(TWELVE,)), WIDE.room)
    assert [len(row) for row in head.form_rows] == [4, 4, 4]


def test_a_crowded_form_leaves_half_of_the_heading() -> None:
    crowded = (("I7 IV7 bVII7 bIII7 ii7 V7",) * 4,)
    head = masthead(sheet([], form_rows=crowded), WIDE.room)
    assert 4 * head.form_cell <= WIDE.room / 2
    assert head.form_size < masthead(sheet([]), WIDE.room).form_size


def test_a_word_longer_than_a_line_is_broken() -> None:
    font = Font("bold", 20)
    assert line_count("m" * 100, font, width("m" * 30, font)) == 4


def test_flags_are_narrow_before_a_near_mark() -> None:
    wide, narrow = (glyphs.flags(1, 0, 0, narrow=near) for near in (False, True))
    assert max(_xs(narrow)) < max(_xs(wide)) - 0.5


def _xs(path: str) -> list[float]:
    return [float(word.lstrip("MCLz")) for word in path.replace("z", "").split()[::2]]


def test_words_that_are_read_leftwards_are_left_to_the_setter() -> None:
    canvas = Canvas(20, 10)
    canvas.text(1, 5, "רחוב", Font("italic", 10))
    [text] = canvas.shaped
    assert (text.text, text.x, text.font.face) == ("רחוב", 1, "regular")
    assert ">רחוב</text>" in svg(canvas)
    assert "רחוב" not in svg(canvas, whole=False)


def test_a_long_title_is_cut_between_words() -> None:
    title = "Along the creek that nobody ever crosses by night or by day"
    canvas = Canvas(64, 10)
    draw_lick(canvas, replace(plan("w 4d"), bar=bar(1, "I7", "w 4d", lick=title)), 8)
    printed = re.findall(">([^<>]*)</text>", svg(canvas))[0]
    cuts = [title[:end].replace(" ", "") for end, c in enumerate(title) if c == " "]
    assert printed.removesuffix("…") in cuts


def test_parts_of_a_line_of_the_form_stand_closer_together() -> None:
    paper = PAPERS["A4 portrait"]
    [placed] = place_choruses([chorus("")], paper.room, paper.depth, paper.depth, 1000)
    first, *over = [line.over for line in placed.chorus.pages[0]]
    within, between, again = (each - first for each in over)
    assert within == pytest.approx(again)
    assert between == pytest.approx(3 * within)
    assert sum(over) == pytest.approx(3 * placed.chorus.gap)


def test_a_few_bars_share_the_page_of_their_chorus() -> None:
    rest = Chorus("Last time", "", (chorus("").lines[0][2:],), across=4)
    assert new_pages(chorus("One"), rest) == [False, False]
    whole, part = place_choruses([chorus("One"), rest], WIDE.room, 191, 191, 1000)
    widths = {image.drawing.width for line in whole.chorus.pages[0] for image in line.images}
    assert {image.drawing.width for image in part.chorus.pages[0][0].images} == widths


@pytest.mark.parametrize("marks", MARK_STYLES, ids=attrgetter("name"))
def test_other_marks_take_the_place_of_the_path(marks: MarkStyle) -> None:
    [usual] = plan_line([bar(1, "I7", "q 4b 4d 4b 4d")], 64, 14)
    [marked] = plan_line([bar(1, "I7", "q 4b 4d 4b 4d")], 64, 14, marks=marks)
    drawn = [draw_bar(each, plan_rows([each]), heading=False) for each in (usual, marked)]
    assert [any(weight == DRAW for weight, _ in each.strokes) for each in drawn] == [
        True,
        marks.path,
    ]
    more = word_rows(marked).foot - word_rows(usual).foot
    assert (more > 1) == (not marks.path and marks.letters is None)


def test_heads_that_would_touch_are_smaller() -> None:
    mark = plan("s3 4d 4d 4d e 4d h. -").bar.marks[0]
    assert head_scale(mark, bar_scale(62, F(4))) < 0.8
    assert head_scale(mark, bar_scale(130, F(4))) == 1
    apart = float(mark.length) * bar_scale(62, F(4)).unit
    assert 2 * glyphs.HEAD * head_scale(mark, bar_scale(62, F(4))) < apart


def test_a_few_bars_stand_under_the_end_of_a_chorus_that_was_broken() -> None:
    rest = Chorus("Last time", "", (chorus("").lines[0][2:],), across=4)
    first, few = place_choruses([chorus("One", TWELVE), rest], WIDE.room, 60, WIDE.depth, 1000)
    assert [len(page) for page in first.chorus.pages] == [1, 2]
    assert not few.new_page
    assert 0 <= few.left < first.left


def test_dots_stand_on_the_side_of_what_is_played_again() -> None:
    def dots(**how: object) -> list[bool]:
        """Of each dot, whether it stands in the right half of its bar."""
        [each] = plan_line([bar(1, "I7", "w -")], 64, 14, **how)  # type: ignore[arg-type]
        usual = draw_bar(plan_line([bar(1, "I7", "w -")], 64, 14)[0], plan_rows([each]))
        drawn = [path for path in draw_bar(each, plan_rows([each])).fills if "C" in path]
        known = [path for path in usual.fills if "C" in path]
        return [float(re.split("[MC ]", path)[1]) > 32 for path in drawn if path not in known]

    assert dots(ending="repeat") == [True, True]
    assert dots(opens_repeat=True) == [False, False]
    assert dots(ending="final") == dots(ending="double") == []
