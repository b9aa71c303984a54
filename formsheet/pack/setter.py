"""WeasyPrint, loaded without what it does not need here, which takes as long as the rest of it.

It asks for each of the system's libraries under the names of several systems. For every name that
is of another system Python starts a compiler and a linker, twenty times in all. The names that are
of Linux its loader finds by itself. And it loads what cuts faces to size in Python, for systems
whose HarfBuzz cannot, and for variable faces; that can wait until it is called.

Importing this takes a good part of a second: not before a page is wanted.
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

#: Modules that can wait, and what is called of them.
_LATER = {
    "fontTools.subset": ("Options", "Subsetter"),
    "fontTools.varLib.instancer": ("instantiateVariableFont",),
}


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


def _stand_in(name: str, called: tuple[str, ...]) -> ModuleType:
    """A module that is loaded when one of these is called, or anything else is asked of it."""
    made = ModuleType(name)

    def real() -> ModuleType:
        if sys.modules.get(name) is made:
            del sys.modules[name]
        return import_module(name)

    def later(wanted: str) -> Callable[..., Any]:
        return lambda *given, **named: getattr(real(), wanted)(*given, **named)

    def anything_else(wanted: str) -> Any:
        if wanted == "__path__":  # asked by `import` itself
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
