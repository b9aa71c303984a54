"""What is wrong with the boxes of a printed bar: where they begin and end, what they show."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations

from formsheet.sheet.options import Options
from formsheet.sheet.view import HoleMark
from tests.sheet.inks import HAIR, LITTLE, is_stub, name_of, place_of
from tests.sheet.placed import WHITE, Placed, PrintedBox, Sounding
from tests.sheet.printed import MM, Char, Shape

CAP = 4.7  # mm: height of the figure of a hole
LARGE_CAP = 7.0  # in large print
STACKED = 0.7  # of that: the figures of chords and splits
BESIDE = 0.85  # of that: figures with a mark, in a bar that has a line for itself
WHITES = (0.55, 1.7)  # mm between the end of a box and the next onset
LEAST_FOOT = 0.8  # mm: height of the black foot of a draw box in light ink


def box_faults(
    options: Options, placed: Placed, before: Placed | None, *, last: bool
) -> Iterator[str]:
    """What is wrong with the boxes of a bar; `before` stands left of it in its line."""
    boxes, notes = placed.boxes, placed.sounding
    for box, note in zip(boxes, notes, strict=True):
        name = tab_words(note.tab)
        for fault in (
            *_misplaced(placed, box, note, first=before is None, last=last),
            *_misdrawn(options, placed, box, note),
            *_touched(placed, box, note),
            *_misread(options, placed, box, note, first=before is None, last=last),
        ):
            yield f"{name} at {note.onset}: {fault}"
        if not note.struck and before is not None:
            yield from _parted(placed, box, before)
    for one, other in combinations(boxes, 2):
        if one.meets(other, 0) or (one.drawn == other.drawn and _gap(one, other) < 0.3 * MM):
            yield f"boxes at {one.left / MM:.1f} and {other.left / MM:.1f} mm touch"


def tab_words(tab: HoleMark) -> str:
    """A tab for the message."""
    holes = "".join(map(str, tab.holes))
    return f"{holes}{'o' if tab.overbend else ''}{'bd'[tab.draw]}{chr(39) * tab.bend}"


def _gap(one: PrintedBox, other: PrintedBox) -> float:
    return max(one.left, other.left) - min(one.right, other.right)


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
        and each.bottom - each.top > LEAST_FOOT * MM and box.drawn and each.right - each.left > MM
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
        and len({(round(x, 1), round(y, 1)) for x, y in each.points}) == 4
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
    slack = 0.1 * MM if isinstance(each, Char) else 0.25 * MM
    return (
        each.left > box.left - slack
        and each.right < box.right + slack
        and each.top > box.top - slack
        and each.bottom < box.bottom + slack
    )


def _touched(placed: Placed, box: PrintedBox, note: Sounding) -> Iterator[str]:
    """What meets a box and is neither in it nor a part of its comb."""
    own = {id(box.fill), *map(id, box.outline)}
    others: list[Char | Shape] = [*placed.chars, *placed.shapes]
    for each in others:
        if id(each) in own or not box.meets(each, LITTLE):
            continue
        if isinstance(each, Shape) and each in placed.lines:
            continue
        held = note.held_on or not note.struck
        if isinstance(each, Shape) and held and (placed.bar_line(each) or is_stub(each, placed)):
            continue
        if not _within(each, box):
            yield f"{name_of(each)} touches it at {place_of(each)}"
        elif each.ink == WHITE and not box.filled:
            yield f"{name_of(each)} is white on white"
        elif each.ink != WHITE and box.filled:
            yield f"{name_of(each)} is dark on dark"


def least_cap(options: Options, note: Sounding, *, alone: bool) -> float:
    """The least height (mm) of a figure; with marks beside them, those of a lone bar may be lower.

    There is no more room for a bar than a whole line.
    """
    least = LARGE_CAP if options.large else CAP
    if alone and options.marks.beside:
        least *= BESIDE
    return least * (STACKED if len(note.tab.holes) > 1 else 1.0)


def _misread(
    options: Options,
    placed: Placed,
    box: PrintedBox,
    note: Sounding,
    *,
    first: bool,
    last: bool,
) -> Iterator[str]:
    """The figures in a box: which holes, how large, in which weight."""
    figures = placed.figures(box)
    if not note.struck and not first:
        if figures:
            yield "has a figure though it is only held"
        stubs = [
            each for each in placed.shapes
            if is_stub(each, placed) and abs((each.left + each.right) / 2 - placed.left) < 0.1 * MM
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
    least = least_cap(options, note, alone=first and last)
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
