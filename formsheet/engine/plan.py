"""Find what has to be made. If nothing has changed, a build ends here.

Nothing heavy is imported and no lesson is read: each target costs a few dozen `stat` calls. A
shelf is read only if it has changed, and once.
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
    """The stale targets, each with its stale parts only, and the current ones."""

    stale: tuple[Target, ...]
    current: tuple[Target, ...]


def plan(targets: Sequence[Target], tool: Tool, *, again: bool = False) -> Plan:
    """Sort targets into stale and current; `again` counts all as stale."""
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
    """A function that reads the changed shelves of a target, each shelf once."""
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
    """Remove leftovers of a killed build; record new stamps of files with unchanged content.

    Neither is needed for a correct build, so both are skipped while another build has the lock.
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
    """Record new stamps of unchanged content, so that the next plan needs no hashes.

    For shelves this is content from which the lesson takes the same as before. If a file changes
    in the meantime its hash differs, and the record is not written.
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
