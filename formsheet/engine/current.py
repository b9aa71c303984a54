"""Which parts of a handout are still what a build would make."""

from __future__ import annotations

import os
from collections.abc import Callable, Iterable
from dataclasses import dataclass, field
from functools import lru_cache

from formsheet.engine.record import UNSURE, Basis, Record, Seen
from formsheet.engine.stamps import Stamp, digest, digest_of, settled, stamp
from formsheet.engine.target import Target
from formsheet.engine.tool import Tool
from formsheet.suffixes import SHELF_SUFFIX

Look = Callable[[str], Stamp | None]
#: The inputs as they are now, if the lesson takes the same from its shelves; else nothing.
Read = Callable[[Target, Record], dict[str, Seen]]


@dataclass(frozen=True)
class State:
    """How a handout stands: the parts to be made, and what its record may note anew."""

    stale: tuple[str, ...]
    renewed: bool = False  # stamps have changed that matter to nobody
    inputs: dict[str, Seen] = field(default_factory=dict)  # as they are to be noted


def part_key(target: Target, tool: str, basis: Basis) -> str:
    """The key of all from which a part of this handout is made."""
    taken = sorted(basis.taken.items())
    texts = (text for name, each in taken for text in (name, each.digest))
    return digest_of(tool, target.choices, target.lesson.name, basis.lesson or "", *texts)


def state(target: Target, record: Record, tool: Tool, read: Read, look: Look = stamp) -> State:
    """How a handout stands.

    `read` is asked only where a shelf has changed: it takes a parser. `look` gives the stamp of a
    lesson or shelf, which many targets share.
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
    """Whether an input is a shelf that was surely there: another lick may have changed."""
    return name.endswith(SHELF_SUFFIX) and bool(before[0])


def _changed(target: Target, record: Record, look: Look) -> tuple[list[str], bool]:
    """The inputs that hold something else, and whether stamps alone said so of the others."""
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
    """Whether a part's files are there as they were made, and whether their stamps said so."""
    made = record.parts.get(part)
    if made is None or made.key != record.key:
        return False, True
    all_sure = True
    folder = os.path.join(target.folder, "")  # with its slash: joining each name takes as long as
    for name, seen in made.files.items():  # looking at its file
        path = folder + name
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
