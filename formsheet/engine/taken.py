"""What a handout rests on of its shelves: a change of a shelf that leaves that alone is none.

Only imported where a lesson is read, or where the file of a shelf has changed.
"""

from __future__ import annotations

import os
from pathlib import Path

from formsheet.engine.current import noted
from formsheet.engine.record import NOT_THERE, UNSURE, Basis, Record, Seen, TakenRecord
from formsheet.engine.stamps import digest_of, settled
from formsheet.engine.target import Target
from formsheet.lesson.shelves import Shelves
from formsheet.lesson.taken import taken_text
from formsheet.problems.problem import Problem
from formsheet.stages import Examined
from formsheet.suffixes import SHELF_SUFFIX


def basis_of(each: Examined, target: Target, shelves: Shelves, since_ns: int) -> Basis:
    """What the handout of a lesson that was just read rests on."""
    looked = {target.lesson: True} | shelves.looked_for(target.lesson)
    inputs = seen(looked, target.home, since_ns)
    lesson = inputs[name_of(target.lesson, target.home)][0]
    return Basis(lesson, inputs, _taken(each, target, shelves))


def _taken(each: Examined, target: Target, shelves: Shelves) -> dict[str, TakenRecord]:
    """What a lesson that was read takes from each shelf, by the names of their files.

    `lesson.json` holds what is to be said of the lesson. So where something said points at a
    shelf, places on it count too. What is left on a shelf is offered only where a bar has no
    lick that fits: an error, and then there is no handout.
    """
    places = any(map(_points_at_shelf, each.problems))
    found = {}
    for path, names in shelves.taken_by(target.lesson).items():
        record = TakenRecord(sorted(names), places)
        record.digest = _digest(path, record, shelves)
        found[name_of(path, target.home)] = record
    return found


def _points_at_shelf(problem: Problem) -> bool:
    spans = (problem.span, *(related.span for related in problem.related))
    return any(span.source.name.endswith(SHELF_SUFFIX) for span in spans)


def inputs_now(record: Record, home: Path, shelves: Shelves, since_ns: int) -> dict[str, Seen]:
    """The inputs as they are now where the lesson takes the same from its shelves; else none.

    `since_ns`: no shelf had been read before.
    """
    found = {n: each for n, each in record.inputs.items() if not n.endswith(SHELF_SUFFIX)}
    found |= {n: each for n, each in record.inputs.items() if each == NOT_THERE}
    for name, taken in record.taken.items():
        path = home / name
        if not taken.digest or _digest(path, taken, shelves) != taken.digest:
            return {}
        found |= seen({path: True} | shelves.looked_for(path), home, since_ns)
    return found


def _digest(path: Path, taken: TakenRecord, shelves: Shelves) -> str:
    """The hash of what is taken; empty where that cannot be said."""
    shelf = shelves.at(path)
    text = shelf and taken_text(shelf, taken.names, places=taken.places)
    return digest_of(text) if text else ""


def seen(looked: dict[Path, bool], home: Path, since_ns: int) -> dict[str, Seen]:
    """Files as they are, by name; one that has come, gone or changed since then is unsure."""
    found: dict[str, Seen] = {}
    for path, was_there in looked.items():
        name = name_of(path, home)
        found |= noted([(name, os.path.join(os.path.realpath(home), name))])
        _, stamp = found[name]
        if was_there != (stamp is not None) or (stamp and not settled(stamp, since_ns)):
            found[name] = UNSURE
    return found


def name_of(path: Path, home: Path) -> str:
    """How a file is called from its lessons folder, whatever links lead to that."""
    real = os.path.join(os.path.realpath(path.parent), path.name)
    return os.path.relpath(real, os.path.realpath(home))
