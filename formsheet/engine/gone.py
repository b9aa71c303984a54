"""Remove handouts whose lesson no longer exists."""

from __future__ import annotations

import os
from collections.abc import Iterable, Iterator
from pathlib import Path

from formsheet.engine.place import LOCK, remove, remove_empty, sweep
from formsheet.engine.record import RECORD, read_record


def remove_gone(out: Path, homes: Iterable[Path]) -> Iterator[Path]:
    """Remove the handouts of lessons that were removed from these folders; yields each folder.

    Only files listed in a record are removed, then folders left empty. Handouts of lessons
    outside `homes` are left alone.
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
