"""The record that lies in each handout's folder: from what each part was made, and what was made.

A small JSON file. One that is missing, cut short, or altered beyond sense counts as none: then
all is made again, and no file but those about to be made is touched.
"""

from __future__ import annotations

import json
import os
from dataclasses import asdict, dataclass, field
from pathlib import Path
from typing import Any

from formsheet.engine.stamps import Stamp

RECORD = ".formsheet.json"
_LAYOUT = 2  # of the record; another one is not read

#: A file as it was seen: its hash and its stamp; None for both: it was looked for and not there.
Seen = tuple[str | None, Stamp | None]
NOT_THERE: Seen = (None, None)
#: A file that changed while it was read: nothing is like it.
UNSURE: Seen = ("", None)


@dataclass
class PartRecord:
    """One part of a pack: the key of what it was made from, and its files by name."""

    key: str = ""  # empty: in the making
    files: dict[str, Seen] = field(default_factory=dict)


@dataclass
class TakenRecord:
    """What the lesson takes from one shelf."""

    names: list[str]
    places: bool = False  # whether it matters where it stands there
    digest: str = ""  # of it; empty: nobody can say


@dataclass(frozen=True)
class Basis:
    """What a handout rests on: the files behind it, and what it takes from its shelves."""

    lesson: str | None  # the hash of its file
    inputs: dict[str, Seen]
    taken: dict[str, TakenRecord]


@dataclass
class Record:
    """What is known of a handout. `noted_ns` is when, by the clock of its file system."""

    lesson: str = ""  # from the handout's folder
    choices: str = ""
    tool_seen: str = ""
    tool: str = ""
    key: str = ""  # of a part made from all of this
    inputs: dict[str, Seen] = field(default_factory=dict)  # by their names in the lessons folder
    taken: dict[str, TakenRecord] = field(default_factory=dict)  # by the shelves' names there
    parts: dict[str, PartRecord] = field(default_factory=dict)
    noted_ns: int = 0

    def text(self) -> str:
        """The record as it is written."""
        data = asdict(self) | {"layout": _LAYOUT}
        del data["noted_ns"]
        return json.dumps(data)


def read_record(folder: str | Path) -> Record:
    """The record of a handout's folder; an empty one where there is none that can be read."""
    try:
        with open(os.path.join(folder, RECORD), "rb") as file:
            noted_ns = os.fstat(file.fileno()).st_mtime_ns
            data = json.loads(file.read())
        return _record(data, noted_ns) if data["layout"] == _LAYOUT else Record()
    except (OSError, ValueError, KeyError, TypeError, AttributeError, RecursionError):
        return Record()


def _record(data: dict[str, Any], noted_ns: int) -> Record:
    parts = {
        str(name): PartRecord(str(part["key"]), _files(part["files"]))
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


def _stamp(data: Any) -> Stamp | None:
    if data is None:
        return None
    size, changed, entry_changed, number = map(int, data)
    return (size, changed, entry_changed, number)
