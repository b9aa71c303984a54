"""What is wrong with a bar of a printed sheet: its boxes, its comb, its head, its signs."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from formsheet.sheet.draw.words import accidentals
from formsheet.sheet.options import Options
from tests.sheet.box_faults import box_faults
from tests.sheet.inks import HAIR, LITTLE, is_stub, meet, place_of
from tests.sheet.placed import Placed
from tests.sheet.printed import MM, Shape

TOOTH = 0.8, 1.7  # mm: the least width and height of the tooth of a landing
THREE = 7.5  # pt: the 3 of a triplet, smaller than any count


def bar_faults(
    options: Options, placed: Placed, before: Placed | None, *, last: bool
) -> Iterator[str]:
    """What is wrong with a bar; `before` stands left of it in its line."""
    yield from _outside(placed)
    if len(placed.boxes) != len(placed.sounding):
        yield f"{len(placed.boxes)} boxes for {len(placed.sounding)} notes"
        return
    yield from box_faults(options, placed, before, last=last)
    yield from _miscounted(placed)
    yield from _mislettered(placed)
    yield from _crossed(placed)


def _outside(placed: Placed) -> Iterator[str]:
    """Ink beyond the bar lines; a torn edge, a heavy line and the words at the side may be."""
    side = 1.8
    for char in placed.chars:
        if char.left < placed.left - LITTLE or char.right > placed.right + LITTLE:
            yield f"{char.text!r} leaves the bar at {place_of(char)}"
    for shape in placed.shapes:
        words = shape.right < placed.left - 1.5 * MM and shape.thin > MM
        if words:
            continue
        if shape.left < placed.left - side * MM or shape.right > placed.right + side * MM:
            yield f"a shape leaves the bar at {place_of(shape)}"


def _miscounted(placed: Placed) -> Iterator[str]:
    """Each beat is counted; what is struck is bold; a landing has a thick tooth."""
    struck = {note.onset: note for note in placed.sounding if note.struck}
    wanted = [
        (count.label, "bold" if count.onset in struck else "regular")
        for count in placed.bar.counts
        if count.onset >= placed.start and (count.beat or count.onset in struck)
    ]
    inside = [
        char for char in placed.chars
        if placed.top < (char.top + char.bottom) / 2 < placed.foot and char.size > THREE
    ]  # fmt: skip
    found = [(char.text, char.face) for char in sorted(inside, key=lambda char: char.left)]
    joined: list[tuple[str, str]] = []
    for label, face in wanted:
        joined += [(character, face) for character in label]
    if found != joined:
        yield f"the comb reads {_row(found)} in place of {_row(joined)}"
    teeth = sorted(
        each.left for each in placed.shapes
        if each.rectangle and placed.top - LITTLE < each.top and each.bottom < placed.foot + LITTLE
        and each.right - each.left > TOOTH[0] * MM and each.bottom - each.top > TOOTH[1] * MM
        and each.right - each.left < each.bottom - each.top
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
        and each not in placed.lines and not is_stub(each, placed)
    ]  # fmt: skip
    circles = [each for each in loose if each.steps == "mcccch" and each.weight]
    for char in placed.chars:
        if any(box.holds(char) for box in boxes):
            continue
        for each in loose:
            if each in circles and each.left < char.left and char.right < each.right:
                continue
            if meet(char, each):
                yield f"{char.text!r} meets a shape at {place_of(char)}"
    inside = [
        each for each in loose
        if each.top > placed.top - LITTLE and each.bottom < placed.foot + LITTLE
    ]  # fmt: skip
    rests = [each for each in inside if "c" in each.steps and not each.weight]
    for rest in rests:
        for each in inside:
            if each.steps == "mll":  # the bracket of a triplet: only its line
                each = replace(each, top=each.bottom - each.weight)
            if each is not rest and each not in rests and meet(rest, each, 0.1 * MM):
                yield f"a rest meets a shape at {place_of(rest)}"
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
