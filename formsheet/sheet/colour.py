"""Contrast of two colours, as the Web Content Accessibility Guidelines define it (WCAG 2.2)."""

from __future__ import annotations

#: Least contrast of an ink on white paper, and of the white figure in a box of it: level AA for
#: text (WCAG 2.2, success criterion 1.4.3).
LEAST_CONTRAST = 4.5


def contrast(one: str, other: str) -> float:
    """The contrast ratio of two colours given as "#rrggbb", 1 to 21."""
    lighter, darker = sorted((luminance(one), luminance(other)), reverse=True)
    return (lighter + 0.05) / (darker + 0.05)


def luminance(colour: str) -> float:
    """The relative luminance of a colour given as "#rrggbb", 0 (black) to 1 (white)."""
    red, green, blue = (int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5))
    return 0.2126 * _linear(red) + 0.7152 * _linear(green) + 0.0722 * _linear(blue)


def _linear(value: float) -> float:
    return value / 12.92 if value <= 0.04045 else ((value + 0.055) / 1.055) ** 2.4
