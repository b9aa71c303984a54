"""Colour in the terminal; nothing is shown by colour alone."""

from __future__ import annotations

import os
import re
from typing import TextIO

_CODES = {
    "error": "1;31", "warning": "1;33", "remark": "1;36", "head": "1", "mark": "1;35",
    # verdicts on notes
    "chord tone": "1", "idiomatic": "36", "avoid": "31",
}  # fmt: skip
_SEVERITY = re.compile(r"(?m)^(\S.*?:\d+:\d+: )(error|warning|remark): (.*)$")
_MARKS = re.compile(r"(?m)^(      \| +)(\^+|-+)")


def paints(stream: TextIO) -> bool:
    """Whether to write colour to a stream: by default if it is a terminal that shows colour.

    NO_COLOR turns colour off (no-color.org); else FORCE_COLOR turns it on for every stream.
    """
    if os.environ.get("NO_COLOR"):
        return False
    if os.environ.get("FORCE_COLOR"):
        return True
    if os.environ.get("TERM") == "dumb":
        return False
    return stream.isatty()


def painted(text: str, kind: str) -> str:
    """Text in the colour of its kind."""
    return f"\033[{_CODES[kind]}m{text}\033[0m"


def painted_problem(text: str) -> str:
    """A drawn problem with its severity and its mark in colour; the words stay the same."""
    text = _SEVERITY.sub(lambda m: f"{m[1]}{painted(m[2], m[2])}: {painted(m[3], 'head')}", text)
    return _MARKS.sub(lambda m: f"{m[1]}{painted(m[2], 'mark')}", text)
