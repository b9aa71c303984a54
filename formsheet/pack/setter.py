"""WeasyPrint, loaded without a search for the system's libraries by compilers.

It asks for each library under the names of several systems. For every name that is of another
system Python starts a compiler and a linker, twenty times in all, which takes as long as the
rest of the loading. The names that are of Linux its loader finds by itself.

Importing this takes a good part of a second: not before a page is wanted.
"""

from __future__ import annotations

import ctypes
import ctypes.util
import sys
from collections.abc import Iterator
from contextlib import contextmanager


def _nowhere(name: str) -> str | None:
    """A search that finds nothing."""
    return None


def _loader_suffices() -> bool:
    """Whether the loader knows the libraries by their plain names, as on most Linux systems."""
    try:
        ctypes.CDLL("libpango-1.0.so.0")
    except OSError:
        return False
    return sys.platform == "linux"


@contextmanager
def _no_search() -> Iterator[None]:
    search = ctypes.util.find_library
    if _loader_suffices():
        ctypes.util.find_library = _nowhere
    try:
        yield
    finally:
        ctypes.util.find_library = search


with _no_search():
    from weasyprint import CSS, HTML
    from weasyprint.text.fonts import FontConfiguration
    from weasyprint.urls import URLFetcher, URLFetcherResponse

__all__ = ["CSS", "HTML", "FontConfiguration", "URLFetcher", "URLFetcherResponse"]
