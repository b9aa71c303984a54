"""Shelves: licks that several tunes use, found, read once, and held against the lesson."""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from os.path import isfile  # of Path's own, some raise for a name that is too long
from pathlib import Path
from typing import NamedTuple

from formsheet.language import tree as t
from formsheet.language.files import read_source
from formsheet.language.parse import parse
from formsheet.lesson.amount import within_the_most
from formsheet.lesson.facts import read_facts
from formsheet.lesson.licks import Licks, Rhythms, read_licks, read_rhythms
from formsheet.lesson.model import Facts, Shelved
from formsheet.lesson.shelf_problems import names_shared, not_there, unlike
from formsheet.problems.nearest import nearest
from formsheet.problems.problem import Problem, Related, error
from formsheet.source import Source, shown_name
from formsheet.suffixes import SHELF_SUFFIX

_NAME = re.compile(r"[^\W_][\w .-]*")
SHELF_FOLDER = "shelf"


class Shelf(NamedTuple):
    """A shelf that has been read: its own facts and licks."""

    facts: Facts
    licks: Licks
    rhythms: Rhythms
    problems: tuple[Problem, ...]
    lost_names: frozenset[str] = frozenset()  # words of lines that could not be read
    readable: bool = True


@dataclass
class Taken:
    """What a file takes from its shelves, under the names it gives, and what it leaves there."""

    licks: Licks = field(default_factory=dict)
    rhythms: Rhythms = field(default_factory=dict)
    left: list[Shelved] = field(default_factory=list)
    problems: list[Problem] = field(default_factory=list)


class Shelves:
    """The shelves of a lessons folder; each file is read once."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self._read: dict[Path, Shelf] = {}
        self._looked: dict[Path, dict[Path, bool]] = {}  # file -> where its shelves may lie
        self._taken: dict[Path, dict[Path, set[str]]] = {}  # file -> its shelves -> what it takes

    def used(self, tree: t.FileTree, facts: Facts, circle: tuple[Path, ...] = ()) -> Taken:
        """What a file's `use` lines take."""
        found_all = Taken()
        licks, rhythms, problems = found_all.licks, found_all.rhythms, found_all.problems
        taken: dict[str, t.Word] = {}
        for use in tree.uses:
            shelf, found = self._shelf(use, tree, circle)
            problems += found
            if shelf:
                problems += shelf.problems
            if shelf and not shelf.readable:
                shelf = None
            if shelf:
                problems += unlike(use, shelf.facts, facts)
            for item in use.items:
                word = item.alias or item.name
                if word.text in taken:
                    first = Related(taken[word.text].span, "first here")
                    problems.append(error("lick-twice", word.span, first, name=word.text))
                    continue
                taken[word.text] = word
                name = item.name.text
                if shelf and name in shelf.rhythms and name not in shelf.licks:
                    rhythms[word.text] = shelf.rhythms[name]
                    continue
                licks[word.text] = shelf.licks.get(name) if shelf else None
                if shelf and name not in {*shelf.licks, *shelf.lost_names}:
                    problems.append(not_there(item.name, use.shelf, shelf.licks, shelf.rhythms))
            if shelf:
                names = {item.name.text for item in use.items}
                found_all.left += [
                    Shelved(lick, use.shelf.text)
                    for name, lick in shelf.licks.items()
                    if lick and name not in names
                ]
        return found_all

    def path_of(self, use: t.Use, tree: t.FileTree) -> Path | None:
        """The file of the shelf that a line of a file names, if there is one that may be read."""
        path = self._located(use, tree)[0]
        return path and path.resolve()

    def _located(self, use: t.Use, tree: t.FileTree) -> tuple[Path | None, list[Problem]]:
        name, span = use.shelf.text.removesuffix(SHELF_SUFFIX), use.shelf.span
        if not _NAME.fullmatch(name):
            return None, [error("shelf-outside", span, found=use.shelf.text)]
        path = self._find(name, tree.source.path)
        if path is None:
            near = nearest(name, self._known(tree.source.path))
            return None, [error("shelf-unknown", span, found=name, near=near, file=f"{name}.licks")]
        if not self._is_inside(path):
            return None, [error("shelf-outside", span, found=use.shelf.text)]
        return path, []

    def _is_inside(self, path: Path) -> bool:
        return path.resolve().is_relative_to(self.folder.resolve())

    def _shelf(
        self, use: t.Use, tree: t.FileTree, circle: tuple[Path, ...]
    ) -> tuple[Shelf | None, list[Problem]]:
        path, problems = self._located(use, tree)
        if path is None:
            return None, problems
        if tree.source.path:
            taken = self._taken.setdefault(tree.source.path.resolve(), {})
            taken.setdefault(path, set()).update(item.name.text for item in use.items)
        path = path.resolve()
        if path in circle:
            names = [step.stem for step in (*circle[circle.index(path) :], path)]
            return None, [error("shelf-circle", use.shelf.span, circle=" -> ".join(names))]
        return self._read_once(path, circle), []

    def _read_once(self, path: Path, circle: tuple[Path, ...] = ()) -> Shelf:
        if path not in self._read:
            self._read[path] = self._read_file(path, circle)
        return self._read[path]

    def at(self, path: Path) -> Shelf | None:
        """The shelf in a file; None where there is none that may be read."""
        return self._read_once(path.resolve()) if isfile(path) and self._is_inside(path) else None

    def taken_by(self, file: Path) -> dict[Path, set[str]]:
        """From which shelves a file that was read takes, by their names there, and what."""
        return self._taken.get(file.resolve(), {})

    def _read_file(self, path: Path, circle: tuple[Path, ...]) -> Shelf:
        source, problems = read_source(path, self.shown_name(path))
        if source is None:
            facts, _ = read_facts(t.FileTree(Source(path.name, "")), lesson=False)
            return Shelf(facts, {}, {}, tuple(problems), readable=False)
        tree, problems = parse(source)
        return self.read_tree(tree, problems, (*circle, path))

    def read_tree(
        self, tree: t.FileTree, problems: list[Problem], circle: tuple[Path, ...]
    ) -> Shelf:
        """A shelf from its tree; `circle` are the files that led here, this one last."""
        facts, found = read_facts(tree, lesson=False)
        problems = problems + found
        used = self.used(tree, facts, circle)
        problems += used.problems
        licks, rhythms, found = own_licks(tree, facts, used)
        lost = frozenset(tree.lost_names)
        return Shelf(facts, used.licks | licks, rhythms, tuple(problems + found), lost)

    def _places(self, beside: Path | None) -> list[Path]:
        """Where shelves are looked for: beside the lesson, then in the shelf folder."""
        return [*([beside.parent] if beside else []), self.folder / SHELF_FOLDER]

    def _find(self, name: str, beside: Path | None) -> Path | None:
        looked = self._looked.setdefault(beside.resolve(), {}) if beside else {}
        for place in self._places(beside):
            path = place / f"{name}{SHELF_SUFFIX}"
            looked[path] = isfile(path)
            if looked[path]:
                return path
        return None

    def looked_for(self, file: Path) -> dict[Path, bool]:
        """Where shelves were looked for to read a file, through all shelves; whether found."""
        found: dict[Path, bool] = {}
        waiting, done = [file.resolve()], set()
        while waiting:
            path = waiting.pop()
            if path not in done:
                done.add(path)
                looked = self._looked.get(path, {})
                found |= looked
                waiting += [each.resolve() for each, there in looked.items() if there]
        return found

    def _known(self, beside: Path | None) -> list[str]:
        return [
            path.stem for place in self._places(beside) for path in place.glob(f"*{SHELF_SUFFIX}")
        ]

    def shown_name(self, path: Path) -> str:
        """The path from the lessons folder's own place, as the teacher typed it."""
        try:
            return shown_name(self.folder / path.resolve().relative_to(self.folder.resolve()))
        except ValueError:
            return shown_name(path)


def own_licks(tree: t.FileTree, facts: Facts, used: Taken) -> tuple[Licks, Rhythms, list[Problem]]:
    """The licks and rhythms that a file itself holds, the rhythms that it uses put in."""
    meter = None if "meter" in facts.doubtful else facts.meter
    kept_rhythms, kept_licks, too_long = within_the_most(tree)
    rhythms, problems = read_rhythms(kept_rhythms, meter)
    licks, found = read_licks(kept_licks, used.rhythms | rhythms, meter)
    if too_long:
        cut: Licks = {block.name.text: None for block in tree.licks}  # nobody is blamed for them
        licks = cut | licks
    problems += found + too_long
    problems += names_shared("rhythm-twice", tree, tree.rhythms, used.rhythms)
    problems += names_shared("lick-twice", tree, tree.licks, used.licks)
    return licks, used.rhythms | rhythms, problems
