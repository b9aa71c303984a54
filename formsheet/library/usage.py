"""Where each lick, rhythm and shelf of a folder is used.

A lick or a rhythm is identified by its home: the file in which it is written, and its name there.
A lesson may use it under another name, and a shelf may pass it on.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field
from pathlib import Path

from formsheet.language import tree as t
from formsheet.language.files import read_source
from formsheet.language.parse import parse
from formsheet.lesson.licks import Licks
from formsheet.lesson.model import Facts, Lesson, Lick
from formsheet.lesson.read import read_lesson
from formsheet.lesson.shelves import Shelves
from formsheet.problems.problem import Problem, has_errors
from formsheet.suffixes import SHELF_SUFFIX
from formsheet.tune.place import Slots, place_play


@dataclass(frozen=True, order=True)
class Home:
    """Where a lick or a rhythm is written: the shown name of the file, and the name there."""

    file: str
    name: str


@dataclass(frozen=True)
class Use:
    """A lesson that has a lick, and the bars that play it."""

    lesson: str  # the file as it is shown
    names: tuple[str, ...]  # what the lesson calls it
    bars: tuple[tuple[int, int], ...]  # chorus and bar, both from 1; empty: not played
    choruses: int  # of the whole lesson


@dataclass
class LickEntry:
    """A lick, the facts of its file, the rhythm it is in, and its uses."""

    home: Home
    lick: Lick
    facts: Facts
    rhythm: Home | None = None
    uses: list[Use] = field(default_factory=list)

    @property
    def played(self) -> bool:
        """Whether a lesson plays it."""
        return any(use.bars for use in self.uses)


@dataclass
class Library:
    """Everything that the files of a folder define and use."""

    files: list[str] = field(default_factory=list)
    broken: list[str] = field(default_factory=list)  # files with errors: read as far as they go
    licks: dict[Home, LickEntry] = field(default_factory=dict)
    rhythms: dict[Home, list[Home]] = field(default_factory=dict)  # with the licks in each
    shelves: dict[str, dict[str, list[str]]] = field(default_factory=dict)  # names taken, by file

    def lessons_of(self, licks: Iterable[Home]) -> dict[str, list[tuple[LickEntry, Use]]]:
        """The lessons that have any of these licks, with each use."""
        found: dict[str, list[tuple[LickEntry, Use]]] = {}
        for home in licks:
            for use in self.licks[home].uses if home in self.licks else ():
                found.setdefault(use.lesson, []).append((self.licks[home], use))
        return dict(sorted(found.items()))


@dataclass
class _File:
    """One file that was read."""

    name: str
    path: Path  # resolved
    tree: t.FileTree
    facts: Facts
    licks: Licks
    lesson: Lesson | None
    shelves: Shelves


def library(files: Iterable[tuple[Path, str, Shelves]]) -> Library:
    """The library of some files, each given as path, shown name and shelves."""
    made = Library()
    read: dict[Path, _File] = {}
    for path, name, shelves in files:
        source, problems = read_source(path, name)
        made.files.append(name)
        if source:
            tree, problems = parse(source)
            file, found = _read(path.resolve(), name, tree, problems, shelves)
            read[file.path] = file
            problems = found
        if has_errors(problems):
            made.broken.append(name)
    reader = _Reader(made, read)
    for file in read.values():
        reader.holds(file)
    for file in read.values():
        reader.uses(file)
    return made


def _read(
    path: Path, name: str, tree: t.FileTree, problems: list[Problem], shelves: Shelves
) -> tuple[_File, list[Problem]]:
    if path.suffix == SHELF_SUFFIX:
        shelf = shelves.read_tree(tree, problems, (path,))
        return _File(name, path, tree, shelf.facts, shelf.licks, None, shelves), [*shelf.problems]
    lesson, found = read_lesson(tree, shelves)
    licks: Licks = dict(lesson.licks)
    return _File(name, path, tree, lesson.facts, licks, lesson, shelves), problems + found


class _Reader:
    """Fills a library from the files of a folder."""

    def __init__(self, made: Library, read: dict[Path, _File]) -> None:
        self.made = made
        self.read = read

    def holds(self, file: _File) -> None:
        """Enter what a file defines."""
        for rhythm in file.tree.rhythms:
            self.made.rhythms.setdefault(Home(file.name, rhythm.name.text), [])
        for block in file.tree.licks:
            lick, name = file.licks.get(block.name.text), block.name.text
            if isinstance(lick, Lick) and lick.span.source.name == file.tree.source.name:
                home = Home(file.name, name)
                self.made.licks.setdefault(home, LickEntry(home, lick, file.facts))
        if file.path.suffix == SHELF_SUFFIX:
            self.made.shelves.setdefault(file.name, {})

    def uses(self, file: _File) -> None:
        """Enter what a file uses."""
        for use in file.tree.uses:
            path = file.shelves.path_of(use, file.tree)
            if path in self.read:
                taken = self.made.shelves.setdefault(self.read[path].name, {})
                taken.setdefault(file.name, []).extend(item.name.text for item in use.items)
        for block in file.tree.licks:
            home = Home(file.name, block.name.text)
            if block.line and block.line.rhythm and home in self.made.licks:
                rhythm = self._rhythm(file, block.line.rhythm.text)
                self.made.licks[home].rhythm = rhythm
                if rhythm in self.made.rhythms:
                    self.made.rhythms[rhythm].append(home)
        if file.lesson:
            self._plays(file, file.lesson)

    def _rhythm(self, file: _File, name: str, seen: frozenset[Path] = frozenset()) -> Home | None:
        """The home of the rhythm that a file calls by a name; None if unknown."""
        if any(rhythm.name.text == name for rhythm in file.tree.rhythms):
            return Home(file.name, name)
        for use in file.tree.uses:
            for item in use.items:
                path = file.shelves.path_of(use, file.tree)
                if (item.alias or item.name).text == name and path in self.read.keys() - seen:
                    return self._rhythm(self.read[path], item.name.text, seen | {file.path})
        return None

    def _plays(self, file: _File, lesson: Lesson) -> None:
        names: dict[Home, list[str]] = {}
        homes = {name: self._home(lick) for name, lick in lesson.licks.items()}
        for name, home in homes.items():
            names.setdefault(home, []).append(name)
        bars: dict[Home, list[tuple[int, int]]] = {}
        played, problems = _played(lesson)
        if has_errors(problems) and file.name not in self.made.broken:
            self.made.broken.append(file.name)
        for chorus, number, lick in played:
            bars.setdefault(homes[lick.name], []).append((chorus, number))
        choruses = sum(play.times for play in lesson.plays)
        for home, called in names.items():
            here = tuple(bars.get(home, ()))
            if home in self.made.licks and (here or home.file != file.name):
                self.made.licks[home].uses.append(Use(file.name, tuple(called), here, choruses))

    def _home(self, lick: Lick) -> Home:
        """The home of a lick, whatever a lesson calls it."""
        path = lick.span.source.path
        file = self.read.get(path.resolve()) if path else None
        return Home(file.name if file else lick.span.source.name, lick.span.text)


def _played(lesson: Lesson) -> tuple[list[tuple[int, int, Lick]], list[Problem]]:
    """Chorus, bar and lick of every bar that plays one; and the problems of the play."""
    choruses: list[Slots] = []
    problems: list[Problem] = []
    for play in lesson.plays:
        placed, found = place_play(play, lesson.form, lesson.licks)
        choruses += placed
        problems += found
    played = [
        (chorus, at, slot.lick)
        for chorus, slots in enumerate(choruses, start=1)
        for at, slot in enumerate(slots, start=1)
        if slot and slot.lick
    ]
    return played, problems
