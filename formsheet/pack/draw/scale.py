"""Time to scale: where in a bar a moment stands."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

INSET = 5.4  # mm from the bar line to the first onset


@dataclass(frozen=True, slots=True)
class Scale:
    """A bar's width (mm) and its scale (mm a quarter), from the moment `start` on."""

    width: float
    unit: float
    start: Fraction = Fraction(0)

    def x(self, onset: Fraction) -> float:
        """Where a moment stands, in millimetres from the bar line."""
        return INSET + float(onset - self.start) * self.unit


def bar_scale(width: float, length: Fraction) -> Scale:
    """The scale of a whole bar of a given width."""
    return Scale(width, (width - INSET) / float(length))


def part_scale(unit: float, start: Fraction, length: Fraction) -> Scale:
    """The scale of the end of a bar, from `start` on, at the unit of its neighbours."""
    return Scale(INSET + float(length - start) * unit, unit, start)
