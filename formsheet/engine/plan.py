"""What has to be made: the only stage of a build where nothing has changed.

Nothing heavy is imported here, and no lesson is read: a folder of hundreds is looked at in the
time of a few dozen `stat` calls each. Only where a shelf has changed is that shelf read, once.
"""

from __future__ import annotations

import os
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from pathlib import Path
from time import time_ns
from typing import TYPE_CHECKING

from formsheet.engine.current import State, noted, real_folder, state
from formsheet.engine.place import LOCK, has_left_asides, sweep, write_record
from formsheet.engine.record import Record, Seen, read_record
from formsheet.engine.stamps import stamp
from formsheet.engine.target import Target
from formsheet.engine.tool import Tool

if TYPE_CHECKING:  # shelves are read only where one has changed
    from formsheet.engine.current import Read
    from formsheet.lesson.shelves import Shelves


@dataclass(frozen=True)
class Plan:
    """The targets with something to make, each with those parts only, and the others."""

    stale: tuple[Target, ...]
    current: tuple[Target, ...]


def plan(targets: Sequence[Target], tool: Tool, *, again: bool = False) -> Plan:
    """Look at every target; `again`: make all of them, current or not."""
    if again:
        return Plan(tuple(targets), ())
    stale, current = [], []
    for target, parts in _looked_at(targets, tool):
        if parts:
            stale.append(replace(target, parts=parts))
        else:
            current.append(target)
    return Plan(tuple(stale), tuple(current))


def _looked_at(targets: Sequence[Target], tool: Tool) -> Iterator[tuple[Target, tuple[str, ...]]]:
    look = lru_cache(maxsize=None)(stamp)  # shelves are shared
    read = _reader()
    for target in targets:
        record = read_record(target.folder)
        found = state(target, record, tool, read, look)
        if not found.stale and (found.renewed or has_left_asides(target.folder)):
            _tidy(target, record, tool, found)
        yield target, found.stale


def _reader() -> Read:
    """Reads the shelves of each lessons folder, as they are from now on, and each once."""
    since_ns = time_ns()
    shelves_of: dict[Path, Shelves] = {}

    def read(target: Target, record: Record) -> dict[str, Seen]:
        from formsheet.engine.taken import inputs_now
        from formsheet.lesson.shelves import Shelves

        if target.home not in shelves_of:
            shelves_of[target.home] = Shelves(target.home)
        return inputs_now(record, target.home, shelves_of[target.home], since_ns)

    return read


def _tidy(target: Target, record: Record, tool: Tool, found: State) -> None:
    """Sweep up after a killed build, and write down the new stamps of what has the same content.

    Neither is needed for a right build: where it cannot be done now, it is left.
    """
    from filelock import FileLock, Timeout

    try:
        with FileLock(target.folder / LOCK, timeout=0):
            sweep(target.folder)
            if read_record(target.folder) == record:
                _note_again(target, record, tool, found)
    except (Timeout, OSError):
        return


def _note_again(target: Target, record: Record, tool: Tool, found: State) -> None:
    """The same content under new stamps, so that the next look is cheap.

    Of shelves, the content that was found to be the same for this lesson.

    A file that changes meanwhile changes its hash too, and then the record stays as it was.
    """
    home = real_folder(str(target.home))
    inputs = noted((name, os.path.join(home, name)) for name in found.inputs)
    parts = {
        name: replace(part, files=noted((f, str(target.folder / f)) for f in part.files))
        for name, part in record.parts.items()
    }
    before = [found.inputs, *(part.files for part in record.parts.values())]
    now = [inputs, *(part.files for part in parts.values())]
    if [_contents(files) for files in before] == [_contents(files) for files in now]:
        renewed = replace(record, inputs=inputs, parts=parts, tool_seen=tool.seen)
        write_record(target.folder, renewed, sync=False)


def _contents(files: dict[str, Seen]) -> dict[str, str | None]:
    return {name: seen[0] for name, seen in files.items()}
