"""The contents of a shelf, what a file takes from it, and what the file itself defines."""

from __future__ import annotations

from functools import cached_property
from typing import NamedTuple

from formsheet.language import tree as t
from formsheet.language.recovery import READ, Unread
from formsheet.lesson.amount import within_the_most
from formsheet.lesson.licks import Licks, Rhythms, read_licks, read_rhythms
from formsheet.lesson.model import Facts, Lick, Shelved
from formsheet.lesson.shelf_problems import names_shared, not_there
from formsheet.problems import kinds
from formsheet.problems.nearest import Names
from formsheet.problems.problem import Problem, Related


class Shelf(NamedTuple):
    """A shelf that was read: its own facts and licks."""

    facts: Facts
    licks: Licks
    rhythms: Rhythms
    problems: tuple[Problem, ...]
    unread: Unread = READ  # of its lines, and names that it takes but that do not exist
    readable: bool = True


class Taken:
    """What a file takes from its shelves, by the names it uses, and what it does not take."""

    def __init__(self) -> None:
        self.licks: Licks = {}
        self.rhythms: Rhythms = {}
        self.left: list[Shelved] = []
        self.problems: list[Problem] = []
        self.words: dict[str, t.Word] = {}  # name -> its word in a `use` line
        self.missing: set[str] = set()  # names that are not on their shelf

    @property
    def unread(self) -> Unread:
        """The names that are not on their shelf, as unread."""
        return Unread.of_names(self.missing)

    def take(self, item: t.UseItem, from_shelf: FromShelf | None) -> None:
        """Take a lick or a rhythm; from an unreadable shelf (None) only its name."""
        word, name = item.alias or item.name, item.name.text
        if word.text in self.words:
            first = Related(self.words[word.text].span, "first here")
            self.problems.append(kinds.LickTwice(word.span, (first,), name=word.text))
            return
        self.words[word.text] = word
        if from_shelf is None:
            self.licks[word.text] = Unread.of_names([word.text])
            self.missing.add(word.text)
            return
        shelf = from_shelf.shelf
        from_shelf.taken.add(name)
        if name in shelf.rhythms and name not in shelf.licks:
            self.rhythms[word.text] = shelf.rhythms[name]
            return
        lick = shelf.licks.get(name)
        if isinstance(lick, Lick):
            self.licks[word.text] = lick._replace(name=word.text) if item.alias else lick
        else:  # its problems are reported for its shelf
            self.licks[word.text] = Unread.of_names([word.text])
        if name in shelf.licks:
            return
        self.missing |= {name, word.text}
        if not from_shelf.shelf.unread.may_name(name):
            self.problems.append(
                not_there(item.name, from_shelf.name, from_shelf.names, from_shelf.licks)
            )

    def leave(self, from_shelf: FromShelf) -> None:
        """Note the licks that are not taken from a shelf."""
        self.left += [
            Shelved(lick, from_shelf.name)
            for name, lick in from_shelf.shelf.licks.items()
            if isinstance(lick, Lick) and name not in from_shelf.taken
        ]


class FromShelf:
    """A shelf from which a file takes, with the name that the file uses for it."""

    def __init__(self, name: str, shelf: Shelf) -> None:
        self.name = name
        self.shelf = shelf
        self.names = Names((*shelf.licks, *shelf.rhythms))
        self.taken: set[str] = set()

    @cached_property
    def licks(self) -> list[str]:
        """The names of its licks, sorted."""
        return sorted(self.shelf.licks)


class Own(NamedTuple):
    """What a file itself defines."""

    licks: Licks
    rhythms: Rhythms  # including those it takes from shelves
    problems: list[Problem]


def own_licks(tree: t.FileTree, facts: Facts, used: Taken) -> Own:
    """The licks and rhythms that a file defines; its licks may be in rhythms that it takes."""
    meter = facts.meter if facts.known("meter") else None
    kept_rhythms, kept_licks, too_long = within_the_most(tree, used.rhythms)
    rhythms, problems = read_rhythms(kept_rhythms, meter)
    lost = tree.unread | used.unread
    licks, found = read_licks(kept_licks, used.rhythms | rhythms, meter, lost)
    if too_long:
        names = [block.name.text for block in tree.licks]
        cut: Licks = {name: Unread.of_names([name]) for name in names}
        licks = cut | licks
    problems += found + too_long
    problems += names_shared(tree, used.rhythms, used.licks, used.words)
    return Own(licks, used.rhythms | rhythms, problems)
