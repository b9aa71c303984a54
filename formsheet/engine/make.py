"""Make one handout, from the lesson file to the files in its folder."""

from __future__ import annotations

import os
from dataclasses import replace
from functools import lru_cache
from pathlib import Path

from filelock import FileLock

from formsheet.engine.current import is_as_made, noted, part_key, state
from formsheet.engine.event import Event, Outcome
from formsheet.engine.parts import PARTS, Notice, Piece
from formsheet.engine.place import (
    LOCK,
    Asides,
    remove,
    remove_unborn,
    sweep,
    sync_folders,
    write_record,
)
from formsheet.engine.record import Basis, PartRecord, Record, Seen, read_record
from formsheet.engine.stamps import digest_of
from formsheet.engine.taken import basis_of, inputs_now
from formsheet.engine.target import Target
from formsheet.engine.tool import Tool
from formsheet.lesson.shelves import Shelves
from formsheet.source import shown_name
from formsheet.stages import Examined, examine_file


def make(target: Target, tool: Tool, *, started_ns: int, again: bool = False) -> Event:
    """Make the stale parts of a target; safe while other builds run.

    `started_ns` is the start of this build in nanoseconds since the epoch: an input that changed
    later may have been read before or after the change, so its handout counts as stale next time.
    `again` makes all parts. OSError becomes an event with the outcome FAILED.
    """
    is_new = not target.folder.exists()
    try:
        shelves = _shelves(target.home, started_ns)
        each = examine_file(target.lesson, shown_name(target.lesson), shelves, target.harp)
        if not (each.in_order and each.tune):
            kept = target.folder if read_record(target.folder).key else None
            return Event(target, Outcome.WRONG, each.problems, kept=kept)
        target.folder.mkdir(parents=True, exist_ok=True)
        with FileLock(target.folder / LOCK):
            record = read_record(target.folder)
            parts = target.parts if again else _stale(target, record, tool, shelves, started_ns)
            if not parts:
                return Event(target, Outcome.CURRENT, each.problems)
            basis = basis_of(each, target, shelves, started_ns)
            stale = replace(target, parts=parts)
            files, notices = _make_parts(stale, each, record, tool, basis, again=again)
    except OSError as caught:
        if is_new:
            remove_unborn(target.folder)
        where = caught.filename or target.folder
        return Event(target, Outcome.FAILED, reason=f"{where}: {caught.strerror or caught}")
    return Event(target, Outcome.BUILT, each.problems, tuple(files), tuple(notices))


@lru_cache(maxsize=1)
def _shelves(home: Path, started_ns: int) -> Shelves:
    """The shelves of a lessons folder; the cache makes one build read them once."""
    return Shelves(home)


def _stale(
    target: Target, record: Record, tool: Tool, shelves: Shelves, started_ns: int
) -> tuple[str, ...]:
    """The parts that are stale now: another build may have made some in the meantime."""

    def read(target: Target, record: Record) -> dict[str, Seen]:
        return inputs_now(record, target.home, shelves, started_ns)

    return state(target, record, tool, read).stale


def _make_parts(
    target: Target, each: Examined, record: Record, tool: Tool, basis: Basis, *, again: bool
) -> tuple[list[Path], list[str]]:
    """Make parts as temporary files, then move all into place; the record is written twice.

    Returns the files and what to say about them. A piece that was made from the same before is
    left in its place, unless all is made `again`.

    Before the move it lists the new names (see `_note_intent`), afterwards it is complete.
    """
    sweep(target.folder)
    made: dict[str, list[str]] = {}
    pieces: dict[str, dict[str, str]] = {}
    notices: list[str] = []
    with Asides(target.folder) as asides:
        for part in target.parts:
            made[part], pieces[part] = [], {}
            before = record.parts.get(part, PartRecord())
            for found in PARTS[part](each, target.options):
                if isinstance(found, Notice):
                    notices.append(found.words)
                    continue
                if isinstance(found, Piece):
                    key = digest_of(tool.digest, found.key)
                    pieces[part][found.name] = key
                    if not again and _is_kept(target, found.name, key, before, record):
                        made[part].append(found.name)
                        continue
                    found = (found.name, found.make())
                name, data = found
                asides.add(name, data)
                made[part].append(name)
        record.lesson = os.path.relpath(target.lesson, target.folder)
        _note_intent(target.folder, record, made)
        placed = asides.put()
    ours = {name for part, names in made.items() for name in names}
    ours |= {n for part, old in record.parts.items() if part not in made for n in old.files}
    gone = {name for part in made for name in record.parts[part].files} - ours
    remove(target.folder, sorted(gone))
    sync_folders([target.folder, *(path.parent for path in placed)])
    key = part_key(target, tool.digest, basis)
    for part, names in made.items():
        files = noted((name, str(target.folder / name)) for name in names)
        record.parts[part] = PartRecord(key, files, pieces[part])
    done = replace(
        record, choices=target.choices, tool_seen=tool.seen, tool=tool.digest, key=key,
        inputs=basis.inputs, taken=basis.taken,
    )  # fmt: skip
    write_record(target.folder, done)
    return placed, notices


def _is_kept(target: Target, name: str, key: str, before: PartRecord, record: Record) -> bool:
    """Whether a piece lies in its place as it was made, from the same as now."""
    if before.pieces.get(name) != key:
        return False
    return is_as_made(str(target.folder), name, before, record.noted_ns)


def _note_intent(folder: Path, record: Record, made: dict[str, list[str]]) -> None:
    """List new file names in the record before they exist.

    If the build is killed after moving some of them, a later build still knows them as its own.
    """
    is_news = False
    for part, names in made.items():
        old = record.parts.setdefault(part, PartRecord())
        fresh = [name for name in names if name not in old.files]
        if fresh:
            is_news = True
            old.key = ""
            old.files |= dict.fromkeys(fresh, (None, None))
    if is_news:
        write_record(folder, record)
