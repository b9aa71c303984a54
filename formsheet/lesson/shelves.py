"""Shelves: licks that several tunes use. They are searched, read once, compared with the lesson."""

from __future__ import annotations

import re
from os.path import isfile, normpath  # `Path.is_file` raises for a name that is too long
from pathlib import Path

from formsheet.language import tree as t
from formsheet.language.files import read_source
from formsheet.language.parse import parse
from formsheet.lesson.facts import read_facts
from formsheet.lesson.model import Facts, Lick
from formsheet.lesson.shelf import FromShelf, Shelf, Taken, own_licks
from formsheet.lesson.shelf_problems import differing, unlike
from formsheet.problems import kinds
from formsheet.problems.nearest import Names
from formsheet.problems.problem import Problem
from formsheet.source import Span, shown_name
from formsheet.suffixes import SHELF_SUFFIX

_NAME = re.compile(r"[^\W_][\w .-]*")
SHELF_FOLDER = "shelf"
_MOST_ABOVE = 3  # folders above the lessons folder that are searched for a shelf, to name it
_MOST_SEARCHED = 50  # shelves searched for a lick that no `use` line takes
_MOST_IN_A_CHAIN = 8  # shelves each of which takes from the next


class Shelves:
    """The shelves of a lessons folder; each file is read once."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self._read: dict[Path, Shelf] = {}
        self._known: dict[Path | None, Names] = {}  # file -> names of shelves that it may use
        self._looked: dict[Path, dict[Path, bool]] = {}  # file -> paths searched -> found
        self._taken: dict[Path, dict[Path, set[str]]] = {}  # file -> its shelves -> names taken

    def used(self, tree: t.FileTree, facts: Facts, circle: tuple[Path, ...] = ()) -> Taken:
        """What the `use` lines of a file take."""
        all_taken = Taken()
        problems = all_taken.problems
        shelves: dict[str, FromShelf | None] = {}  # by their names in this file
        paths: dict[str, Path | None] = {}
        unfound: dict[str, list[Problem]] = {}
        for use in tree.uses:
            name = use.shelf.text
            if name not in shelves:  # else it was read, and its mistakes were reported
                paths[name], unfound[name] = self._located(use, tree)
                shelf, found = self._shelf(paths[name], use, circle)
                unfound[name] += found
                problems += shelf.problems if shelf else []
                shelves[name] = FromShelf(name, shelf) if shelf and shelf.readable else None
            problems += [problem.replaced(span=use.shelf.span) for problem in unfound[name]]
            self._note(use, tree, paths[name])
            from_shelf = shelves[name]
            path = paths[name]
            if from_shelf and path:
                file = self.shown_name(path)
                problems += unlike(use, from_shelf.shelf.facts, facts, file, tree)
            for item in use.items:
                all_taken.take(item, from_shelf)
        for from_shelf in shelves.values():
            if from_shelf:
                all_taken.leave(from_shelf)
        return all_taken

    def path_of(self, use: t.Use, tree: t.FileTree) -> Path | None:
        """The path of the shelf named in a `use` line; None if there is none that may be read."""
        path = self._located(use, tree)[0]
        return path and path.resolve()

    def _located(self, use: t.Use, tree: t.FileTree) -> tuple[Path | None, list[Problem]]:
        name, span = use.shelf.text.removesuffix(SHELF_SUFFIX), use.shelf.span
        if not _NAME.fullmatch(name):
            return None, [kinds.ShelfOutside(span, found=use.shelf.text)]
        path = self._find(name, tree.source.path)
        if path is None:
            return None, [self._unknown(name, span, tree.source.path)]
        if not self._is_inside(path):
            return None, [kinds.ShelfOutside(span, found=use.shelf.text)]
        return path, []

    def _unknown(self, name: str, span: Span, file: Path | None) -> Problem:
        """The problem of a shelf that was not found, with a folder that has it, if any."""
        shelf = f"{name}{SHELF_SUFFIX}"
        whole = self._whole_folder(shelf)
        below = min(self.folder.glob(f"*/{SHELF_FOLDER}/{shelf}"), default=None)
        return kinds.ShelfUnknown(
            span,
            file=shelf,
            searched=shown_name(self.folder / SHELF_FOLDER),
            whole=shown_name(whole) if whole else None,
            below=shown_name(below.parents[1]) if below else None,
            near=self._names(file).nearest(name),
        )

    def _whole_folder(self, shelf: str) -> Path | None:
        """A folder above this one whose shelf folder has a file of this name; None if none has.

        It is the lessons folder if the command was given a single lesson in a subfolder.
        """
        for levels in range(1, _MOST_ABOVE + 1):
            folder = Path(normpath(self.folder.joinpath(*[".."] * levels)))
            if isfile(folder / SHELF_FOLDER / shelf):
                return folder
        return None

    def _is_inside(self, path: Path) -> bool:
        return path.resolve().is_relative_to(self.folder.resolve())

    def _note(self, use: t.Use, tree: t.FileTree, path: Path | None) -> None:
        """Note what a file takes from an existing shelf."""
        if tree.source.path and path:
            taken = self._taken.setdefault(tree.source.path.resolve(), {})
            taken.setdefault(path, set()).update(item.name.text for item in use.items)

    def _shelf(
        self, path: Path | None, use: t.Use, circle: tuple[Path, ...]
    ) -> tuple[Shelf | None, list[Problem]]:
        if path is None:
            return None, []
        path = path.resolve()
        if path in circle:
            names = [step.stem for step in (*circle[circle.index(path) :], path)]
            return None, [kinds.ShelfCircle(use.shelf.span, circle=" -> ".join(names))]
        if len(circle) >= _MOST_IN_A_CHAIN and path not in self._read:
            return None, [kinds.ShelfChain(use.shelf.span, most=_MOST_IN_A_CHAIN)]
        return self._read_once(path, circle), []

    def _read_once(self, path: Path, circle: tuple[Path, ...] = ()) -> Shelf:
        if path not in self._read:
            self._read[path] = self._read_file(path, circle)
        return self._read[path]

    def at(self, path: Path) -> Shelf | None:
        """The shelf at a path; None if there is none that may be read."""
        return self._read_once(path.resolve()) if isfile(path) and self._is_inside(path) else None

    def holding(self, lick: str, facts: Facts, file: Path | None) -> str | None:
        """The name of a shelf with this lick that suits a file with these facts, if any."""
        for name in self._names(file).listed[:_MOST_SEARCHED]:
            path = self._find(name, file)
            shelf = self.at(path) if path else None
            if (
                shelf
                and isinstance(shelf.licks.get(lick), Lick)
                and not differing(shelf.facts, facts)
            ):
                return name
        return None

    def taken_by(self, file: Path) -> dict[Path, set[str]]:
        """The shelves from which a file takes, with the names it takes, as on the shelf."""
        return self._taken.get(file.resolve(), {})

    def _read_file(self, path: Path, circle: tuple[Path, ...]) -> Shelf:
        source, problems = read_source(path, self.shown_name(path))
        if source is None:
            return Shelf(Facts(), {}, {}, tuple(problems), readable=False)
        tree, problems = parse(source)
        if tree.newer:
            return Shelf(Facts(), {}, {}, tuple(problems), readable=False)
        return self.read_tree(tree, problems, (*circle, path))

    def read_tree(
        self, tree: t.FileTree, problems: list[Problem], circle: tuple[Path, ...]
    ) -> Shelf:
        """A shelf from its tree; `circle` is the chain of files that led here, this one last."""
        facts, found = read_facts(tree, lesson=False)
        problems = problems + found
        used = self.used(tree, facts, circle)
        problems += used.problems
        own = own_licks(tree, facts, used)
        return Shelf(
            facts=facts,
            licks=used.licks | own.licks,
            rhythms=own.rhythms,
            problems=tuple(problems + own.problems),
            unread=tree.unread | used.unread,
        )

    def _places(self, beside: Path | None) -> list[Path]:
        """The folders searched for shelves: that of the lesson, then the shelf folder."""
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
        """Every path searched for a shelf to read a file, shelves of shelves included; if found."""
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

    def _names(self, beside: Path | None) -> Names:
        """The names of the shelves that a file may use."""
        if beside not in self._known:
            places = self._places(beside)
            found = (path.stem for place in places for path in place.glob(f"*{SHELF_SUFFIX}"))
            self._known[beside] = Names(found)
        return self._known[beside]

    def shown_name(self, path: Path) -> str:
        """The path as the teacher would type it, through the lessons folder."""
        try:
            return shown_name(self.folder / path.resolve().relative_to(self.folder.resolve()))
        except ValueError:
            return shown_name(path)
