"""What could not be read: one value, kept where the thing itself would be, and one rule.

A slip is reported once, where it is written. What is lost by it is an `Unread`: in a block of the
tree that has lines or marks which are no part of the language, in place of a lick or a rhythm, in
the facts, in a play. **What depends on something unread is judged no further:**

| unread | what is not judged |
|---|---|
| `names` | a reference to one of them, or to a name like it, is not reported as unknown |
| `facts` | a fact is not reported as missing; nothing is judged that follows from its value |
| `lengths` | nothing is laid over the bars: neither the lick nor a play that asks for it |
| `line` | what a whole line may have said: empty bars, counts, how long a block is |

A lick of which the lengths alone are unread keeps its notes in `rest`: those are judged.
"""

from __future__ import annotations

from collections.abc import Iterable
from functools import cached_property
from typing import NamedTuple

from formsheet.problems.nearest import Names


class _Lost(NamedTuple):
    """The fields of an `Unread`."""

    names: frozenset[str] = frozenset()  # that were lost: of licks and rhythms, or what may be one
    facts: frozenset[str] = frozenset()  # keywords of the facts whose values are not known
    lengths: bool = False  # how long something is, or which bars it is for
    line: bool = False  # a whole line, or a mark: it may have said anything of its block
    rest: object = None  # what was read all the same, where it can be judged


class Unread(_Lost):
    """What could not be read of a file, of a block, of a lick or a rhythm, or of a play.

    It is true where anything is lost.
    """

    def __bool__(self) -> bool:
        """Whether anything is lost."""
        return bool(self.names or self.facts or self.lengths or self.line)

    def __or__(self, other: Unread) -> Unread:
        """What is lost in either; neither keeps its rest."""
        return Unread(
            self.names | other.names,
            self.facts | other.facts,
            self.lengths or other.lengths,
            self.line or other.line,
        )

    def may_name(self, name: str) -> bool:
        """Whether a lost line may have given a lick or a rhythm this name, or one like it.

        A line `use` that is lost may have given any.
        """
        return "use" in self.facts or self._names.nearest(name) is not None

    @cached_property
    def _names(self) -> Names:
        return Names(self.names)

    @staticmethod
    def of_names(names: Iterable[str]) -> Unread:
        """These names are lost."""
        return Unread(names=frozenset(names))

    @staticmethod
    def of_facts(*facts: str) -> Unread:
        """The values of these facts are lost."""
        return Unread(facts=frozenset(facts))


READ = Unread()  # nothing is lost
LENGTHS = Unread(lengths=True)
LINE = Unread(line=True)
