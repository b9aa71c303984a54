"""The record in each handout's folder: what each part was made from, and which files it has.

A small JSON file. If it is missing or damaged, all parts are made again, and only the files about
to be made are touched.
"""

from __future__ import annotations

import json
import os
from dataclasses import asdict, dataclass, field
from pathlib import Path
from typing import Any

from formsheet.engine.stamps import Stamp

RECORD = ".formsheet.json"
_LAYOUT = 3  # version of the record; records of other versions are ignored

#: Hash and stamp of a file when it was read; both None: it did not exist.
Seen = tuple[str | None, Stamp | None]
NOT_THERE: Seen = (None, None)
#: A file that changed while it was read; never equal to a real one, so always stale.
UNSURE: Seen = ("", None)


@dataclass
class PartRecord:
    """One part of a handout: the key of what it was made from, and its files by name."""

    key: str = ""  # empty: not finished
    files: dict[str, Seen] = field(default_factory=dict)
    pieces: dict[str, str] = field(default_factory=dict)  # by file: the hash of what went into it


@dataclass
class TakenRecord:
    """What a lesson takes from one shelf."""

    names: list[str]
    places: bool = False  # whether line and column matter too
    digest: str = ""  # of the content taken; empty: unknown


@dataclass(frozen=True)
class Basis:
    """What a handout depends on: its input files, and what it takes from its shelves."""

    lesson: str | None  # the hash of its file
    inputs: dict[str, Seen]
    taken: dict[str, TakenRecord]


@dataclass
class Record:
    """All that is recorded of a handout.

    `noted_ns` is the time of writing in nanoseconds, by the clock of its file system.
    """

    lesson: str = ""  # path relative to the handout's folder
    choices: str = ""
    tool_seen: str = ""
    tool: str = ""
    key: str = ""  # of a part that is current
    inputs: dict[str, Seen] = field(default_factory=dict)  # by path relative to the lessons folder
    taken: dict[str, TakenRecord] = field(default_factory=dict)  # by shelf, path as above
    parts: dict[str, PartRecord] = field(default_factory=dict)
    noted_ns: int = 0

    def text(self) -> str:
        """The record as JSON text."""
        data = asdict(self) | {"layout": _LAYOUT}
        del data["noted_ns"]
        return json.dumps(data)


def read_record(folder: str | Path) -> Record:
    """The record of a handout's folder; an empty one if it is missing or unreadable."""
    try:
        with open(os.path.join(folder, RECORD), "rb") as file:
            noted_ns = os.fstat(file.fileno()).st_mtime_ns
            data = json.loads(file.read())
        return _record(data, noted_ns) if data["layout"] == _LAYOUT else Record()
    except (OSError, ValueError, KeyError, TypeError, AttributeError, RecursionError):
        return Record()


def _record(data: dict[str, Any], noted_ns: int) -> Record:
    parts = {
        str(name): PartRecord(str(part["key"]), _files(part["files"]), _texts(part["pieces"]))
        for name, part in data["parts"].items()
    }
    texts = {name: str(data[name]) for name in ("lesson", "choices", "tool_seen", "tool", "key")}
    return Record(
        **texts, inputs=_files(data["inputs"]), taken=_taken(data["taken"]), parts=parts,
        noted_ns=noted_ns,
    )  # fmt: skip


def _taken(data: dict[str, Any]) -> dict[str, TakenRecord]:
    return {
        name: TakenRecord(
            [str(each) for each in taken["names"]], bool(taken["places"]), str(taken["digest"])
        )
        for name, taken in data.items()
    }  # fmt: skip


def _files(data: dict[str, Any]) -> dict[str, Seen]:
    return {name: (seen[0], _stamp(seen[1])) for name, seen in data.items()}


def _texts(data: dict[str, Any]) -> dict[str, str]:
    return {name: str(text) for name, text in data.items()}


def _stamp(data: Any) -> Stamp | None:
    if data is None:
        return None
    size, changed, entry_changed, number = map(int, data)
    return (size, changed, entry_changed, number)
