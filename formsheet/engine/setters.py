"""Paths of the system libraries that set the text of a PDF.

They are not part of a Python package, and asking the loader for them is slow, so every file with
one of their names in the usual places of the loader counts. Libraries elsewhere, as on Windows,
are not noticed.
"""

from __future__ import annotations

import os
import sys
from collections.abc import Iterator

#: Name and version: text shaping, writing direction, outlines, font selection and subsetting.
_NAMES = (
    ("libpango-1.0", 0), ("libpangoft2-1.0", 0), ("libharfbuzz", 0), ("libharfbuzz-subset", 0),
    ("libfribidi", 0), ("libfreetype", 6), ("libfontconfig", 1),
)  # fmt: skip


def setter_files() -> Iterator[str]:
    """Every path that one of these libraries may have; the file need not exist."""
    if os.name != "posix":
        return
    mac = sys.platform == "darwin"
    for folder in _places(mac):
        for name, version in _NAMES:
            yield f"{folder}/{name}.{version}.dylib" if mac else f"{folder}/{name}.so.{version}"


def _places(mac: bool) -> dict[str, None]:
    """The search path of the loader (ld.so(8), dyld(1)), and the lib folder of this Python."""
    named = os.environ.get("DYLD_LIBRARY_PATH" if mac else "LD_LIBRARY_PATH", "").split(":")
    kind = getattr(sys.implementation, "_multiarch", "")
    system = ["/usr/local/lib", "/opt/homebrew/lib" if mac else "/usr/lib64", "/usr/lib"]
    system += [f"{place}/{kind}" for place in ("/usr/local/lib", "/usr/lib") if kind]
    return dict.fromkeys([*filter(None, named), f"{sys.base_prefix}/lib", *system])
