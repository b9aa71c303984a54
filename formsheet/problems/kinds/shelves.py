"""Shelves, and what a lesson takes from them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from formsheet.problems.problem import ERROR, Hint, Problem
from formsheet.problems.words import (
    code,
    did_you_mean,
    one_of,
)


class ShelfUnknown(Problem):
    """TODO shelf-unknown."""

    code = "shelf-unknown"
    severity = ERROR

    file: str
    searched: str  # the folder of shelves of the lessons folder
    whole: str | None  # a folder above the lessons folder whose folder of shelves holds the file
    below: str | None  # a folder in the lessons folder whose folder of shelves holds the file
    near: str | None

    def message(self) -> str:
        place = f"beside this file or in the folder {code(self.searched)}"
        return f"there is no shelf {code(self.file)} {place}"

    def hints(self) -> Iterator[Hint]:
        if self.whole:
            command = code(f"formsheet check {self.whole}")
            yield Hint(f"it is found when you name its whole folder, as in {command}")
        elif self.below:
            there = code(f"{self.below}/shelf/{self.file}")
            yield Hint(
                f"there is {there}: move this file into the folder {code(self.below)}, or put a "
                "copy of the shelf beside this file"
            )
        elif self.near:
            yield did_you_mean(self.near, self.span)
        yield Hint("put the shelf in one of these places, or write the name of one that is there")


class ShelfOutside(Problem):
    """TODO shelf-outside."""

    code = "shelf-outside"
    severity = ERROR

    found: str

    def message(self) -> str:
        return f"{code(self.found)} leads out of the lessons folder"

    def hints(self) -> Iterator[Hint]:
        yield Hint(
            "put the shelf beside the lesson or in the folder `shelf`, and write its plain name"
        )


class ShelfCircle(Problem):
    """TODO shelf-circle."""

    code = "shelf-circle"
    severity = ERROR

    circle: str

    def message(self) -> str:
        return f"these shelves use each other in a circle: {self.circle}"

    def hints(self) -> Iterator[Hint]:
        yield Hint("take one of their `use` lines out, and write those licks where they are used")


class ShelfChain(Problem):
    """TODO shelf-chain."""

    code = "shelf-chain"
    severity = ERROR

    most: int

    def message(self) -> str:
        return f"here more than {self.most} shelves take from one another in a row"

    def hints(self) -> Iterator[Hint]:
        yield Hint("take these licks from the shelf on which they are written")


class ShelfUnlike(Problem):
    """TODO shelf-unlike."""

    code = "shelf-unlike"
    severity = ERROR

    shelf: str
    fact: str
    theirs: str
    ours: str

    def message(self) -> str:
        return (
            f"the shelf {code(self.shelf)} is written for {self.fact} {code(self.theirs)}, "
            f"and this file for {code(self.ours)}"
        )

    def hints(self) -> Iterator[Hint]:
        yield Hint(
            f"write these licks anew for {self.fact} {code(self.ours)}, on a shelf of their own"
        )


class ShelfForm(Problem):
    """TODO shelf-form."""

    code = "shelf-form"
    severity = ERROR

    def message(self) -> str:
        return "a shelf holds licks and rhythms only: `form` belongs in a lesson"

    def hints(self) -> Iterator[Hint]:
        yield Hint("move the form to the lesson that uses this shelf")


class ShelfPlay(Problem):
    """TODO shelf-play."""

    code = "shelf-play"
    severity = ERROR

    def message(self) -> str:
        return "a shelf holds licks and rhythms only: `play` belongs in a lesson"

    def hints(self) -> Iterator[Hint]:
        yield Hint("move `play` and the lines below it to the lesson that uses this shelf")


class LickNotOnShelf(Problem):
    """TODO lick-not-on-shelf."""

    code = "lick-not-on-shelf"
    severity = ERROR

    shelf: str
    found: str
    near: str | None
    known: Sequence[str]

    def message(self) -> str:
        return f"the shelf {code(self.shelf)} has no lick called {code(self.found)}"

    def hints(self) -> Iterator[Hint]:
        if self.near:
            yield did_you_mean(self.near, self.span)
        if self.known:
            yield Hint(f"it holds {one_of(self.known)}")
