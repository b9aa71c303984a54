"""What a shelf holds, what a file takes from it, and what the file itself holds."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from functools import cached_property
from typing import NamedTuple

from formsheet.language import tree as t
from formsheet.lesson.amount import within_the_most
from formsheet.lesson.licks import Licks, Rhythms, read_licks, read_rhythms
from formsheet.lesson.lost import Lost
from formsheet.lesson.model import Facts, Lick, Shelved
from formsheet.lesson.shelf_problems import names_shared, not_there
from formsheet.problems import kinds
from formsheet.problems.nearest import Names
from formsheet.problems.problem import Problem, Related


class Shelf(NamedTuple):
    """A shelf that has been read: its own facts and licks."""

    facts: Facts
    licks: Licks
    rhythms: Rhythms
    problems: tuple[Problem, ...]
    lost_names: frozenset[str] = frozenset()  # names that a slip has lost
    readable: bool = True
    unfilled: tuple[Lick, ...] = ()  # broken by their bars alone


@dataclass
class Taken:
    """What a file takes from its shelves, under the names it gives, and what it leaves there."""

    licks: Licks = field(default_factory=dict)
    rhythms: Rhythms = field(default_factory=dict)
    left: list[Shelved] = field(default_factory=list)
    problems: list[Problem] = field(default_factory=list)
    words: dict[str, t.Word] = field(default_factory=dict)  # where each name is given
    missing: set[str] = field(default_factory=set)  # names of what is on no shelf

    def take(self, item: t.UseItem, from_shelf: FromShelf | None) -> None:
        """Take a lick or a rhythm; from a shelf that cannot be read, nothing but its name."""
        word, name = item.alias or item.name, item.name.text
        if word.text in self.words:
            first = Related(self.words[word.text].span, "first here")
            self.problems.append(kinds.LickTwice(word.span, (first,), name=word.text))
            return
        self.words[word.text] = word
        if from_shelf is None:
            self.licks[word.text] = None
            self.missing.add(word.text)
            return
        shelf = from_shelf.shelf
        from_shelf.taken.add(name)
        if name in shelf.rhythms and name not in shelf.licks:
            self.rhythms[word.text] = shelf.rhythms[name]
            return
        lick = shelf.licks.get(name)
        self.licks[word.text] = replace(lick, name=word.text) if lick and item.alias else lick
        if name in shelf.licks:
            return
        self.missing |= {name, word.text}
        if not from_shelf.lost.nearest(name):
            self.problems.append(
                not_there(item.name, from_shelf.name, from_shelf.names, from_shelf.licks)
            )

    def leave(self, from_shelf: FromShelf) -> None:
        """Note what is not taken from a shelf."""
        self.left += [
            Shelved(lick, from_shelf.name)
            for name, lick in from_shelf.shelf.licks.items()
            if lick and name not in from_shelf.taken
        ]


class FromShelf:
    """A shelf from which a file takes, under the name that the file gives it."""

    def __init__(self, name: str, shelf: Shelf) -> None:
        self.name = name
        self.shelf = shelf
        self.names = Names((*shelf.licks, *shelf.rhythms))
        self.lost = Names(shelf.lost_names)
        self.taken: set[str] = set()

    @cached_property
    def licks(self) -> list[str]:
        """The licks on it, from A to Z."""
        return sorted(self.shelf.licks)


class Own(NamedTuple):
    """What a file itself holds."""

    licks: Licks
    rhythms: Rhythms  # those that it takes besides
    unfilled: tuple[Lick, ...]  # broken by their bars alone
    problems: list[Problem]


def own_licks(tree: t.FileTree, facts: Facts, used: Taken) -> Own:
    """The licks and rhythms that a file itself holds, the rhythms that it uses put in."""
    meter = None if "meter" in facts.doubtful else facts.meter
    kept_rhythms, kept_licks, too_long = within_the_most(tree, used.rhythms)
    rhythms, problems = read_rhythms(kept_rhythms, meter)
    lost = Lost(tree, used.missing)
    licks, unfilled, found = read_licks(kept_licks, used.rhythms | rhythms, meter, lost)
    if too_long:
        cut: Licks = {block.name.text: None for block in tree.licks}  # nobody is blamed for them
        licks = cut | licks
    problems += found + too_long
    problems += names_shared(tree, used.rhythms, used.licks, used.words)
    return Own(licks, used.rhythms | rhythms, tuple(unfilled), problems)
