"""How well a colour is told from another without its hue."""

from __future__ import annotations


def luminance(colour: object) -> float:
    """Relative luminance of a colour of 8-bit parts, as WCAG 2.2 defines it."""
    assert isinstance(colour, tuple)
    parts = [float(value) / 255 for value in colour[:3]]
    linear = [p / 12.92 if p <= 0.04045 else float(((p + 0.055) / 1.055) ** 2.4) for p in parts]
    return sum(share * p for share, p in zip((0.2126, 0.7152, 0.0722), linear, strict=True))


def contrast(one: object, other: object) -> float:
    """Contrast ratio of two colours, 1 to 21, as WCAG 2.2 defines it."""
    light, dark = sorted((luminance(one), luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)
