"""Which parts of a shelf a handout depends on, so that other edits do not make it stale.

Only imported if a lesson is read or the file of a shelf has changed.
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
    """What the handout of a lesson depends on; the lesson has just been read.

    `since_ns` is when reading began, in nanoseconds since the epoch.
    """
    looked = {target.lesson: True} | shelves.looked_for(target.lesson)
    inputs = seen(looked, target.home, since_ns)
    lesson = inputs[name_of(target.lesson, target.home)][0]
    return Basis(lesson, inputs, _taken(each, target, shelves))


def _taken(each: Examined, target: Target, shelves: Shelves) -> dict[str, TakenRecord]:
    """What a lesson takes from each shelf, by file name.

    `lesson.json` holds the problems of the lesson, so if a problem points at a shelf, line and
    column on that shelf count too. Licks that the lesson does not take are offered only in an
    error (a bar without a fitting lick), and then there is no handout.
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
    """The inputs as they are now if the lesson takes the same from its shelves, else nothing.

    `since_ns` is a time before any shelf was read.
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
    """The hash of what is taken; empty where the shelf has mistakes or lacks a name."""
    shelf = shelves.at(path)
    text = shelf and taken_text(shelf, taken.names, places=taken.places)
    return digest_of(text) if text else ""


def seen(looked: dict[Path, bool], home: Path, since_ns: int) -> dict[str, Seen]:
    """Hash and stamp of files, by name; UNSURE if a file came, went or changed since then."""
    found: dict[str, Seen] = {}
    for path, was_there in looked.items():
        name = name_of(path, home)
        found |= noted([(name, os.path.join(os.path.realpath(home), name))])
        _, stamp = found[name]
        if was_there != (stamp is not None) or (stamp and not settled(stamp, since_ns)):
            found[name] = UNSURE
    return found


def name_of(path: Path, home: Path) -> str:
    """The path of a file relative to its lessons folder, links resolved."""
    real = os.path.join(os.path.realpath(path.parent), path.name)
    return os.path.relpath(real, os.path.realpath(home))
