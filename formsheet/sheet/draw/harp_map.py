"""The harp map: the hole numbers in the comb, blow notes above, draw notes below, bends outside.

Notes that the tune plays are in boxes, as in the tune itself. Lengths are millimetres.
"""

from __future__ import annotations

from collections.abc import Sequence

from formsheet.music.tunings import HOLES
from formsheet.sheet.draw.canvas import BLACK, WHITE, Canvas
from formsheet.sheet.draw.look import Look
from formsheet.sheet.draw.metrics import Font, width
from formsheet.sheet.draw.note_box import SLANT, Box, circle, draw_frame, draw_ticks
from formsheet.sheet.draw.words import accidentals
from formsheet.sheet.view import HoleMark, HoleNote, HoleUse

LINE = 0.25  # of the comb
TOOTH = 1.2
LEAST_NOTE = 9.0  # pt, of a long name behind many ticks
RING = 0.4
WORD_GAP = 1.0
CELL = 8.7  # width of a hole, at 10.5 pt and less
INSIDE = 0.35, 0.4  # from the sides of a cell to its box
EDGE = 0.6  # from the side of a box to what stands in it
SIGN_GAP = 0.45  # from ticks or ring to the name


class HarpMap:
    """The sizes of a map in a width of `room`, at the size of the texts around it."""

    def __init__(self, room: float, text: float) -> None:
        self.note = Font("bold", text)
        self.bent = Font("regular", max(LEAST_NOTE, text - 0.5))
        self.hole = Font("bold", text + 0.5)
        self.word = Font("regular", max(LEAST_NOTE, text - 0.5))
        share = text / 10.5
        self.words = width("draw", self.word) + WORD_GAP
        self.cell = min((room - self.words - 0.4) / HOLES, max(CELL, CELL * share))
        self.box = 5.6 * share
        self.comb = 5.4 * share
        self.bend = 4.8 * share
        self.tick = (1.7 * share, 1.05 * share, 0.55 * share)  # height, pitch, stroke

    @property
    def width(self) -> float:
        """Its width."""
        return self.cell * HOLES + self.words + 0.4

    def draw(self, holes: Sequence[HoleUse], look: Look) -> Canvas:
        """Draw the map."""
        above = max(len(_side(hole, drawn=False)) for hole in holes) - 1
        below = max(len(_side(hole, drawn=True)) for hole in holes) - 1
        comb = above * self.bend + self.box + 0.3
        foot = comb + self.comb
        right = self.cell * len(holes)
        canvas = Canvas(right + self.words + 0.4, foot + self.box + below * self.bend + 0.3, -0.2)
        for i, hole in enumerate(holes):
            left = i * self.cell
            for drawn in (False, True):
                base = foot if drawn else comb
                for row, note in enumerate(_side(hole, drawn)):
                    self._note(canvas, note, left, base, row, look)
            middle = (comb + foot + self.hole.figure_height) / 2
            canvas.text(left + self.cell / 2, middle, str(hole.hole), self.hole, "middle")
        for y, side in ((comb, 1), (foot, -1)):
            canvas.rectangle(-0.1, y - LINE / 2, right + 0.2, LINE)
            for i in range(len(holes) + 1):
                canvas.rectangle(i * self.cell - LINE / 2, min(y, y + side * TOOTH), LINE, TOOTH)
        for word, y in (("blow", comb - self.box / 2), ("draw", foot + self.box / 2)):
            canvas.text(right + WORD_GAP, y + self.word.figure_height / 2, word, self.word)
        return canvas

    def _note(
        self, canvas: Canvas, note: HoleNote, left: float, base: float, row: int, look: Look
    ) -> None:
        """A note in its cell, `row` rows from the comb."""
        down = 1 if note.draw else -1
        near = base + down * (self.box + (row - 1) * self.bend if row else 0.0)
        high = self.bend if row else self.box
        outer = near + down * high
        ink = BLACK
        if note.used:
            box = Box(left + INSIDE[0], left + self.cell - INSIDE[1], HoleMark((1,), note.draw))
            draw_frame(canvas, box, near, outer, look)
            ink = WHITE if look.filled(note.draw) else look.ink(note.draw)
        self._content(canvas, note, left, (near + outer) / 2, ink)

    def _content(
        self, canvas: Canvas, note: HoleNote, left: float, middle: float, ink: str
    ) -> None:
        name = accidentals(note.name)
        high, pitch, stroke = self.tick
        used = self.note if note.used else self.bent
        font = Font(used.face, used.size, ink)
        near, far = INSIDE
        room = self.cell - near - far - 2 * EDGE
        sign = 0.0
        if note.overbend:
            sign = high + RING
        elif note.bend:
            sign = (note.bend - 1) * pitch + stroke + SLANT * high
        gap = SIGN_GAP if sign else 0.0
        if sign + gap + width(name, font) > room:
            font = Font(font.face, min(font.size, max(LEAST_NOTE, 0.9 * self.bent.size)), ink)
        over = sign + gap + width(name, font) - room
        if over > 0 and note.bend > 1:
            less = min(over / (note.bend - 1), pitch - 1.5 * stroke)
            pitch, sign = pitch - less, sign - less * (note.bend - 1)
        x = left + near + EDGE + (room - sign - gap - width(name, font)) / 2
        if note.bend:
            draw_ticks(canvas, x, middle, note.bend, (high, pitch, stroke), ink)
        elif note.overbend:
            canvas.stroke(RING, circle(x + sign / 2, middle, high / 2), ink)
        canvas.text(x + sign + gap, middle + font.figure_height / 2, name, font)


def _side(hole: HoleUse, drawn: bool) -> list[HoleNote]:
    return [note for note in hole.notes if note.draw == drawn]


def harp_words(holes: Sequence[HoleUse]) -> str:
    """The map in words: the notes of the tune, hole by hole."""
    parts = []
    for hole in holes:
        for note in hole.notes:
            if note.used:
                breath = "draw" if note.draw else "blow"
                bent = f" bent {note.bend}" if note.bend else ""
                over = "over" if note.overbend else ""
                parts.append(f"{hole.hole} {over}{breath}{bent} {accidentals(note.name)}")
    return f"The notes of the tune on the harp: {', '.join(parts) or 'none'}."
