"""Values read from files without the places where they stand, to compare them."""

from __future__ import annotations

from dataclasses import fields, is_dataclass
from enum import Enum
from typing import Any

from formsheet.source import Source, Span

_UNSAID = ("places",)


def placeless(value: Any) -> Any:
    """A lesson, a lick or a tune as plain values: equal where two of them say the same."""
    if isinstance(value, tuple | list):
        return [placeless(item) for item in value if not isinstance(item, Span)]
    if isinstance(value, dict):
        return {key: placeless(item) for key, item in value.items()}
    if is_dataclass(value) and not isinstance(value, Enum):
        return type(value).__name__, {
            field.name: placeless(item)
            for field in fields(value)
            if not isinstance(item := getattr(value, field.name), Span | Source)
            and field.name not in _UNSAID
        }
    return value
