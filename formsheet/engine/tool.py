"""The version of formsheet that makes a handout: its code, typefaces, templates and libraries.

A handout made by another version is stale. A change of the system's typefaces, which print
letters that the sheet's typeface lacks, is not noticed: use `build --again`.
"""

from __future__ import annotations

import os
import re
import sys
from collections.abc import Iterator
from functools import cached_property
from zlib import crc32

from formsheet.engine.setters import setter_files
from formsheet.engine.stamps import digest, digest_of, stamp
from formsheet.resources import resource_folder

_PACKAGE = os.path.dirname(os.path.dirname(os.path.abspath(__file__)))
_LIBRARY_FOLDERS = ("site-packages", "dist-packages")
_NAME = re.compile(r"[\w.-]+")


class Tool:
    """The running formsheet."""

    @cached_property
    def seen(self) -> str:
        """A checksum of the stamps of its files: cheap, and changes whenever `digest` does."""
        paths = (*_files(), *_library_folders(), *setter_files())
        facts = [f"{path} {stamp(path)}" for path in paths]
        text = "\n".join(facts)
        return f"{crc32(text.encode('utf-8', 'surrogateescape')):08x}-{len(text)}"

    @cached_property
    def digest(self) -> str:
        """The hash of its files and of the versions of its libraries, independent of paths."""
        paths = (*_files(), *filter(os.path.isfile, setter_files()))
        files = ((os.path.basename(path), digest(path) or "") for path in paths)
        return digest_of(
            sys.version, *(text for pair in files for text in pair), *sorted(_versions())
        )


def _files() -> Iterator[str]:
    for top in (_PACKAGE, str(resource_folder("templates")), str(resource_folder("grammar"))):
        yield from _files_below(top)


def _files_below(folder: str) -> Iterator[str]:
    inside = sorted(os.scandir(folder), key=lambda entry: entry.name)
    for entry in inside:
        if entry.name.startswith((".", "__pycache__")):
            continue
        if entry.is_dir():
            yield from _files_below(entry.path)
        else:
            yield entry.path


def _library_folders() -> list[str]:
    """Folders of installed libraries: their stamps change with every install or removal."""
    return [path for path in sys.path if path.endswith(_LIBRARY_FOLDERS)]


def _versions() -> set[str]:
    """Name and version of each library that formsheet depends on, directly or not."""
    from importlib import metadata

    found: dict[str, str] = {}
    wanted = ["formsheet"]
    while wanted:
        name = wanted.pop()
        if name in found:
            continue
        try:
            about = metadata.distribution(name)
        except metadata.PackageNotFoundError:  # for another system, or run from a checkout
            found[name] = ""
            continue
        found[name] = about.version
        needed = [line for line in about.requires or () if "extra ==" not in line]
        wanted += [start[0] for line in needed if (start := _NAME.match(line))]
    return {f"{name} {version}" for name, version in found.items()}
