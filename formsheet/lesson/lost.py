"""Names that a slip elsewhere has lost: who asks for one of them is not blamed for it."""

from __future__ import annotations

from collections.abc import Iterable

from formsheet.language import tree as t
from formsheet.problems.nearest import Names


class Lost:
    """The names in lines of a file that could not be read, or that its shelves do not have."""

    def __init__(self, tree: t.FileTree, missing: Iterable[str]) -> None:
        # A `use` line that could not be read may have named anything.
        self._any = "use" in tree.broken_facts
        self._names = Names({*tree.lost_names, *missing, *_strays(tree.rhythms)})

    def holds(self, name: str) -> bool:
        """Whether a name is one of them, or near to one."""
        return self._any or self._names.nearest(name) is not None


def _strays(rhythms: Iterable[t.RhythmBlock]) -> Iterable[str]:
    """Words among the values of a rhythm: the rest of a name of two words."""
    for block in rhythms:
        if block.broken:
            for mark in block.marks:
                if isinstance(mark, t.Mark) and mark.sign is t.Sign.STRAY:
                    yield mark.span.text
