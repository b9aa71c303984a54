"""Which parts of a handout are stale."""

from __future__ import annotations

import os
from collections.abc import Callable, Iterable
from dataclasses import dataclass, field
from functools import lru_cache

from formsheet.engine.record import UNSURE, Basis, PartRecord, Record, Seen
from formsheet.engine.stamps import Stamp, digest, digest_of, settled, stamp
from formsheet.engine.target import Target
from formsheet.engine.tool import Tool
from formsheet.suffixes import SHELF_SUFFIX

Look = Callable[[str], Stamp | None]
#: Returns the inputs as they are now if the lesson takes the same from its shelves, else nothing.
Read = Callable[[Target, Record], dict[str, Seen]]


@dataclass(frozen=True)
class State:
    """The stale parts of a handout, and whether its record needs new stamps."""

    stale: tuple[str, ...]
    renewed: bool = False  # stamps have changed, but not the content
    inputs: dict[str, Seen] = field(default_factory=dict)  # for the record


def part_key(target: Target, tool: str, basis: Basis) -> str:
    """The hash of everything that the parts of this handout depend on."""
    taken = sorted(basis.taken.items())
    texts = (text for name, each in taken for text in (name, each.digest))
    return digest_of(tool, target.choices, target.lesson.name, basis.lesson or "", *texts)


def state(target: Target, record: Record, tool: Tool, read: Read, look: Look = stamp) -> State:
    """The state of a handout.

    `read` is called only where a shelf has changed, since it needs the parser. `look` returns the
    stamp of a lesson or shelf; the caller caches it, since many targets share a shelf.
    """
    if not record.inputs or target.choices != record.choices:
        return State(target.parts)
    renewed = tool.seen != record.tool_seen
    if renewed and tool.digest != record.tool:
        return State(target.parts)
    changed, sure = _changed(target, record, look)
    shelves_only = all(_is_shelf(name, record.inputs[name]) for name in changed)
    inputs = read(target, record) if changed and shelves_only else record.inputs
    if changed and not (shelves_only and inputs):
        return State(target.parts)
    renewed = renewed or bool(changed) or not sure
    stale = []
    for part in target.parts:
        as_made, sure = _as_made(target, part, record)
        renewed = renewed or not sure
        if not as_made:
            stale.append(part)
    return State(tuple(stale), renewed, inputs)


def _is_shelf(name: str, before: Seen) -> bool:
    """Whether an input is a shelf that existed: only licks not used here may have changed."""
    return name.endswith(SHELF_SUFFIX) and bool(before[0])


def _changed(target: Target, record: Record, look: Look) -> tuple[list[str], bool]:
    """The inputs whose content changed, and whether stamps alone decided about all others."""
    home = real_folder(str(target.home))
    changed, all_sure = [], True
    for name, seen in record.inputs.items():
        path = os.path.join(home, name)
        same, sure = _same(path, seen, look(path), record.noted_ns)
        all_sure = all_sure and sure
        if not same:
            changed.append(name)
    return changed, all_sure


def _as_made(target: Target, part: str, record: Record) -> tuple[bool, bool]:
    """Whether a part's files are unchanged since they were made; whether stamps alone decided."""
    made = record.parts.get(part)
    if made is None or made.key != record.key:
        return False, True
    all_sure = True
    folder = os.path.join(target.folder, "")  # ends in a slash; joining each name would take
    for name, seen in made.files.items():  # as long as the `stat` of its file
        path = folder + name
        same, sure = _same(path, seen, stamp(path), record.noted_ns)
        all_sure = all_sure and sure
        if not same:
            return False, True
    return True, all_sure


def is_as_made(folder: str, name: str, part: PartRecord, noted_ns: int) -> bool:
    """Whether a file of a part is unchanged since it was made."""
    path = os.path.join(folder, name)
    seen = part.files.get(name)
    return bool(seen and seen[0]) and _same(path, part.files[name], stamp(path), noted_ns)[0]


def _same(path: str, seen: Seen, now: Stamp | None, noted_ns: int) -> tuple[bool, bool]:
    """Whether the content of a file is unchanged, and whether its stamp alone decided."""
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
    """A lessons folder with links resolved; the names of inputs are relative to it."""
    return os.path.realpath(folder)


def noted(paths: Iterable[tuple[str, str]]) -> dict[str, Seen]:
    """The hash and stamp of each file now, by name, from pairs of name and path."""
    found: dict[str, Seen] = {}
    for name, path in paths:
        before = stamp(path)
        found[name] = (digest(path), before) if before else (None, None)
    return found
