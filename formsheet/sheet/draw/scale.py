"""The horizontal scale of a bar: from time to millimetres."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from formsheet.sheet.draw.measures import INSET


@dataclass(frozen=True, slots=True)
class Scale:
    """A bar's width (mm) and its scale (mm a quarter), from the moment `start` on."""

    width: float
    unit: float
    start: Fraction = Fraction(0)

    def x(self, onset: Fraction) -> float:
        """The place of a moment, in millimetres from the bar line."""
        return INSET + float(onset - self.start) * self.unit


def bar_scale(width: float, length: Fraction, end: float = 0.0) -> Scale:
    """The scale of a whole bar of a given width; `end`: what a sign at its end takes of it."""
    return Scale(width, (width - INSET - end) / float(length))


def part_scale(unit: float, start: Fraction, length: Fraction) -> Scale:
    """The scale of the end of a bar, from `start` on, with the unit (mm a quarter) of others."""
    return Scale(INSET + float(length - start) * unit, unit, start)
