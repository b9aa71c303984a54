"""What may be wrong between a shelf and a file that takes from it."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence

from formsheet.language import tree as t
from formsheet.lesson.facts import position_name
from formsheet.lesson.model import Facts
from formsheet.music.tunings import Tuning
from formsheet.problems.nearest import Names
from formsheet.problems.problem import Problem, Related, error


def names_shared(
    slug: str,
    own: Sequence[t.LickBlock | t.RhythmBlock],
    used: Collection[str],
    taken: Mapping[str, t.Word],
) -> list[Problem]:
    """What a file holds may not bear the name of what it takes from a shelf.

    `taken` tells where in the file each name stands that it gives to what it takes.
    """
    blocks = {block.name.text: block.name for block in own}
    return [
        error(slug, word.span, Related(taken[name].span, "taken here"), name=name)
        for name, word in blocks.items()
        if name in used
    ]


def unlike(use: t.Use, shelf: Facts, lesson: Facts) -> list[Problem]:
    """Where the shelf is written for another position, tuning or meter than the lesson."""
    return [
        error("shelf-unlike", use.shelf.span, shelf=use.shelf.text, fact=fact, theirs=theirs,
              ours=ours)
        for fact, theirs, ours in differing(shelf, lesson)
    ]  # fmt: skip


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
        if theirs != ours and fact not in shelf.doubtful | lesson.doubtful
    ]


def _tunings(shelf: Tuning, lesson: Tuning) -> tuple[str, str]:
    """Their names, alike where the reeds are alike and different where they are not."""
    if (shelf.blow, shelf.draw) == (lesson.blow, lesson.draw):
        return lesson.name, lesson.name
    return f"another {shelf.name}" if shelf.name == lesson.name else shelf.name, lesson.name


def not_there(name: t.Word, shelf: str, known: Names, licks: Sequence[str]) -> Problem:
    """What a shelf does not hold: `known` are its licks and rhythms, `licks` alone are listed."""
    near = known.nearest(name.text)
    return error(
        "lick-not-on-shelf", name.span, found=name.text, shelf=shelf, near=near, known=licks
    )
