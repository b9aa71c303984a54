"""Problems between a shelf and a file that takes from it."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence

from formsheet.language import tree as t
from formsheet.lesson.model import Facts
from formsheet.music.key import position_name
from formsheet.music.tunings import TUNINGS, Tuning
from formsheet.problems import kinds
from formsheet.problems.nearest import Names
from formsheet.problems.problem import Problem, Related


def names_shared(
    tree: t.FileTree, rhythms: Collection[str], licks: Collection[str], taken: Mapping[str, t.Word]
) -> list[Problem]:
    """Report a file's own rhythms and licks with the name of one that it takes from a shelf.

    `rhythms` and `licks` are the names of what it takes; `taken` has the word of each in the file.
    """
    problems: list[Problem] = []
    for name, word in {block.name.text: block.name for block in tree.rhythms}.items():
        if name in rhythms:
            problems.append(kinds.RhythmTwice(word.span, _taken_here(taken[name]), name=name))
    for name, word in {block.name.text: block.name for block in tree.licks}.items():
        if name in licks:
            problems.append(kinds.LickTwice(word.span, _taken_here(taken[name]), name=name))
    return problems


def _taken_here(word: t.Word) -> tuple[Related]:
    return (Related(word.span, "taken here"),)


def unlike(use: t.Use, shelf: Facts, lesson: Facts, file: str, tree: t.FileTree) -> list[Problem]:
    """Report a shelf, in this file, written for another position, tuning or meter."""
    return [
        kinds.ShelfUnlike(
            use.shelf.span,
            shelf=use.shelf.text,
            fact=fact,
            theirs=theirs,
            ours=ours,
            file=file,
            can_retab=fact == "position" or (fact == "tuning" and ours in TUNINGS),
            unplayed=_unplayed_turnaround(use, tree),
        )
        for fact, theirs, ours in differing(shelf, lesson)
    ]


def _unplayed_turnaround(use: t.Use, tree: t.FileTree) -> str | None:
    """A turnaround of the file that it does not play, where it plays what it takes."""
    listed = [line.placed for play in tree.plays for line in play.every]
    listed += [line.placed for play in tree.plays for line in play.bars]
    placed = {each.name.text for line in listed for each in line}
    taken = {(item.alias or item.name).text for item in use.items}
    own = (lick for lick in tree.licks if lick.line and lick.line.keyword.text == "turnaround")
    unplayed = [lick.name.text for lick in own if lick.name.text not in placed]
    return unplayed[0] if len(unplayed) == 1 and taken & placed else None


def differing(shelf: Facts, lesson: Facts) -> list[tuple[str, str, str]]:
    """What a shelf and a lesson must have in common and do not: the fact, theirs and ours."""
    pairs = {
        "position": (position_name(shelf.position), position_name(lesson.position)),
        "tuning": _tunings(shelf.harp.tuning, lesson.harp.tuning),
        "meter": (shelf.meter.text, lesson.meter.text),
    }
    return [
        (fact, theirs, ours)
        for fact, (theirs, ours) in pairs.items()
        if theirs != ours and shelf.known(fact) and lesson.known(fact)
    ]


def _tunings(shelf: Tuning, lesson: Tuning) -> tuple[str, str]:
    """The names of two tunings: equal if the reeds are equal, different if not."""
    if (shelf.blow, shelf.draw) == (lesson.blow, lesson.draw):
        return lesson.name, lesson.name
    return f"another {shelf.name}" if shelf.name == lesson.name else shelf.name, lesson.name


def not_there(name: t.Word, shelf: str, known: Names, licks: Sequence[str]) -> Problem:
    """A name that is not on a shelf: `known` are its licks and rhythms; `licks` are listed."""
    near = known.nearest(name.text)
    return kinds.LickNotOnShelf(name.span, found=name.text, shelf=shelf, near=near, known=licks)
