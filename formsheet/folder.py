"""Find files of a kind in a folder and its subfolders."""

from __future__ import annotations

import os
from collections.abc import Iterator, Sequence
from pathlib import Path


def files_below(home: Path, suffixes: Sequence[str]) -> list[tuple[str, os.DirEntry[str]]]:
    """The files with one of these suffixes, sorted: path relative to `home` (with `/`), and entry.

    Skipped: hidden files and folders (editors keep temporary files there), links that lead out of
    the folder, and whatever has just been removed or cannot be read.
    """
    root = os.path.realpath(home)
    found = _below(os.fspath(home), "", tuple(suffixes), root)
    return sorted(found, key=lambda each: each[0].split("/"))


def _below(
    folder: str, before: str, suffixes: tuple[str, ...], root: str
) -> Iterator[tuple[str, os.DirEntry[str]]]:
    try:
        entries = list(os.scandir(folder))
    except OSError:
        return
    for entry in entries:
        if entry.name.startswith("."):
            continue
        if entry.is_dir(follow_symlinks=False):
            yield from _below(entry.path, f"{before}{entry.name}/", suffixes, root)
        elif entry.name.endswith(suffixes) and _is_file_of(entry, root):
            yield before + entry.name, entry


def _is_file_of(entry: os.DirEntry[str], root: str) -> bool:
    try:
        if not entry.is_file():
            return False
    except OSError:
        return False
    return not entry.is_symlink() or Path(os.path.realpath(entry.path)).is_relative_to(root)
