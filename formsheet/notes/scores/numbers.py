"""Numbers and texts in the elements of a score; what is not there or no number is None."""

from __future__ import annotations

import re
from fractions import Fraction
from xml.etree.ElementTree import Element

_NUMBER = re.compile(r"[+-]?\d{1,9}(?:\.\d{1,6})?")


def text_of(element: Element | None, path: str) -> str:
    """The text of the first element at a path; "" without one."""
    found = element.find(path) if element is not None else None
    return (found.text or "").strip() if found is not None else ""


def number(text: str | None) -> Fraction | None:
    """A decimal number; None for any other text."""
    return Fraction(text.strip()) if text and _NUMBER.fullmatch(text.strip()) else None


def number_of(element: Element | None, path: str) -> Fraction | None:
    """The number in the first element at a path."""
    return number(text_of(element, path))


def whole_of(element: Element | None, path: str) -> int | None:
    """The whole number in the first element at a path; a fraction is rounded."""
    found = number_of(element, path)
    return None if found is None else round(found)
