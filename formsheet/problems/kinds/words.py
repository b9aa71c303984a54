"""The words of a kind of problem, and hints that many kinds share."""

from __future__ import annotations

from typing import NamedTuple


class Words(NamedTuple):
    """Message and hints of a kind of problem."""

    message: str
    hints: tuple[str, ...] = ()


def says(message: str, *hints: str) -> Words:
    """The words of a kind: its message, then its hints, the likeliest first."""
    return Words(message, hints)


NEAR = "did you mean `{near}`?"
USAGE = "write it like this: `{usage}`"
