"""Sheets of random lessons, printed and read back.

    python -m tests.sheet.many_sheets COUNT [FIRST] [portrait] [letter] [light] [large] [MARKS]

prints as many, from a seed on, names what is wrong with each, and gives the shares of lessons that
have what is hard to print, and of those that keep each chorus on one page.
"""

from __future__ import annotations

import sys
from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from fractions import Fraction

from formsheet.sheet.make_view import make_view
from formsheet.sheet.mark_styles import MARK_STYLES, mark_style
from formsheet.sheet.options import AS_USUAL, Options, PageSize
from formsheet.sheet.view import Bar, Chorus, Mark, Sheet
from tests.helpers import examined
from tests.random_lessons import random_lesson
from tests.sheet.faults import Leaf, leaf, leaf_faults, logged

MANY_ONSETS = 12  # a bar: with more, a chorus may need two pages
SHORT = 8  # bars of a chorus: with no more it has room for chords in both lanes
LONG = 16  # bars of a chorus: a longer one may need two pages
SHOWN = 8  # faults of a sheet


def random_sheet(seed: int) -> Sheet | None:
    """The sheet of a random lesson; None where the lesson has errors."""
    found = examined(random_lesson(seed))
    if not (found.in_order and found.tune):
        return None
    return make_view(found.tune, found.fits, f"random-{seed}.lesson")


def bars_of(sheet: Sheet) -> list[Bar]:
    """All printed bars, pick-ups too."""
    pickups = [chorus.pickup for chorus in sheet.choruses if chorus.pickup]
    return [*pickups, *(bar for chorus in sheet.choruses for bar in own_bars(chorus))]


def own_bars(chorus: Chorus) -> list[Bar]:
    """Its bars, one after another."""
    return [bar for line in chorus.lines for bar in line]


def has(sheet: Sheet) -> Iterator[str]:
    """What a sheet has that is hard to print."""
    bars = bars_of(sheet)
    marks = [mark for bar in bars for mark in bar.marks]
    tabs = [mark.tab for mark in marks if mark.tab]
    found = {
        "hole 10": any(10 in tab.holes for tab in tabs),
        "bends": any(tab.bend for tab in tabs),
        "overbends": any(tab.overbend for tab in tabs),
        "sixteenths": any(mark.value == "s" for mark in marks),
        "12/8": any(bar.length == 6 for bar in bars),
        "blocks": any(len(tab.holes) > 1 and not tab.split for tab in tabs),
        "splits": any(tab.split for tab in tabs),
        "syllables": any(mark.syllable for mark in marks),
        "techniques": any(mark.technique for mark in marks),
        "pick-ups": any(mark.pickup for mark in marks),
        "triplets": any(mark.triplet for mark in marks),
        "holds over a bar line": any(_held_over(bar.marks) for bar in bars),
        "two chords a bar": any(len(bar.chords) > 1 for bar in bars),
        "last times": any(chorus.places for chorus in sheet.choruses),
        "two choruses and more": sum(not chorus.places for chorus in sheet.choruses) > 1,
        "changes of feel": any(bar.feels for bar in bars),
    }
    yield from (name for name, there in found.items() if there)


#: The share of lessons, in 100, that have each of these, of seeds 0 to 99, rounded down. The
#: generator must not become easier.
SHARES = {
    "sixteenths": 98,
    "bends": 94,
    "syllables": 93,
    "techniques": 93,
    "blocks": 92,
    "hole 10": 91,
    "splits": 86,
    "overbends": 71,
    "triplets": 64,
    "last times": 42,
    "two choruses and more": 34,
    "pick-ups": 34,
    "holds over a bar line": 32,
    "two chords a bar": 22,
    "12/8": 18,
    "changes of feel": 14,
}


def _held_over(marks: Sequence[Mark]) -> bool:
    return bool(marks) and marks[-1].tied_on


def onsets(bar: Bar) -> int:
    """How many notes are struck in a bar."""
    return sum(1 for mark in bar.marks if mark.tab and not mark.hold)


def is_roomy(sheet: Sheet) -> bool:
    """Whether each chorus should stand on one page: at most 12 onsets a bar, and 16 bars."""
    return all(onsets(bar) <= MANY_ONSETS for bar in bars_of(sheet)) and all(
        len(own_bars(chorus)) <= LONG for chorus in sheet.choruses
    )


def needs_pages(sheet: Sheet) -> bool:
    """Whether a chorus has what may take two pages.

    Sixteenths on hole 10; in more than 8 bars, or after a pick-up, sixteenths with syllables or
    with chords and splits in both lanes.
    """
    return any(map(_crowded, sheet.choruses))


def _crowded(chorus: Chorus) -> bool:
    marks = [mark for bar in own_bars(chorus) for mark in bar.marks]
    short = [mark for mark in marks if mark.tab and mark.length < Fraction(1, 2)]
    stacked = {mark.tab.draw for mark in marks if mark.tab and len(mark.tab.holes) > 1}
    long = len(own_bars(chorus)) > SHORT or chorus.pickup is not None
    return any(10 in mark.tab.holes for mark in short if mark.tab) or (
        bool(short) and long and (len(stacked) == 2 or any(mark.syllable for mark in marks))
    )


def keeps_together(found: Leaf) -> bool:
    """Whether no chorus is broken over pages; the changed bars of a last time may stand apart."""
    for chorus in found.sheet.choruses:
        if len({placed.page for placed in found.bars if placed.chorus is chorus}) > 1:
            return False
    return True


def shares(sheets: Iterable[Sheet]) -> dict[str, float]:
    """How many in 100 of these have each thing."""
    counted: Counter[str] = Counter()
    total = 0
    for sheet in sheets:
        total += 1
        counted.update(has(sheet))
    return {name: float(Fraction(100 * count, total)) for name, count in counted.items()}


def main(count: int, first: int = 0, options: Options = AS_USUAL) -> int:
    """Print and read sheets; gives how many are faulty, or made of no lesson half of the time."""
    sheets: list[Sheet] = []
    faulty = roomy = whole = easy = easy_whole = 0
    for seed in range(first, first + count):
        if not (sheet := random_sheet(seed)):
            continue
        sheets.append(sheet)
        with logged() as lines:
            found = leaf(sheet, options)
        told = [*(f"logged: {line}" for line in lines), *leaf_faults(found)]
        if is_roomy(sheet):
            roomy += 1
            together = keeps_together(found)
            whole += together
            easy += not needs_pages(sheet)
            easy_whole += together and not needs_pages(sheet)
            if not together and not needs_pages(sheet):
                print(f"seed {seed}: a chorus is broken over pages", flush=True)
        faulty += bool(told)
        for fault in told[:SHOWN]:
            print(f"seed {seed}: {fault}", flush=True)
        if len(told) > SHOWN:
            print(f"seed {seed}: and {len(told) - SHOWN} more", flush=True)
    last = first + count - 1
    print(f"seeds {first} to {last}: {len(sheets)} lessons in order, {faulty} faulty sheets")
    print(f"of {roomy} with {MANY_ONSETS} onsets a bar or fewer and choruses of {LONG} bars or")
    print(f"fewer {whole} keep each chorus on one page; of the {easy} of these without sixteenths")
    print(f"with syllables, with chords in both lanes or on hole 10 {easy_whole} do")
    for name, share in sorted(shares(sheets).items(), key=lambda each: -each[1]):
        print(f"{share:6.1f} in 100 have {name}")
    return faulty or int(len(sheets) * 2 < count)


def options_of(words: Sequence[str]) -> Options:
    """The options that the words of a command line name."""
    size: PageSize = "Letter" if "letter" in words else "A4"
    if "portrait" in words:
        size = "Letter portrait" if size == "Letter" else "A4 portrait"
    marks = [word for word in words if word in {style.name for style in MARK_STYLES}]
    return Options(
        page_size=size,
        marks=mark_style(marks[0]) if marks else AS_USUAL.marks,
        light="light" in words,
        large="large" in words,
    )


if __name__ == "__main__":
    count, first, *_ = [*map(int, filter(str.isdigit, sys.argv[1:])), 0]
    sys.exit(main(count, first, options_of(sys.argv[1:])) != 0)
