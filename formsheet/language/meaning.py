"""What a tree says, without the places where it says it: two files that say the same are equal."""

from __future__ import annotations

from enum import Enum
from typing import Any

from formsheet.language import tree as t
from formsheet.language.tree import FileTree, Mark, Sign
from formsheet.source import Source, Span


def meaning(tree: FileTree) -> Any:
    """The tree as plain tuples. How a rest, a bend or a bar line is spelt makes no difference."""
    return _plain(tree)


def _plain(part: Any) -> Any:
    match part:
        case Mark(sign, text, _, times):
            return sign, text if sign in (Sign.VALUE, Sign.STRAY) else "", times
        case Span() | Source():
            return None
        case tuple():
            return (type(part).__name__, *map(_plain, part))
        case list():
            return tuple(map(_plain, part))
        case set():
            return frozenset(part)
        case Enum():
            return part
        case (
            FileTree()
            | t.TuningBlock()
            | t.FormBlock()
            | t.RhythmBlock()
            | t.LickBlock()
            | t.PlayBlock()
        ):
            return (type(part).__name__, *map(_plain, vars(part).values()))
        case _:
            return part
