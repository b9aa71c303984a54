"""Import WeasyPrint without the parts that are not needed here, in half of the time.

WeasyPrint searches each system library under its names on several systems. For every name of
another system Python starts a compiler and a linker, twenty times in all; the loader finds the
names used on Linux by itself. It also imports font subsetting in Python, for systems whose
HarfBuzz has none, and for variable fonts; these modules are imported when they are first used.

Importing this still takes a good part of a second, so do it only to make a page.
"""

from __future__ import annotations

import ctypes
import ctypes.util
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from importlib import import_module
from types import ModuleType
from typing import Any

#: Modules to import on first use, and the names used from them.
_LATER = {
    "fontTools.subset": ("Options", "Subsetter"),
    "fontTools.varLib.instancer": ("instantiateVariableFont",),
}


def _nowhere(name: str) -> str | None:
    """A library search that finds nothing."""
    return None


def _loader_suffices() -> bool:
    """Whether the loader finds the libraries by their plain names, as on most Linux systems."""
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


def _stand_in(name: str, called: tuple[str, ...]) -> ModuleType:
    """A placeholder module; the real one is imported on first use of any attribute."""
    made = ModuleType(name)

    def real() -> ModuleType:
        if sys.modules.get(name) is made:
            del sys.modules[name]
        return import_module(name)

    def later(wanted: str) -> Callable[..., Any]:
        return lambda *given, **named: getattr(real(), wanted)(*given, **named)

    def anything_else(wanted: str) -> Any:
        if wanted == "__path__":  # read by `import` itself
            raise AttributeError(wanted)
        return getattr(real(), wanted)

    vars(made).update({each: later(each) for each in called}, __getattr__=anything_else)
    return made


@contextmanager
def _stand_ins() -> Iterator[None]:
    made = {
        name: _stand_in(name, called) for name, called in _LATER.items() if name not in sys.modules
    }
    sys.modules.update(made)
    try:
        yield
    finally:
        for name, each in made.items():
            if sys.modules.get(name) is each:
                del sys.modules[name]


with _no_search(), _stand_ins():
    from weasyprint import CSS, HTML
    from weasyprint.text.fonts import FontConfiguration
    from weasyprint.urls import URLFetcher, URLFetcherResponse

__all__ = ["CSS", "HTML", "FontConfiguration", "URLFetcher", "URLFetcherResponse"]
