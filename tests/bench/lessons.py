"""Folders of many lessons, made from the demo lessons."""

from __future__ import annotations

import shutil
from pathlib import Path

from tests.lessons import LESSONS, remarked_text


def many(folder: Path, count: int, *, remarked: bool = False) -> Path:
    """So many lessons with the demo shelf; every one has a title of its own.

    `remarked`: the demos with a remark in four of eight, for which an offer or an edit is sought.
    """
    shutil.copytree(LESSONS / "shelf", folder / "shelf")
    sources = sorted(LESSONS.glob("*.lesson"))
    for number in range(count):
        source = sources[number % len(sources)]
        text = remarked_text(source.stem) if remarked else source.read_text(encoding="utf-8")
        text = text.replace("title ", f"title No {number} ", 1)
        (folder / f"{source.stem}-{number:04}.lesson").write_text(text, encoding="utf-8")
    return folder


def long_lesson(path: Path, choruses: int) -> Path:
    """A lesson of so many choruses, each with 12 bars of eighths, no two licks alike."""
    head = "title Long\nharp C\nform 12-bar standard\ntempo 100\n"
    licks = "".join(
        f"lick l{n}-{bar} on I, IV, V\n  e 2d 3d 4d {bar % 4 + 3}b 2d 3d 4d {n % 6 + 1}d\n"
        for n in range(choruses) for bar in range(12)
    )  # fmt: skip
    plays = "".join(
        "play\n" + "".join(f"  bar {bar + 1} l{n}-{bar}\n" for bar in range(12))
        for n in range(choruses)
    )
    path.write_text(head + licks + plays, encoding="utf-8")
    return path
