"""Licks that the last time covers in part: cards, clips, places on the page, what is told."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from formsheet.engine.parts import PARTS
from formsheet.exports.musicxml.score import musicxml
from formsheet.exports.text import text_tab
from formsheet.judge.joins import find_joins
from formsheet.page.page import page_html
from formsheet.problems.drawing import drawn
from formsheet.sheet.make_view import make_view
from formsheet.sheet.view import Sheet
from formsheet.sound.clips import clips_of
from formsheet.sound.excerpts import lick_excerpts
from formsheet.stages import Examined
from formsheet.tune.passages import lick_passages
from tests.helpers import examined, lesson_text, own_form, slugs_of, told, tune_of
from tests.parts import part_files

BARS = 6
HOLES = ("2d", "3d", "4d", "5d")  # what the bars of the long lick play; the short one plays 1d


def text(length: int, first: int, covered: tuple[int, int], times: int) -> str:
    """A lick of so many bars from bar `first` on; in the last time others over `covered` bars."""
    around = [n for n in range(1, BARS + 1) if not first <= n < first + length]
    rows = " | ".join(f"q {hole} {hole} h {hole}" for hole in HOLES[:length])
    return lesson_text(
        f"lick long on I\n  {rows}\nlick short on I\n  q 1d 1d h 1d\n"
        f"play x{times}\n  bars {first}-{first + length - 1} long\n"
        + "".join(f"  bar {number} short\n" for number in around)
        + f"  last time bars {covered[0]}-{covered[1]} short",
        form=own_form(" | ".join(["I"] * BARS)),
    )


def made(found: Examined) -> Sheet:
    assert found.tune, told(found.problems)
    return make_view(found.tune, found.fits, "cut.lesson")


def cases() -> Iterator[tuple[int, tuple[int, int], int]]:
    """Length of a lick from bar 2 on, the bars that are covered, how often the chorus is played."""
    for length in (2, 3, 4):
        last = 1 + length
        covers = {(2, 2), (3, 3), (last, last), (2, last), (1, 2), (last, last + 1)}
        for covered in sorted(covers):
            for times in (1, 2):
                yield length, covered, times


@pytest.mark.parametrize(("length", "covered", "times"), list(cases()))
def test_card_clip_page_and_log_have_the_same_licks_whole(
    length: int, covered: tuple[int, int], times: int
) -> None:
    found = examined(text(length, 2, covered, times))
    sheet = made(found)
    assert found.tune
    whole = ["short", "long"] if times > 1 else ["short"]
    assert [card.name for card in sheet.cards] == whole
    assert [lick.name for lick, _ in lick_passages(found.tune)] == whole
    assert [excerpt.name for excerpt in lick_excerpts(found.tune)] == whole
    clips = [clip.name.split("-")[1] for clip in clips_of(found.tune) if clip.name[:4] == "lick"]
    assert list(dict.fromkeys(clips)) == whole
    assert [row.name for row in sheet.practice[0].rows] == [card.title for card in sheet.cards]
    page = page_html(found.tune, sheet).decode()
    assert page.count('class="licks"') == 1
    for name in ("long", "short"):
        assert (f'"key":"{name}"' in page.replace(": ", ":")) == (name in whole)
    for card in sheet.cards:
        played = [mark.tab.holes[0] for bar in card.bars for mark in bar.marks if mark.tab]
        rows = HOLES[:length] if card.name == "long" else ["1d"]
        assert played == [int(hole[0]) for hole in rows for _ in range(3)]
    assert text_tab(found.tune)
    assert musicxml(found.tune)


@pytest.mark.parametrize(
    ("length", "covered", "times", "slug", "said"),
    [
        (2, (2, 2), 2, "lick-cut", "is 2 bars long; in bar 3 it is cut down to its bar 2"),
        (2, (3, 3), 2, "lick-cut", "is 2 bars long; in bar 2 it is cut down to its bar 1"),
        (3, (3, 3), 2, "lick-cut",
         "is 3 bars long; in bars 2 and 4 it is cut down to its bars 1 and 3"),
        (4, (1, 2), 2, "lick-cut", "is 4 bars long; in bars 3-5 it is cut down to its bars 2-4"),
        (2, (2, 2), 1, "lick-nowhere-whole", "never played whole: only a part of it in bar 3:"),
        (3, (3, 3), 1, "lick-nowhere-whole",
         "never played whole: only a part of it in bars 2 and 4:"),
        (3, (2, 4), 1, "lick-unused", "`long` is not played in this tune"),
    ],
)  # fmt: skip
def test_what_is_told(
    length: int, covered: tuple[int, int], times: int, slug: str, said: str
) -> None:
    found = examined(text(length, 2, covered, times)).problems
    (one,) = (p for p in found if p.code in ("lick-cut", "lick-nowhere-whole", "lick-unused"))
    assert one.code == slug
    assert said in drawn(one)


def test_all_its_bars_covered_in_the_last_time_is_nothing_to_tell() -> None:
    assert not {"lick-cut", "lick-nowhere-whole", "lick-unused"} & set(
        slugs_of(text(3, 2, (2, 4), 2))
    )


@pytest.mark.parametrize("part", PARTS)
@pytest.mark.parametrize("covered", [(2, 2), (3, 3)])
def test_every_part_is_made_of_a_lick_that_is_nowhere_whole(
    part: str, covered: tuple[int, int]
) -> None:
    assert all(part_files(part, examined(text(2, 2, covered, 1))).values())


@pytest.mark.parametrize("part", ["sheet", "page", "clips"])
def test_every_part_is_made_where_no_lick_is_whole(part: str) -> None:
    alone = lesson_text(
        "lick long on I\n  w 2d | w 3d\nplay\n  bars 1-2 long\n  last time bar 1 rest",
        form=own_form("I | I"),
    )
    found = examined(alone)
    assert made(found).cards == ()
    assert all(part_files(part, found).values())


def test_a_lick_that_is_entered_late_bears_its_title_and_makes_a_join() -> None:
    found = examined(text(3, 2, (2, 2), 2))
    sheet, tune = made(found), found.tune
    assert tune
    second = {bar.number: bar for line in sheet.choruses[-1].lines for bar in line}
    assert second[2].starts_lick  # the short lick; the sheet prints the bars that change
    entered = tune.bars[BARS + 2]
    assert entered.lick
    assert (entered.lick.name, entered.slot.bar_in_lick) == ("long", 1)
    assert "Bar 3, I (G): B, Long (from its bar 2)" in text_tab(tune_of(text(3, 2, (2, 2), 1)))
    alone = made(examined(text(3, 2, (2, 2), 1)))
    bars = {bar.number: bar for line in alone.choruses[0].lines for bar in line}
    assert [bars[number].starts_lick for number in (2, 3, 4, 5)] == [True, True, False, True]
    joins = find_joins(tune_of(text(3, 2, (2, 2), 1)))
    assert ("short", "long") in {(j.first_lick.name, j.second_lick.name) for j in joins}


def test_a_hold_does_not_go_on_from_another_lick() -> None:
    body = (
        "lick long on I\n  w 2d | w =\nlick short on I\n  w 4d\n"
        "play x2\n  bars 1-2 long\n  last time bar 1 short"
    )
    assert "hold-nothing" in slugs_of(lesson_text(body, form=own_form("I | I")))


@st.composite
def places(draw: st.DrawFn) -> tuple[int, int, tuple[int, int], int]:
    length = draw(st.integers(2, 4))
    first = draw(st.integers(1, BARS - length + 1))
    start = draw(st.integers(1, BARS))
    return length, first, (start, draw(st.integers(start, BARS))), draw(st.integers(1, 3))


@given(places())
@settings(max_examples=60, derandomize=True, deadline=None, database=None)
def test_a_passage_has_all_bars_of_its_lick_in_order(
    case: tuple[int, int, tuple[int, int], int],
) -> None:
    found = examined(text(*case))
    sheet = made(found)
    assert found.tune
    passages = lick_passages(found.tune)
    for lick, passage in passages:
        bars = found.tune.bars[passage.first : passage.last + 1]
        assert [bar.slot.bar_in_lick for bar in bars] == list(range(len(lick.bars)))
        assert all(bar.lick is lick for bar in bars)
    told_of = {
        p.fields["lick"] for p in found.problems if p.code in ("lick-nowhere-whole", "lick-unused")
    }
    assert {lick.name for lick, _ in passages} == {"long", "short"} - told_of
    assert [card.name for card in sheet.cards] == [lick.name for lick, _ in passages]
    assert page_html(found.tune, sheet)
