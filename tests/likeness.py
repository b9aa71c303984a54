"""Values read from files without the places where they stand, to compare them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import fields, is_dataclass
from typing import Any

from formsheet.language.tree import (
    FileTree,
    FormBlock,
    LickBlock,
    PlayBlock,
    RhythmBlock,
    TuningBlock,
)  # fmt: skip
from formsheet.source import Source, Span

_UNSAID = ("places",)


def placeless(value: Any) -> Any:
    """A lesson, a lick or a tune as plain values: equal where two of them say the same."""
    if isinstance(value, FileTree | TuningBlock | FormBlock | RhythmBlock | LickBlock | PlayBlock):
        return _named(value, vars(value))
    if isinstance(value, tuple) and hasattr(value, "_asdict"):
        return _named(value, value._asdict())
    if isinstance(value, tuple | list):
        return [placeless(item) for item in value if not isinstance(item, Span)]
    if isinstance(value, Mapping):
        return {key: placeless(item) for key, item in value.items()}
    if is_dataclass(value) and not isinstance(value, type):
        return _named(value, {field.name: getattr(value, field.name) for field in fields(value)})
    return value


def _named(value: object, parts: Mapping[str, Any]) -> tuple[str, dict[str, Any]]:
    """A value by the names of what it is made of, without its places."""
    return type(value).__name__, {
        name: placeless(part)
        for name, part in parts.items()
        if not isinstance(part, Span | Source) and name not in _UNSAID
    }
