"""Which parts of a handout are still what a build would make."""

from __future__ import annotations

import os
from collections.abc import Callable, Iterable
from functools import lru_cache

from formsheet.engine.record import UNSURE, Record, Seen
from formsheet.engine.stamps import Stamp, digest, digest_of, settled, stamp
from formsheet.engine.target import Target
from formsheet.engine.tool import Tool

Look = Callable[[str], Stamp | None]


def part_key(target: Target, tool: str, inputs: dict[str, Seen]) -> str:
    """The key of all from which a part of this handout is made."""
    read = (text for name in sorted(inputs) for text in (name, inputs[name][0] or ""))
    return digest_of(tool, target.choices, target.lesson.name, *read)


def stale_parts(
    target: Target, record: Record, tool: Tool, look: Look = stamp
) -> tuple[tuple[str, ...], bool]:
    """The parts that have to be made, and whether stamps must be noted anew.

    `look` gives the stamp of a lesson or shelf, which many targets share.
    """
    if not record.inputs or target.choices != record.choices:
        return target.parts, False
    renewed = tool.seen != record.tool_seen
    if renewed and tool.digest != record.tool:
        return target.parts, False
    home = real_folder(str(target.home))
    for name, seen in record.inputs.items():
        path = os.path.join(home, name)
        same, sure = _same(path, seen, look(path), record.noted_ns)
        if not same:
            return target.parts, False
        renewed = renewed or not sure
    stale = []
    for part in target.parts:
        as_made, sure = _as_made(target, part, record)
        renewed = renewed or not sure
        if not as_made:
            stale.append(part)
    return tuple(stale), renewed


def _as_made(target: Target, part: str, record: Record) -> tuple[bool, bool]:
    """Whether a part's files are there as they were made, and whether their stamps said so."""
    made = record.parts.get(part)
    if made is None or made.key != record.key:
        return False, True
    all_sure = True
    folder = str(target.folder)
    for name, seen in made.files.items():
        path = os.path.join(folder, name)
        same, sure = _same(path, seen, stamp(path), record.noted_ns)
        all_sure = all_sure and sure
        if not same:
            return False, True
    return True, all_sure


def _same(path: str, seen: Seen, now: Stamp | None, noted_ns: int) -> tuple[bool, bool]:
    """Whether a file holds what it held, and whether its stamp alone said so."""
    content, before = seen
    if seen == UNSURE:
        return False, True
    if now is None or before is None:
        return now is before, True
    if now == before and settled(now, noted_ns):
        return True, True
    return now[0] == before[0] and digest(path) == content, False


@lru_cache(maxsize=64)
def real_folder(folder: str) -> str:
    """A lessons folder without links, so that the names of inputs lead from it."""
    return os.path.realpath(folder)


def noted(paths: Iterable[tuple[str, str]]) -> dict[str, Seen]:
    """Files as they are now, by name, from pairs of name and path."""
    found: dict[str, Seen] = {}
    for name, path in paths:
        before = stamp(path)
        found[name] = (digest(path), before) if before else (None, None)
    return found
