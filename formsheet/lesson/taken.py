"""What a file takes from a shelf, as text: if the text is the same, the file is not affected."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import fields, is_dataclass
from enum import Enum
from pathlib import PurePath
from typing import Any

from formsheet.language.recovery import Unread
from formsheet.lesson.shelf import Shelf
from formsheet.source import Span


def taken_text(shelf: Shelf, names: Iterable[str], *, places: bool) -> str | None:
    """The licks and rhythms of these names, and the facts that a lesson is compared with.

    `places` includes the line and column of each mark. None if the shelf has mistakes or lacks a
    name.
    """
    if shelf.problems or not shelf.readable:
        return None
    items: list[object] = []
    for name in sorted(names):
        item = shelf.licks[name] if name in shelf.licks else shelf.rhythms.get(name)
        if item is None or isinstance(item, Unread):
            return None
        items.append((name, item))
    facts = shelf.facts
    tuning = facts.harp.tuning
    items += [facts.position, tuning.name, tuning.blow, tuning.draw, facts.meter.text]
    return repr(_plain(items, places))


def _plain(value: Any, places: bool) -> Any:
    """A value with all its fields as tuples, texts and numbers; spans only if `places`."""
    if isinstance(value, Span):
        return _place(value) if places else None
    if isinstance(value, Enum):
        return value.name
    if is_dataclass(value) and not isinstance(value, type):
        found = (_plain(getattr(value, field.name), places) for field in fields(value))
        return (type(value).__name__, *found)
    if isinstance(value, list | tuple):
        return tuple(_plain(each, places) for each in value)
    return value


def _place(span: Span) -> tuple[Any, ...]:
    source = span.source
    ends = (source.line_column(span.start), source.line_column(span.end))
    return (PurePath(source.name).name, *ends)
