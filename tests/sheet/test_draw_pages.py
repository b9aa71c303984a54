"""Bars on lines, lines on pages: how many a line, how large their figures, how high."""

from __future__ import annotations

import pytest

from formsheet.sheet.composition import composed
from formsheet.sheet.draw.front import LARGE, NORMAL, FrontLayout, FrontPage
from formsheet.sheet.draw.look import Look
from formsheet.sheet.draw.metrics import Font, width
from formsheet.sheet.draw.page_head import line_count, page_head
from formsheet.sheet.draw.paper import PAPERS, Paper
from formsheet.sheet.view import Sheet
from tests.sheet.gallery import gallery_sheet, sheet_over

EIGHTHS = " | ".join(["e [ 2d 3d 4d 5d ]x2"] * 4)


def fronts(made: Sheet, paper: Paper = PAPERS["A4"], *, large: bool = False) -> list[FrontPage]:
    found: list[FrontPage] = composed(made, paper, Look(), large=large)["fronts"]
    return found


def on_paper(made: Sheet, wide: float, *, large: bool = False) -> list[FrontPage]:
    """The same on paper of any width (mm), without head and legend."""
    paper = Paper(wide, 190.0)
    layout = FrontLayout(paper, Look(), large, lambda *_: paper.depth, LARGE if large else NORMAL)
    return layout.pages(made.choruses)


def across(pages: list[FrontPage]) -> set[int]:
    """How many bars the lines have, pick-ups not counted."""
    return {
        sum(plan.bar.number > 0 for plan in line.plans) for page in pages for line, _ in page.lines
    }


def figures(pages: list[FrontPage]) -> float:
    """The least size (pt) of the figures of single holes."""
    return min(
        plan.measures.hole for page in pages for line, _ in page.lines for plan in line.plans
    )


# Our own choice: 20 pt, which is 20 minutes of arc at 80 cm; 30 pt in large print.
@pytest.mark.limit("sheet.draw.measures.LEAST_HOLE")
def test_bars_are_four_a_line_as_long_as_figures_have_20_pt() -> None:
    made = sheet_over("I7 | I7 | I7 | I7", EIGHTHS)
    found = {
        at / 2: (across(pages), figures(pages))
        for at in range(2 * 170, 2 * 300, 3)
        if (pages := on_paper(made, at / 2))
    }
    four = [size for lines, size in found.values() if lines == {4}]
    assert min(four) >= 20
    assert min(four) < 20.7
    assert {2} in [lines for lines, _ in found.values()]


@pytest.mark.limit("sheet.draw.measures.LEAST_LARGE")
def test_bars_of_large_print_are_two_a_line_as_long_as_figures_have_30_pt() -> None:
    made = sheet_over("I7 | I7 | I7 | I7", EIGHTHS)
    found = [
        (across(pages), figures(pages))
        for at in range(2 * 120, 2 * 220, 3)
        if (pages := on_paper(made, at / 2, large=True))
    ]
    two = [size for lines, size in found if lines == {2}]
    assert min(two) >= 30
    assert min(two) < 31
    assert {1} in [lines for lines, _ in found]


def test_lines_of_the_form_are_halved_and_never_cut_in_three() -> None:
    assert across(fronts(gallery_sheet("dense"))) == {2}
    assert across(fronts(gallery_sheet("common"))) == {4}
    assert across(fronts(gallery_sheet("uneven"))) <= {1, 2, 3, 5, 4}


@pytest.mark.parametrize("name", ["common", "three-choruses", "blocks"])
def test_upright_paper_has_two_bars_a_line(name: str) -> None:
    assert across(fronts(gallery_sheet(name), PAPERS["A4 portrait"])) == {2}


def test_choruses_share_a_page_only_where_all_is_large() -> None:
    short = sheet_over("I7 | I7 | I7 | I7", EIGHTHS)
    assert len(fronts(short)) == 1
    assert len(fronts(gallery_sheet("three-choruses"))) == 3


def test_the_lines_of_a_page_keep_within_its_depth() -> None:
    for name in ("common", "dense", "last-bars", "sixteen", "three-choruses", "ties"):
        made = gallery_sheet(name)
        for page in fronts(made):
            line, y = page.lines[-1]
            assert y + line.height <= PAPERS["A4"].depth


def test_a_word_longer_than_a_line_is_broken() -> None:
    font = Font("bold", 20)
    assert line_count("m" * 100, font, width("m" * 30, font)) == 4


def test_a_long_title_is_smaller_and_the_facts_stand_below_it() -> None:
    usual, long = (
        page_head(gallery_sheet(name), PAPERS["A4"].room, roomy=True)
        for name in ("common", "long-title")
    )
    assert usual.title_size == 28
    assert not usual.stacked
    assert long.stacked
    assert 14 <= long.title_size <= 22
