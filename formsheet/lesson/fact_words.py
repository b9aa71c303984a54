"""Tempo and feel in words for the student, on the sheet and in the text tab."""

from __future__ import annotations

from fractions import Fraction

from formsheet.music.rhythm import Meter
from formsheet.music.swing import Feel


def feel_words(feel: Feel, meter: Meter) -> str:
    """The feel as a line at the top of the sheet."""
    if meter.compound:
        return f"{meter.text}: {_NUMBERS[meter.beats]} beats in a bar, three eighths to each"
    if not feel.swings:
        return "Straight: all eighths are even"
    if feel.ratio == 2:
        return "Swing: the first of two eighths is twice as long as the second"
    share = f"{float(feel.share * 100):.3g}"
    return f"Light swing: the first of two eighths takes {share} per cent of the beat"


def short_feel_words(feel: Feel) -> str:
    """The feel in a word or two: "swing", "straight", "light swing 3:2"."""
    if not feel.swings:
        return "straight"
    if feel.ratio == 2:
        return "swing"
    long, short = feel.ratio.as_integer_ratio()
    return f"swing {long}:{short}"


_NUMBERS = ("no", "one", "two", "three", "four")


def tempo_words(tempo: Fraction, meter: Meter) -> str:
    """The tempo: "104 beats a minute"."""
    number = f"{float(tempo):g}"
    return f"{number} dotted quarters a minute" if meter.compound else f"{number} beats a minute"
