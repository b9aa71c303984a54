"""All kinds of problem in one list, in the order in which a lesson is read."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from inspect import getdoc

from formsheet.problems.kinds import (
    facts,
    fit,
    form_end,
    handling,
    harp,
    lines,
    music,
    play,
    printing,
    shelves,
)
from formsheet.problems.problem import Problem

_MODULES = (lines, facts, music, shelves, play, harp, fit, form_end, handling, printing)


def _kinds() -> Iterator[type[Problem]]:
    for module in _MODULES:
        for value in vars(module).values():
            own = isinstance(value, type) and value.__module__ == module.__name__
            if own and issubclass(value, Problem) and "code" in vars(value):
                yield value


def by_code(kinds: Iterable[type[Problem]]) -> dict[str, type[Problem]]:
    """The kinds by their codes; ValueError where two have the same."""
    found: dict[str, type[Problem]] = {}
    for kind in kinds:
        other = found.setdefault(str(kind.code), kind)
        if other is not kind:
            raise ValueError(f"{other.__name__} and {kind.__name__} have the code {kind.code}")
    return found


#: Code -> kind.
KINDS = by_code(_kinds())


def meaning(kind: type[Problem]) -> str:
    """What a problem of this kind means: the docstring of its class."""
    return getdoc(kind) or ""
