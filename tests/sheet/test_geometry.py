"""Every sheet read back: nothing of what `tests/sheet/faults.py` looks for is wrong with it.

And what a whole sheet owes besides: how large its figures are, on how many pages it stands.
"""

from __future__ import annotations

from functools import cache

import pytest

from formsheet.sheet.options import AS_USUAL, Options
from formsheet.sheet.typeset import sheet_pdf
from formsheet.sheet.view import Sheet
from tests.lessons import NAMES
from tests.sheet.box_faults import cap_height
from tests.sheet.demos import printed, sheet
from tests.sheet.faults import Leaf, leaf, leaf_faults, logged
from tests.sheet.gallery import GALLERY, SETTINGS, gallery_sheet, setting_pdf, sheet_over
from tests.sheet.placed import Placed
from tests.sheet.printed import MM, pdf

#: Tunes of eighths and quarters, whose figures are larger: 5.9 mm, 25 minutes of arc at 80 cm.
QUIET = ("common", "eight", "pickup", "minor", "many-licks", "wide-cards")
QUIET_CAP = 5.9  # mm


@cache
def read_leaf(name: str) -> Leaf:
    """A demo, a sheet of the gallery or one of its settings, read back."""
    if name in SETTINGS:
        base, options = SETTINGS[name]
        return leaf(gallery_sheet(base), options, setting_pdf(name))
    if name in GALLERY:
        return leaf(gallery_sheet(name), AS_USUAL, pdf(name))
    return leaf(sheet(name), AS_USUAL, printed(name))


@pytest.mark.parametrize("name", [*NAMES, *GALLERY, *SETTINGS])
def test_a_sheet_has_no_fault(name: str) -> None:
    assert list(leaf_faults(read_leaf(name))) == []


@pytest.mark.parametrize("name", [*NAMES, "ties", "long-title", "right-to-left", "pickup"])
def test_printing_logs_nothing_and_repeats_itself(name: str) -> None:
    made = gallery_sheet(name) if name in GALLERY else sheet(name)
    first = pdf(name) if name in GALLERY else printed(name)
    with logged() as lines:
        again = sheet_pdf(made)
    assert lines == []
    assert again == first


def caps(bars: tuple[Placed, ...]) -> list[float]:
    """The heights (mm) of the figures of single holes."""
    figures = [placed.figures(box) for placed in bars for box in placed.boxes]
    return [cap_height(each[0][1]) / MM for each in figures if len(each) == 1]


@pytest.mark.parametrize("name", QUIET)
def test_tunes_of_eighths_and_quarters_have_large_figures(name: str) -> None:
    found = caps(read_leaf(name).bars)
    assert len(found) > 10
    assert min(found) >= QUIET_CAP


@pytest.mark.parametrize("name", [name for name in SETTINGS if name.startswith("large")])
def test_figures_of_large_print_are_larger_still(name: str) -> None:
    usual = min(caps(read_leaf(SETTINGS[name][0]).bars))
    assert min(caps(read_leaf(name).bars)) > 1.15 * usual


def pages_of(found: Leaf) -> list[int]:
    """How many bars stand on each page of the tune."""
    numbers = [placed.page for placed in found.bars if placed.bar.number]
    assert numbers == sorted(numbers)
    return [numbers.count(page) for page in range(max(numbers) + 1)]


@pytest.mark.parametrize(
    ("name", "bars"),
    [
        ("common", [12]), ("eight", [8]), ("pickup", [12]), ("pickup-once", [12]), ("minor", [12]),
        ("compound", [12]), ("triplets", [12]), ("blocks", [12]), ("overbends", [12]),
        ("dense", [12]), ("sixteen", [16]), ("last-bars", [14]), ("techniques", [12]),
        ("half-bars", [8]), ("waltz", [8]),
        ("large-common", [6, 6]), ("large-eight", [4, 4]), ("large-compound", [6, 6]),
        ("upright-common", [12]), ("upright-dense", [12]), ("upright-compound", [12]),
        ("letter-common", [12]), ("letter-dense", [12]), ("letter-sixteen", [16]),
    ],
)  # fmt: skip
def test_pages_of_the_tune(name: str, bars: list[int]) -> None:
    """A chorus of 16 bars or fewer stands on one page; large print of 12 bars on two."""
    assert [each for each in pages_of(read_leaf(name)) if each] == bars


def test_changed_bars_of_large_print_have_a_page_of_their_own() -> None:
    found = read_leaf("large-last-bars")
    whole = {placed.page for placed in found.bars if not placed.chorus.places}
    changed = {placed.page for placed in found.bars if placed.chorus.places}
    assert (len(whole), len(changed)) == (2, 1)
    assert not whole & changed


def test_a_chorus_that_needs_two_pages_is_broken_at_a_line_of_the_form() -> None:
    found = read_leaf("sixteen-dense")
    firsts = [placed.bar.number for placed in found.bars]
    pages = [placed.page for placed in found.bars]
    breaks = [firsts[at] for at in range(1, len(pages)) if pages[at] != pages[at - 1]]
    assert len(breaks) == 1
    assert (breaks[0] - 1) % 4 == 0


@pytest.mark.parametrize("name", ["last-bars", "last-bars-apart", "endings", "held-home"])
def test_bars_that_replace_others_stand_under_them(name: str) -> None:
    found = read_leaf(name)
    below: dict[int, Placed] = {}
    changed = [placed for placed in found.bars if placed.chorus.places]
    assert bool(changed) == (name != "endings")
    for placed in found.bars:
        if not placed.chorus.places:
            below[placed.bar.number] = placed
    for placed in changed:
        above = below[placed.bar.number]
        assert placed.page == above.page
        assert placed.left == pytest.approx(above.left, abs=0.2)
        assert placed.top > above.foot


@pytest.mark.parametrize("name", ["pickup", "pickup-once", "pickup-tied", "upright-pickup"])
def test_a_pickup_hangs_left_of_the_bars_and_all_lines_are_indented_by_it(name: str) -> None:
    pickup, *bars = read_leaf(name).bars
    assert pickup.bar.number == 0
    assert len(pickup.boxes) == len(pickup.sounding) > 0
    firsts = [line[0] for line in read_leaf(name).lines[1:]]
    assert pickup.right == pytest.approx(bars[0].left, abs=0.2)
    assert {round(each.left - bars[0].left, 1) for each in firsts} == {0.0}
    words = "".join(char.text for char in pickup.chars)
    assert ("once" in words) == name.startswith("pickup-")


def test_a_lone_dense_bar_is_wider_than_its_neighbours_and_others_keep_their_size() -> None:
    lines = read_leaf("lone-dense").lines
    widths = [[placed.right - placed.left for placed in line] for line in lines]
    assert len(widths[0]) == 4
    assert max(widths[0]) == widths[0][1] > 1.05 * widths[1][0]
    # Our own choice: a wide bar takes at most 1.4 times the room.
    assert widths[0][1] <= 1.4 * widths[1][0] + 0.1
    assert sum(widths[0]) == pytest.approx(sum(widths[1]), abs=0.3)


def sizes(made: Sheet, options: Options = AS_USUAL) -> set[float]:
    found = leaf(made, options)
    return {
        figure.size for placed in found.bars for box in placed.boxes
        for _, figure in placed.figures(box)
    }  # fmt: skip


# Our own choice: a figure of 20 pt or more, which is 20 minutes of arc and more at 80 cm.
@pytest.mark.parametrize("per_bar", [8, 12, 16, 24])
def test_figures_are_20_pt_or_more_however_many_notes_a_bar_has(per_bar: int) -> None:
    music = {8: "e [ 2d 3d ]x4", 12: "e3 [ 2d 3d 4d ]x4", 16: "s [ 2d 3d 4d 5d ]x4",
             24: "s3 [ 2d 3d 4d ]x8"}[per_bar]  # fmt: skip
    assert min(sizes(sheet_over("I7 | I7 | I7 | I7", " | ".join([music] * 4)))) >= 20
