"""Handouts of lessons that are no longer there."""

from __future__ import annotations

import os
from collections.abc import Iterable, Iterator
from pathlib import Path

from formsheet.engine.place import LOCK, remove, remove_empty, sweep
from formsheet.engine.record import RECORD, read_record


def remove_gone(out: Path, homes: Iterable[Path]) -> Iterator[Path]:
    """Remove what was made of lessons that have left these lessons folders; yields each folder.

    Only files that a record says are ours are removed, and folders that this leaves empty.
    """
    roots = [Path(os.path.realpath(home)) for home in homes if home.is_dir()]
    for found in sorted(out.rglob(RECORD)):
        folder = found.parent
        record = read_record(folder)
        if not record.lesson:
            continue
        lesson = Path(os.path.realpath(folder / record.lesson))
        if lesson.exists() or not any(lesson.is_relative_to(root) for root in roots):
            continue
        sweep(folder)
        names = [name for part in record.parts.values() for name in part.files]
        remove(folder, [*names, LOCK, RECORD])
        remove_empty(folder, out)
        yield folder
