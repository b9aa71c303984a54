"""What is wrong with a printed sheet, found by reading it back.

The numbers are those of the design of the sheet: our own choice, but for the size of the figures,
which follows what an eye resolves at a music stand, 80 cm away.
"""

from __future__ import annotations

import logging
from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from itertools import combinations, pairwise
from unicodedata import combining

import numpy as np

from formsheet.sheet.draw.words import accidentals
from formsheet.sheet.options import AS_USUAL, Options
from formsheet.sheet.typeset import sheet_pdf
from formsheet.sheet.view import HoleMark, Sheet
from tests.sheet.contrast import luminance
from tests.sheet.placed import WHITE, Placed, PrintedBox, Sounding, placed_bars, systems
from tests.sheet.printed import FOREIGN, MM, Char, Page, Shape, overlaps, read

FREE = 8.0  # mm at every edge
CAP = 4.7  # mm: height of the figure of a hole
LARGE_CAP = 7.0  # in large print
STACKED = 0.7  # of that: the figures of chords and splits
THINNEST = 0.25  # mm
LIGHTEST = "#222222"
APART = 2.3  # mm from the ink of a line to that of the next
HAIR = 0.06  # mm: rounding
WHITES = (0.55, 1.7)  # mm between the end of a box and the next onset
LITTLE = 0.15 * MM


@dataclass(frozen=True)
class Leaf:
    """A printed sheet, read."""

    sheet: Sheet
    options: Options
    pages: tuple[Page, ...]
    bars: tuple[Placed, ...]

    @property
    def lines(self) -> list[list[Placed]]:
        """The lines of bars."""
        return systems(self.bars)


def leaf(sheet: Sheet, options: Options = AS_USUAL, data: bytes | None = None) -> Leaf:
    """Print a sheet, and read it."""
    data = data or sheet_pdf(sheet, options)
    pages = read(data)
    return Leaf(sheet, options, pages, tuple(placed_bars(sheet, data, pages)))


def faults(sheet: Sheet, options: Options = AS_USUAL) -> Iterator[str]:
    """Print a sheet and name all that is wrong with it."""
    with logged() as lines:
        data = sheet_pdf(sheet, options)
    yield from (f"logged: {line}" for line in lines)
    yield from leaf_faults(leaf(sheet, options, data))


def leaf_faults(found: Leaf) -> Iterator[str]:
    """All that is wrong with a sheet that was read."""
    for number, page in enumerate(found.pages, start=1):
        for fault in page_faults(page, found.options):
            yield f"page {number}: {fault}"
    yield from _lost(found)
    for line in found.lines:
        for at, placed in enumerate(line):
            before = line[at - 1] if at else None
            for fault in bar_faults(found, placed, before, last=at + 1 == len(line)):
                yield f"page {placed.page + 1}, bar {placed.bar.number}: {fault}"
    yield from _close_lines(found)
    yield from _untrue_columns(found)
    yield from _uneven_figures(found)


@contextmanager
def logged() -> Iterator[list[str]]:
    """What the setting library says meanwhile, from warnings up."""
    lines: list[str] = []
    handler = logging.Handler(logging.WARNING)
    handler.emit = lambda record: lines.append(record.getMessage())  # type: ignore[method-assign]
    logger = logging.getLogger("weasyprint")
    logger.addHandler(handler)
    try:
        yield lines
    finally:
        logger.removeHandler(handler)


# ---- A page --------------------------------------------------------------------------------


def page_faults(page: Page, options: Options) -> Iterator[str]:
    """What is wrong whatever the page shows."""
    inks = {LIGHTEST, WHITE, *options.colours}
    darkest = luminance(rgb(LIGHTEST))
    for each in (*page.chars, *page.shapes):
        if not _free(each, page):
            yield f"{_name(each)} is less than {FREE} mm from the edge at {_place(each)}"
        if each.ink not in inks and luminance(rgb(each.ink)) > darkest:
            yield f"{_name(each)} at {_place(each)} is {each.ink}"
    for shape in page.shapes:
        if shape.thin < (THINNEST - 0.005) * MM:
            yield f"a line of {shape.thin / MM:.2f} mm at {_place(shape)}"
    for char in page.chars:
        if abs(char.stretch - 1) > 0.001:
            yield f"{char.text!r} is stretched by {char.stretch:.3f} at {_place(char)}"
        if char.advance and abs(char.end - char.start - char.advance) > 0.02 * MM:
            yield f"{char.text!r} has not the width of its face at {_place(char)}"
    for one, other in overlaps(page):
        foreign = FOREIGN in (one.face, other.face)  # their ink is not known
        if not foreign and not combining(one.text[0]) and not combining(other.text[0]):
            yield f"{one.text!r} and {other.text!r} overlap at {_place(one)}"


def rgb(ink: str) -> tuple[float, float, float]:
    """The parts of "#rrggbb", 0 to 255."""
    red, green, blue = (float(int(ink[at : at + 2], 16)) for at in (1, 3, 5))
    return red, green, blue


def _free(each: Char | Shape, page: Page) -> bool:
    least = (FREE - HAIR) * MM
    return each.text.isspace() if isinstance(each, Char) and not each.text.strip() else (
        each.left >= least
        and each.top >= least
        and each.right <= page.width - least
        and each.bottom <= page.height - least
    )  # fmt: skip


def _name(each: Char | Shape) -> str:
    return repr(each.text) if isinstance(each, Char) else "a shape"


def _place(each: Char | Shape) -> str:
    """Its place in mm, so that an eye finds it."""
    return f"{each.left / MM:.1f}, {each.top / MM:.1f} mm"


def _lost(found: Leaf) -> Iterator[str]:
    """Texts that are not on the sheet from end to end."""
    printed = "".join(page.text for page in found.pages)
    for words in _texts(found.sheet):
        wanted = "".join(words.split())
        if wanted.isascii() and wanted not in printed:
            yield f"not printed whole: {words}"


def _texts(sheet: Sheet) -> Iterable[str]:
    yield sheet.title
    for chorus in sheet.choruses:
        yield chorus.title
        if chorus.title and not chorus.places:
            yield chorus.note  # where there is but one chorus the head of the page says it


# ---- A bar ---------------------------------------------------------------------------------


def bar_faults(found: Leaf, placed: Placed, before: Placed | None, *, last: bool) -> Iterator[str]:
    """What is wrong with a bar; `before` stands left of it in its line."""
    yield from _outside(placed)
    boxes, notes = placed.boxes, placed.sounding
    if len(boxes) != len(notes):
        yield f"{len(boxes)} boxes for {len(notes)} notes"
        return
    for box, note in zip(boxes, notes, strict=True):
        name = tab_words(note.tab)
        for fault in (
            *_misplaced(placed, box, note, first=before is None, last=last),
            *_misdrawn(found.options, placed, box, note),
            *_touched(placed, box, note),
            *_misread(found.options, placed, box, note, first=before is None),
        ):
            yield f"{name} at {note.onset}: {fault}"
        if not note.struck and before is not None:
            yield from _parted(placed, box, before)
    for one, other in combinations(boxes, 2):
        if one.meets(other, 0) or (one.drawn == other.drawn and _gap(one, other) < 0.3 * MM):
            yield f"boxes at {one.left / MM:.1f} and {other.left / MM:.1f} mm touch"
    yield from _miscounted(placed)
    yield from _mislettered(placed)
    yield from _crossed(placed)


def tab_words(tab: HoleMark) -> str:
    """A tab for the message."""
    holes = "".join(map(str, tab.holes))
    return f"{holes}{'o' if tab.overbend else ''}{'bd'[tab.draw]}{chr(39) * tab.bend}"


def _gap(one: PrintedBox, other: PrintedBox) -> float:
    return max(one.left, other.left) - min(one.right, other.right)


def _outside(placed: Placed) -> Iterator[str]:
    """Ink beyond the bar lines; a torn edge, a heavy line and the words at the side may be."""
    side = 1.8
    for char in placed.chars:
        if char.left < placed.left - LITTLE or char.right > placed.right + LITTLE:
            yield f"{char.text!r} leaves the bar at {_place(char)}"
    for shape in placed.shapes:
        words = shape.right < placed.left - 1.5 * MM and shape.thin > MM
        if words:
            continue
        if shape.left < placed.left - side * MM or shape.right > placed.right + side * MM:
            yield f"a shape leaves the bar at {_place(shape)}"


def _misplaced(
    placed: Placed, box: PrintedBox, note: Sounding, *, first: bool, last: bool
) -> Iterator[str]:
    """A box lasts from its onset to its end, less the white."""
    onset, end = placed.x(note.onset), placed.x(note.end)
    if note.struck:
        if abs(box.left - onset) > HAIR * MM:
            yield f"begins {(box.left - onset) / MM:+.2f} mm from its onset"
    elif not first and abs(box.left - placed.left) > HAIR * MM:
        yield "does not begin at the bar line"
    elif first and not (placed.left - 1.3 * MM < box.left < onset):
        yield "is torn elsewhere than before its onset"
    if note.held_on:
        if box.right < placed.right - HAIR * MM:
            yield "does not reach the bar line over which it sounds on"
    else:
        white = (end - box.right) / MM
        if not WHITES[0] < white < WHITES[1]:
            yield f"ends {white:.2f} mm before its end"
        if box.right > placed.right - 0.2 * MM:
            yield "touches the bar line"
    wanted = (not note.struck and first, note.held_on and last, not note.held_on)
    got = (box.torn_left, box.torn_right, box.round_right)
    if got != wanted:
        yield f"torn left, torn right, round: {got} in place of {wanted}"


def _misdrawn(options: Options, placed: Placed, box: PrintedBox, note: Sounding) -> Iterator[str]:
    """Blow stands and is white, draw hangs and is filled; in light ink it has a black foot."""
    tab = note.tab
    if box.drawn != tab.draw:
        yield "is on the wrong side of the comb"
    if box.filled != (tab.draw and not options.light):
        yield "is filled" if box.filled else "is not filled"
    if not box.filled and not box.outline:
        yield "has no outline"
    ink = options.colours[tab.draw]
    painted = {edge.ink for edge in box.outline} if box.outline else {box.fill.ink}
    if painted != {long_ink(ink)}:
        yield f"is {painted}"
    feet = [
        each for each in placed.shapes
        if not each.weight and each.ink != WHITE and box.meets(each)
        and each.right - each.left > 0.8 * (box.right - box.left) - 1.5 * MM
        and abs(each.bottom - box.far) < 0.3 * MM and each is not box.fill
        and each.bottom - each.top > 1.3 * MM and box.drawn and each.right - each.left > MM
    ]  # fmt: skip
    if bool(feet) != (options.light and tab.draw):
        yield "has a foot" if feet else "has no foot"
    if note.struck:
        yield from _misbent(placed, box, note)


def long_ink(ink: str) -> str:
    """ "#abc" as "#aabbcc"."""
    return ink if len(ink) == 7 else "#" + "".join(2 * part for part in ink[1:])


def _misbent(placed: Placed, box: PrintedBox, note: Sounding) -> Iterator[str]:
    """A tick for each half step, a ring for an overbend, squares for the holes between."""
    inside = [each for each in placed.shapes if box.holds(each) and _within(each, box)]
    ticks = [
        each for each in inside
        if set(each.steps[1:-1]) == {"l"} and not each.rectangle and not each.weight
        and len({round(x, 1) for x, _ in each.points}) == 4
    ]  # fmt: skip
    if len(ticks) != note.tab.bend:
        yield f"{len(ticks)} ticks"
    rings = [each for each in inside if each.steps == "mcccch" and each.weight]
    if len(rings) != note.tab.overbend:
        yield f"{len(rings)} rings"
    holes = note.tab.holes
    between = holes[-1] - holes[0] - 1 if len(holes) > 1 else 0
    squares = [
        each for each in inside
        if each.rectangle and abs((each.right - each.left) - (each.bottom - each.top)) < LITTLE
        and abs((each.top + each.bottom) / 2 - _middle(placed, box)) < 0.2 * MM
    ]  # fmt: skip
    wanted = between * (1 if note.tab.split else 2)  # a hollow one has an inner edge
    if len(squares) != wanted:
        yield f"{len(squares)} squares in place of {wanted}"
    if any(each.thin < 0.6 * MM for each in squares):
        yield "its squares are too small to be told apart"


def _middle(placed: Placed, box: PrintedBox) -> float:
    """The middle between the two figures of a stack."""
    figures = [char for _, char in placed.figures(box)]
    return sum((char.top + char.bottom) / 2 for char in figures) / max(1, len(figures))


def _within(each: Shape | Char, box: PrintedBox) -> bool:
    slack = 0.1 * MM
    return (
        each.left > box.left - slack
        and each.right < box.right + slack
        and each.top > box.top - slack
        and each.bottom < box.bottom + slack
    )


def _touched(placed: Placed, box: PrintedBox, note: Sounding) -> Iterator[str]:
    """What meets a box and is neither in it nor a part of its comb."""
    own = {id(box.fill), *map(id, box.outline)}
    for each in (*placed.chars, *placed.shapes):
        if id(each) in own or not box.meets(each, LITTLE):
            continue
        if isinstance(each, Shape) and each in placed.lines:
            continue
        held = note.held_on or not note.struck
        if isinstance(each, Shape) and held and (placed.bar_line(each) or _stub(each, placed)):
            continue
        if not _within(each, box):
            yield f"{_name(each)} touches it at {_place(each)}"
        elif each.ink == WHITE and not box.filled:
            yield f"{_name(each)} is white on white"
        elif each.ink != WHITE and box.filled:
            yield f"{_name(each)} is dark on dark"


def _stub(each: Shape, placed: Placed) -> bool:
    """Whether it is the stub of a bar line in a held box."""
    middle = (each.left + each.right) / 2
    at_line = min(abs(middle - placed.left), abs(middle - placed.right)) < 0.1 * MM
    return each.rectangle and at_line and each.right - each.left < 0.7 * MM


def _misread(
    options: Options, placed: Placed, box: PrintedBox, note: Sounding, *, first: bool
) -> Iterator[str]:
    """The figures in a box: which holes, how large, in which weight."""
    figures = placed.figures(box)
    if not note.struck and not first:
        if figures:
            yield "has a figure though it is only held"
        stubs = [
            each for each in placed.shapes
            if _stub(each, placed) and abs((each.left + each.right) / 2 - placed.left) < 0.1 * MM
            and box.top - LITTLE < each.top and each.bottom < box.bottom + LITTLE
            and (each.ink == WHITE) == box.filled
        ]  # fmt: skip
        if len(stubs) != 2:
            yield f"shows {len(stubs)} stubs of the bar line"
        return
    holes = note.tab.holes
    wanted = [str(holes[-1]), str(holes[0])] if len(holes) > 1 else [str(holes[0])]
    if [text for text, _ in figures] != wanted:
        yield f"shows {[text for text, _ in figures]}"
        return
    least = (LARGE_CAP if options.large else CAP) * (STACKED if len(holes) > 1 else 1.0)
    for text, char in figures:
        height = cap_height(char) / MM
        if height < least - 0.01:
            yield f"the figure {text} is {height:.2f} mm high"
        if char.face != ("bold" if note.struck else "regular"):
            yield f"the figure {text} is {char.face}"


def cap_height(char: Char) -> float:
    """The height (points) of the figures of a face at a character's size."""
    return 0.668 * char.size


def _parted(placed: Placed, box: PrintedBox, before: Placed) -> Iterator[str]:
    """A held box goes on from the bar before, without a gap and at the same height."""
    last = before.boxes[-1] if before.boxes else None
    if last is None or last.right < box.left:
        yield "a gap parts a held box at the bar line"
    elif abs(last.far - box.far) > HAIR * MM or last.drawn != box.drawn:
        yield "a held box changes its height at the bar line"


# ---- The comb, and over it -----------------------------------------------------------------


def _miscounted(placed: Placed) -> Iterator[str]:
    """Each beat is counted; what is struck is bold; a landing has a thick tooth."""
    struck = {note.onset: note for note in placed.sounding if note.struck}
    wanted = [
        (count.label, "bold" if count.onset in struck else "regular")
        for count in placed.bar.counts
        if count.onset >= placed.start and (count.beat or count.onset in struck)
    ]
    inside = [c for c in placed.chars if placed.top < (c.top + c.bottom) / 2 < placed.foot]
    found = [(char.text, char.face) for char in sorted(inside, key=lambda char: char.left)]
    joined: list[tuple[str, str]] = []
    for label, face in wanted:
        joined += [(character, face) for character in label]
    if found != joined:
        yield f"the comb reads {_row(found)} in place of {_row(joined)}"
    teeth = sorted(
        each.left for each in placed.shapes
        if each.rectangle and placed.top - LITTLE < each.top and each.bottom < placed.foot + LITTLE
        and 1.0 * MM < each.right - each.left < 1.2 * MM and each.bottom - each.top > 2.0 * MM
    )  # fmt: skip
    landings = sorted(placed.x(onset) for onset, note in struck.items() if note.landing)
    if len(teeth) != len(landings):
        yield f"{len(teeth)} thick teeth for {len(landings)} landings"
    elif any(abs(one - other) > HAIR * MM for one, other in zip(teeth, landings, strict=True)):
        yield "a thick tooth is not where its note is struck"


def _row(found: Sequence[tuple[str, str]]) -> str:
    return " ".join(text if face == "regular" else f"*{text}" for text, face in found)


def _mislettered(placed: Placed) -> Iterator[str]:
    """The letter of a lick stands in a circle where the lick begins, and nowhere else."""
    bar = placed.bar
    over = [
        char for char in placed.chars
        if char.bottom < placed.top and not any(box.holds(char) for box in placed.boxes)
    ]  # fmt: skip
    circles = [
        each for each in placed.shapes
        if each.steps == "mcccch" and each.weight and each.bottom < placed.top
        and not any(box.holds(each) for box in placed.boxes) and _lettered(each)
    ]  # fmt: skip
    wanted = bool(bar.opens and bar.letter)
    if len(circles) != wanted:
        yield f"{len(circles)} circles in place of {int(wanted)}"
        return
    for circle in circles:
        inner = [c for c in over if circle.left < (c.left + c.right) / 2 < circle.right]
        inner = [c for c in inner if circle.top < (c.top + c.bottom) / 2 < circle.bottom]
        if "".join(char.text for char in inner) != bar.letter:
            yield f"the circle holds {[char.text for char in inner]}, not {bar.letter}"
        over = [char for char in over if char not in inner]
    head = "".join(c.text for c in sorted(over, key=lambda c: (c.base, c.left)))
    if bar.number:
        chords = accidentals(" ".join(f"{c.numeral} {c.letter}" for c in bar.chords)).split()
        first = f"{bar.number}{''.join(chords[:2])}"
        rest = head.partition(first)[2]
        if first not in head or any("".join(chords[at : at + 2]) not in rest
                                    for at in range(2, len(chords), 2)):  # fmt: skip
            yield f"its head reads {head!r}, without {bar.number} {' '.join(chords)}"


def _lettered(each: Shape) -> bool:
    """Whether it is a circle such as that round the letter of a lick: wide, and of a thin line."""
    wide, high = each.right - each.left, each.bottom - each.top
    return abs(wide - high) < LITTLE and wide > 3 * MM and 0 < each.weight < 0.5 * MM


def _crossed(placed: Placed) -> Iterator[str]:
    """Characters over shapes, or shapes over shapes, in the comb and outside of the boxes."""
    boxes = placed.boxes
    parts = {id(each) for box in boxes for each in (box.fill, *box.outline)}
    loose = [
        each for each in placed.shapes
        if id(each) not in parts and not any(box.holds(each) for box in boxes)
        and each not in placed.lines and not _stub(each, placed)
    ]  # fmt: skip
    circles = [each for each in loose if each.steps == "mcccch" and each.weight]
    for char in placed.chars:
        if any(box.holds(char) for box in boxes):
            continue
        for each in loose:
            if each in circles and each.left < char.left and char.right < each.right:
                continue
            if meet(char, each):
                yield f"{char.text!r} meets a shape at {_place(char)}"
    inside = [
        each for each in loose
        if each.top > placed.top - LITTLE and each.bottom < placed.foot + LITTLE
    ]  # fmt: skip
    rests = [each for each in inside if "c" in each.steps and not each.weight]
    for rest in rests:
        for each in inside:
            if each is not rest and each not in rests and meet(rest, each, 0.1 * MM):
                yield f"a rest meets a shape at {_place(rest)}"
    for drawn in (False, True):
        yield from _missigned(placed, loose, drawn)


def _missigned(placed: Placed, loose: Sequence[Shape], drawn: bool) -> Iterator[str]:
    """Each note with a technique has a sign at its outer edge; no two signs meet."""
    boxes = zip(placed.boxes, placed.sounding, strict=True)
    signed = [
        box for box, note in boxes if note.technique and note.struck and box.drawn == drawn
    ]  # fmt: skip
    for box, following in zip(signed, [*signed[1:], None], strict=False):
        start = box.left - 0.5 * MM
        end = following.left if following else placed.right
        edge = box.far
        near = [
            each for each in loose
            if start <= each.left < end - 0.5 * MM and not placed.bar_line(each)
            and 0 < (each.top - edge if drawn else edge - each.bottom) < 6 * MM
        ]  # fmt: skip
        near = [each for each in near if drawn or not _lettered(each)]
        if not near:
            yield f"no sign at {box.left / MM:.1f} mm"
        elif max(each.right for each in near) > end + 0.2 * MM:
            yield f"the sign at {box.left / MM:.1f} mm runs into the next"


def meet(one: Char | Shape, other: Char | Shape, by: float = LITTLE) -> bool:
    """Whether two inks share more than a hair."""
    across = min(one.right, other.right) - max(one.left, other.left)
    down = min(one.bottom, other.bottom) - max(one.top, other.top)
    return across > by and down > by


# ---- Lines ---------------------------------------------------------------------------------

COLUMN = 0.5 * MM


def _close_lines(found: Leaf) -> Iterator[str]:
    """Lines that come nearer to each other than they may, measured column by column."""
    for one, other in pairwise(found.lines):
        if one[0].page != other[0].page:
            continue
        width = found.pages[one[0].page].width
        gap = min(_skyline(other, width, upper=True) - _skyline(one, width, upper=False)) / MM
        if gap < APART - HAIR:
            names = f"bars {one[0].bar.number} and {other[0].bar.number}"
            yield f"page {one[0].page + 1}: {names} are {gap:.2f} mm apart"


def _skyline(line: Sequence[Placed], width: float, *, upper: bool) -> np.ndarray:
    """The highest or the lowest ink of a line in each column of the page, a millimetre wide."""
    edge = np.full(int(width / COLUMN) + 1, np.inf if upper else -np.inf)
    for placed in line:
        for each in placed.ink:
            if isinstance(each, Char) and each.text.isspace():
                continue
            first, last = int((each.left - COLUMN) / COLUMN), int((each.right + COLUMN) / COLUMN)
            part = edge[max(0, first) : last + 1]
            if upper:
                np.minimum(part, each.top, out=part)
            else:
                np.maximum(part, each.bottom, out=part)
    return edge


def _untrue_columns(found: Leaf) -> Iterator[str]:
    """The same beat has the same place in all lines of a chorus.

    But for a line with a wider bar, and at the heavy bar line of a repeat or of the end.
    """
    columns: dict[tuple[int, int], list[Placed]] = defaultdict(list)
    for line in found.lines:
        widths = [each.right - each.left for each in line if each.bar.number]
        if widths and max(widths) - min(widths) < 0.2 * MM:
            for each in line:
                own = [bar for row in each.chorus.lines for bar in row]
                heavy = each.bar is own[-1] or (each.bar is own[0] and each.chorus.opens_repeat)
                if each.bar.number and not heavy:
                    whole = next(
                        at for at, c in enumerate(found.sheet.choruses) if c is each.chorus
                    )
                    while found.sheet.choruses[whole].places:
                        whole -= 1
                    columns[whole, round((each.right - each.left) / MM)].append(each)
    for (_, _), bars in columns.items():
        for one, other in combinations(bars, 2):
            if one.page != other.page or abs(one.left - other.left) > 3 * MM:
                continue
            if abs(one.left - other.left) > HAIR * MM:
                yield f"bars {one.bar.number} and {other.bar.number} are not in one column"
            elif len(one.teeth) == len(other.teeth) and any(
                abs(a - b) > HAIR * MM for a, b in zip(one.teeth, other.teeth, strict=True)
            ):
                yield f"the beats of bars {one.bar.number} and {other.bar.number} differ"


def _uneven_figures(found: Leaf) -> Iterator[str]:
    """The figures of single holes have one size in a chorus."""
    sizes: dict[tuple[int, int], set[float]] = defaultdict(set)
    for at, chorus in enumerate(found.sheet.choruses):
        for placed in found.bars:
            if placed.chorus is chorus:
                for box in placed.boxes:
                    figures = placed.figures(box)
                    if len(figures) == 1:
                        sizes[placed.page, at].add(figures[0][1].size)
    for (page, _), found_sizes in sizes.items():
        if max(found_sizes) - min(found_sizes) > 0.3:
            yield f"page {page + 1}: figures of {sorted(found_sizes)} pt"
