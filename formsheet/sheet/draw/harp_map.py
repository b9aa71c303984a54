"""The harp map: the hole numbers in the comb, blow notes above, draw notes below, bends outside.

Notes that the tune plays are in boxes, as in the tune itself. Lengths are millimetres.
"""

from __future__ import annotations

from collections.abc import Sequence

from formsheet.sheet.draw.canvas import BLACK, WHITE, Canvas
from formsheet.sheet.draw.look import Look
from formsheet.sheet.draw.metrics import Font, width
from formsheet.sheet.draw.note_box import Box, circle, draw_frame, draw_ticks
from formsheet.sheet.draw.words import accidentals
from formsheet.sheet.view import HoleMark, HoleNote, HoleUse

LINE = 0.25  # of the comb
TOOTH = 1.2
WHITE_GAP = 0.6  # between two boxes
LEAST_NOTE = 9.0  # pt, of a long name behind many ticks
RING = 0.4
WORD_GAP = 1.0


class HarpMap:
    """The sizes of a map in a width of `room`, at the size of the texts around it."""

    def __init__(self, room: float, text: float) -> None:
        self.note = Font("bold", text)
        self.bent = Font("regular", text - 0.5)
        self.hole = Font("bold", text + 0.5)
        self.word = Font("regular", text - 0.5)
        share = text / 10.5
        self.words = width("draw", self.word) + WORD_GAP
        self.cell = min((room - self.words - 0.4) / 10, 8.6 * share)
        self.box = 6.0 * share
        self.comb = 5.8 * share
        self.bend = 5.0 * share
        self.tick = (1.7 * share, 1.1 * share, 0.55 * share)  # height, pitch, stroke

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
            box = Box(left + 0.35, left + self.cell - WHITE_GAP + 0.2, HoleMark((1,), note.draw))
            draw_frame(canvas, box, near, outer, look)
            ink = WHITE if look.filled(note.draw) else look.ink(note.draw)
        self._content(canvas, note, left, (near + outer) / 2, ink)

    def _content(
        self, canvas: Canvas, note: HoleNote, left: float, middle: float, ink: str
    ) -> None:
        name = accidentals(note.name)
        high, pitch, stroke = self.tick
        sign = note.bend * pitch + 0.5 if note.bend else 2.2 * RING + high if note.overbend else 0.0
        face = self.note.face if note.used else self.bent.face
        size = self.note.size if note.used else self.bent.size
        room = self.cell - 1.4 - sign
        wide = width(name, Font(face, size))
        if wide > room:
            size = max(LEAST_NOTE, size * room / wide)
            wide = width(name, Font(face, size))
        if note.bend and wide > room:
            pitch = max(0.5, (self.cell - 1.0 - wide) / note.bend)
            stroke, sign = min(stroke, 0.6 * pitch), note.bend * pitch + 0.3
        font = Font(face, size, ink)
        x = left + (self.cell - sign - wide) / 2
        y = middle + font.figure_height / 2
        if note.bend:
            draw_ticks(canvas, x, middle - 0.2, note.bend, (high, pitch, stroke), ink)
        elif note.overbend:
            canvas.stroke(RING, circle(x + high / 2, middle, high / 2), ink)
        canvas.text(x + sign, y, name, font)


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
