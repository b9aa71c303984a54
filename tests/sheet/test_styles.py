"""Sheets with other marks, in large print and on upright paper, read back from the print."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache

import pytest

from formsheet.sheet.draw.paper import ENLARGED, PAPERS, paper_for
from formsheet.sheet.draw.rows import BAR_NUMBER
from formsheet.sheet.draw.scale import INSET
from formsheet.sheet.view import Bar
from tests.sheet.gallery import GALLERY, SETTINGS
from tests.sheet.printed import MM, Char, Page, overlaps, read

Run = tuple[Char, ...]


@cache
def pages(name: str) -> tuple[Page, ...]:
    return read(SETTINGS[name].pdf())


def enlarged(name: str) -> float:
    return ENLARGED if SETTINGS[name].large else 1.0


def text_of(run: Run) -> str:
    return "".join(char.text for char in run)


@pytest.mark.parametrize("name", SETTINGS)
def test_no_ink_leaves_the_margins(name: str) -> None:
    paper, by = paper_for(SETTINGS[name].page_size, large=SETTINGS[name].large)
    whole = PAPERS[SETTINGS[name].page_size]
    for page in pages(name):
        assert (page.width / MM, page.height / MM) == pytest.approx(
            (whole.width, whole.height), abs=0.2
        )
        for char in page.chars:
            assert char.left >= paper.side * by * MM - 1, char
            assert char.right <= page.width - paper.side * by * MM + 1, char
            assert char.top >= paper.top * by * MM - 1, char
            assert char.bottom <= page.height - 3 * MM, char


@pytest.mark.parametrize("name", SETTINGS)
def test_no_two_characters_overlap(name: str) -> None:
    for page in pages(name):
        assert list(overlaps(page)) == []


def printed_bars(name: str) -> Iterator[tuple[Bar, list[Run], float, float]]:
    """Each bar of the choruses, the runs in it, its left edge and its right (points)."""
    by = enlarged(name) * MM
    paper, _ = paper_for(SETTINGS[name].page_size, large=SETTINGS[name].large)
    sheet = GALLERY[SETTINGS[name].sheet]()
    bars = iter(bar for chorus in sheet.choruses for line in chorus.lines for bar in line)
    for page in pages(name):
        runs = page.runs()
        lines: dict[float, list[tuple[Bar, Run]]] = {}
        for run in _numbers(name, page, runs):
            if bar := next(bars, None):
                assert text_of(run) == str(bar.number)
                lines.setdefault(run[0].base, []).append((bar, run))
        feet = [*list(lines)[1:], page.height]
        for (top, line), foot in zip(lines.items(), feet, strict=False):
            lefts = [run[0].start - 0.7 * by for _, run in line]
            rights = [*lefts[1:], page.width - paper.side * by]
            for (bar, _), left, right in zip(line, lefts, rights, strict=True):
                inside = [r for r in runs if top < r[0].base < foot and left < r[0].left < right]
                yield bar, inside, left, right


def _numbers(name: str, page: Page, runs: list[Run]) -> list[Run]:
    size = BAR_NUMBER.size * enlarged(name)
    return [
        run
        for run in runs
        if run[0].size == pytest.approx(size, abs=0.1)
        and text_of(run).isdigit()
        and run[0].face == "regular"
        and run[0].base < page.height - 14 * MM
    ]


@pytest.mark.parametrize("name", [name for name in SETTINGS if not name.endswith("-dense")])
def test_numbers_are_large_and_stand_inside_their_bar_at_their_time(name: str) -> None:
    least = 20.0 if SETTINGS[name].large else 13.0
    seen = 0
    for bar, runs, left, right in printed_bars(name):
        inset = INSET * MM * enlarged(name)
        quarter = (right - left - inset) / float(bar.length)
        for mark in bar.marks:
            if mark.tab is None or mark.hold:
                continue
            x = left + inset + float(mark.onset) * quarter
            for hole in mark.tab.holes:
                seen += 1
                assert any(
                    text_of(run) == str(hole)
                    and run[0].size >= least
                    and abs((run[0].left + run[-1].right) / 2 - x) < 0.5 * MM * enlarged(name)
                    and left <= run[0].left
                    and run[-1].right <= right
                    for run in runs
                ), (bar.number, mark)
    assert seen >= 12


@pytest.mark.parametrize("name", [name for name, each in SETTINGS.items() if each.marks.letters])
def test_each_number_has_its_letter(name: str) -> None:
    for bar, runs, _, _ in printed_bars(name):
        played = [mark.tab for mark in bar.marks if mark.tab and not mark.hold]
        marks = SETTINGS[name].marks
        letters = [run for run in runs if text_of(run) in (marks.letters or ())]
        assert sorted(map(text_of, letters)) == sorted(marks.letter(tab.draw) for tab in played)


@pytest.mark.parametrize("name", ["large", "large-dense", "large-portrait"])
def test_no_text_of_large_print_is_small(name: str) -> None:
    small = [char for page in pages(name) for char in page.chars if char.size < 10]
    assert small == []


@pytest.mark.parametrize("name", ["large", "large-portrait", "portrait"])
def test_practice_log_and_map_are_there(name: str) -> None:
    text = "".join(page.text for page in pages(name))
    for words in ("Whichlickwhere", "Practicelog", "5-6Stepdown×2", "4morejoinsareeasy."):
        assert words in text
