"""Shelves, and what a lesson takes from them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from formsheet.problems.problem import ERROR, Hint, Problem, Sample
from formsheet.problems.words import (
    code,
    did_you_mean,
    one_of,
)

#: What the lessons of the samples take, and the shelf that they take it from.
_USE = "use home from turnarounds\nbars 11-12 home"
_HOME = "turnaround home on I | V\n  q 2d 3d 4d 2d | 4d 5d 4d 1d\n"
_SHELF = ("turnarounds.licks", f"position 2nd\n{_HOME}")


def _shelf(text: str) -> tuple[str, str]:
    return (_SHELF[0], text)


class ShelfUnknown(Problem):
    """The lesson takes licks from a shelf that is not there.

    A shelf is looked for beside the lesson, then in the folder `shelf` of the lessons folder.
    """

    code = "shelf-unknown"
    severity = ERROR
    bad = Sample(_USE.replace("turnarounds", "turnaround"), beside=(_SHELF,))
    good = Sample(_USE, beside=(_SHELF,))

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
    """The name of a shelf leads to a place outside the lessons folder.

    A lessons folder that is copied to another computer takes everything that its lessons use with
    it.
    """

    code = "shelf-outside"
    severity = ERROR
    bad = Sample(_USE.replace("turnarounds", "../turnarounds"), beside=(_SHELF,))
    good = Sample(_USE, beside=(_SHELF,))

    found: str

    def message(self) -> str:
        return f"{code(self.found)} is outside the lessons folder"

    def hints(self) -> Iterator[Hint]:
        yield Hint(
            "put the shelf beside the lesson or in the folder `shelf`, and write its plain name"
        )


class ShelfCircle(Problem):
    """Shelves take licks from one another in a circle, so that no one of them can be read first."""

    code = "shelf-circle"
    severity = ERROR
    bad = Sample(
        _USE,
        beside=(
            _shelf(f"use walk from walks\n{_HOME}"),
            ("walks.licks", "use home from turnarounds\nlick walk on I\n  q 2d 3d 4d 2d\n"),
        ),
    )
    good = Sample(
        _USE,
        beside=(
            _shelf(f"use walk from walks\n{_HOME}"),
            ("walks.licks", "lick walk on I\n  q 2d 3d 4d 2d\n"),
        ),
    )

    circle: str

    def message(self) -> str:
        return f"these shelves use each other in a circle: {self.circle}"

    def hints(self) -> Iterator[Hint]:
        yield Hint("remove one of their `use` lines, and write those licks where they are used")


class ShelfChain(Problem):
    """A lick is passed on from shelf to shelf more often than anybody can follow."""

    code = "shelf-chain"
    severity = ERROR
    bad = Sample(
        _USE.replace("turnarounds", "shelf-1"),
        beside=(
            *((f"shelf-{n}.licks", f"use home from shelf-{n + 1}\n") for n in range(1, 9)),
            ("shelf-9.licks", _HOME),
        ),
    )
    good = Sample(_USE.replace("turnarounds", "shelf-9"), beside=(("shelf-9.licks", _HOME),))

    most: int

    def message(self) -> str:
        return f"more than {self.most} shelves use each other in a row here"

    def hints(self) -> Iterator[Hint]:
        yield Hint("take these licks from the shelf on which they are written")


class ShelfUnlike(Problem):
    """A shelf is written for another position or tuning than the lesson that uses it.

    The same holes would be other degrees of the key there, and the licks would not fit their
    chords.
    """

    code = "shelf-unlike"
    severity = ERROR
    bad = Sample(_USE, beside=(_shelf(f"position 3rd\n{_HOME}"),))
    good = Sample(_USE, beside=(_SHELF,))

    shelf: str
    fact: str
    theirs: str
    ours: str
    file: str  # of the shelf
    can_retab: bool
    unplayed: str | None  # a turnaround of the lesson's own that nothing plays

    def message(self) -> str:
        return (
            f"the shelf {code(self.shelf)} is written for {self.fact} {code(self.theirs)}, "
            f"and this file for {code(self.ours)}"
        )

    def hints(self) -> Iterator[Hint]:
        if self.unplayed:
            yield Hint(
                f"remove this line and play {code(self.unplayed)}, the turnaround that is "
                "written here, in its place"
            )
        anew = f"these licks for {self.fact} {code(self.ours)}, on a shelf of their own"
        if self.can_retab:
            stem = self.file.rpartition(".")[0]
            command = (
                f"formsheet retab {self.file} --{self.fact} {self.ours} "
                f"--out {stem}-{self.ours}.licks"
            )
            yield Hint(f"`{command}` writes {anew}")  # whole, however long
        else:
            yield Hint(f"write {anew}")


class ShelfForm(Problem):
    """A shelf has a form, but it holds licks for tunes of any form."""

    code = "shelf-form"
    severity = ERROR
    bad = Sample(_USE, beside=(_shelf(f"form 12-bar standard\n{_HOME}"),))
    good = Sample(_USE, beside=(_SHELF,))

    def message(self) -> str:
        return "a shelf holds licks and rhythms only: `form` belongs in a lesson"

    def hints(self) -> Iterator[Hint]:
        yield Hint("move the form to the lesson that uses this shelf")


class ShelfPlay(Problem):
    """A shelf has a `play`, but what is played where is said by the lesson that uses it."""

    code = "shelf-play"
    severity = ERROR
    bad = Sample(_USE, beside=(_shelf(f"{_HOME}play\n  bars 11-12 home\n"),))
    good = Sample(_USE, beside=(_SHELF,))

    needless: Sequence[str]  # facts of the shelf that belong in a lesson

    def message(self) -> str:
        return "a shelf holds licks and rhythms only: `play` belongs in a lesson"

    def hints(self) -> Iterator[Hint]:
        words = "remove `play` and the lines below it; the lesson says what is played where"
        yield Hint(words)
        if self.needless:
            yield Hint(f"a shelf needs no {one_of(self.needless)} either")


class LickNotOnShelf(Problem):
    """The shelf has no lick of the name that the lesson takes from it."""

    code = "lick-not-on-shelf"
    severity = ERROR
    bad = Sample(_USE.replace("home from", "hoem as home from"), beside=(_SHELF,))
    good = Sample(_USE, beside=(_SHELF,))

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
