"""Every kind of problem, one class each.

The modules are imported when the first problem is raised: most lessons have none, and the classes
cost a start more than reading the lesson. So import the package (`from formsheet.problems import
kinds`) and raise `kinds.BendTooDeep(...)`.
"""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from formsheet.problems.kinds.facts import *
    from formsheet.problems.kinds.fit import *
    from formsheet.problems.kinds.form_end import *
    from formsheet.problems.kinds.handling import *
    from formsheet.problems.kinds.harp import *
    from formsheet.problems.kinds.lines import *
    from formsheet.problems.kinds.music import *
    from formsheet.problems.kinds.play import *
    from formsheet.problems.kinds.printing import *
    from formsheet.problems.kinds.shelves import *

#: The modules, in the order in which they are searched: those first that good lessons need.
_MODULES = ("fit", "form_end", "handling", "printing", "lines", "music", "facts", "play", "shelves",
            "harp")  # fmt: skip


if not TYPE_CHECKING:  # which knows the kinds by the imports above, and must not know others

    def __getattr__(name: str) -> Any:
        """The kind of this name, from the first module that has it."""
        if name[:1].isupper():
            for module in _MODULES:
                kind = getattr(import_module(f"{__name__}.{module}"), name, None)
                if kind is not None:
                    globals()[name] = kind
                    return kind
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
