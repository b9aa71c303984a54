"""The system's own libraries that set the text of a PDF, where they lie.

They belong to no package of Python, and to ask the loader for them is slow. So all that bear their
names in the loader's usual places count; one that lies elsewhere, as on Windows, is not seen.
"""

from __future__ import annotations

import os
import sys
from collections.abc import Iterator

#: Shaping, order of letters, outlines, choice and subset of faces.
_NAMES = (
    ("libpango-1.0", 0), ("libpangoft2-1.0", 0), ("libharfbuzz", 0), ("libharfbuzz-subset", 0),
    ("libfribidi", 0), ("libfreetype", 6), ("libfontconfig", 1),
)  # fmt: skip


def setter_files() -> Iterator[str]:
    """Where each may lie: the file itself need not be there."""
    if os.name != "posix":
        return
    mac = sys.platform == "darwin"
    for folder in _places(mac):
        for name, version in _NAMES:
            yield f"{folder}/{name}.{version}.dylib" if mac else f"{folder}/{name}.so.{version}"


def _places(mac: bool) -> dict[str, None]:
    """The loader's places (ld.so(8), dyld(1)), and those of a Python that has its own."""
    named = os.environ.get("DYLD_LIBRARY_PATH" if mac else "LD_LIBRARY_PATH", "").split(":")
    kind = getattr(sys.implementation, "_multiarch", "")
    system = ["/usr/local/lib", "/opt/homebrew/lib" if mac else "/usr/lib64", "/usr/lib"]
    system += [f"{place}/{kind}" for place in ("/usr/local/lib", "/usr/lib") if kind]
    return dict.fromkeys([*filter(None, named), f"{sys.base_prefix}/lib", *system])
