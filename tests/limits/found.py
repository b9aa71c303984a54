"""The limits of the code: which numbers are limits, and what one step is.

The rule. A limit is a number in the value of a constant: a name in capitals at the top of a
module. In the packages and modules of `EVERY_NUMBER` each such number is a limit. The packages of
`BY_NAME` hold facts of music and sizes of drawings too: there it is one if its name has a word of
`WORDS`. A number that falls under the rule without being a limit is in `exceptions.py: NOT_LIMITS`,
with the reason.

One step is 1 for a whole number; for a decimal, one unit of its second significant figure (0.24:
0.01; 0.1: 0.01; 1.1: 0.1); for a `Fraction` of two numbers, 1 in the denominator. True and False
change places.
"""

from __future__ import annotations

import ast
from collections.abc import Iterator, Sequence
from decimal import Decimal
from pathlib import Path
from typing import NamedTuple

ROOT = Path(__file__).parents[2]
PACKAGE = ROOT / "formsheet"
EVERY_NUMBER = ("judge", "language", "lesson", "library", "problems", "recast", "tune",
                "sheet.view_practice")  # fmt: skip
BY_NAME = ("music", "page", "sheet", "vocabulary")
WORDS = {"MOST", "LEAST", "FEWEST", "LONGEST", "SHORTEST", "LARGEST", "WIDEST", "HIGHEST", "LOWEST",
         "FASTEST", "SLOWEST", "NEWEST", "LIMITS", "AWAY"}  # fmt: skip


class Limit(NamedTuple):
    """One number of a constant."""

    name: str  # of the constant, after its module: "judge.level.LIMITS"
    path: Path
    line: int  # from 1
    start: int  # where the number begins and ends in its line, in bytes
    end: int
    written: str  # "0.24"

    @property
    def module(self) -> str:
        """Full name of the module."""
        return f"formsheet.{self.name.rpartition('.')[0]}"

    @property
    def steps(self) -> list[str]:
        """How the number is written one step up, and one step down."""
        value = ast.literal_eval(self.written)
        if isinstance(value, bool):
            return [str(not value)]
        number = Decimal(self.written.replace("_", ""))
        step = Decimal(1) if isinstance(value, int) else Decimal(10) ** (number.adjusted() - 1)
        return [str(number + step), str(number - step)]

    def source(self, written: str) -> bytes:
        """The source of the module with another number in this one's place."""
        lines = self.path.read_bytes().splitlines(keepends=True)
        line = lines[self.line - 1]
        lines[self.line - 1] = line[: self.start] + written.encode() + line[self.end :]
        return b"".join(lines)


def limits() -> list[Limit]:
    """Every number that falls under the rule, those of `NOT_LIMITS` too."""
    return [
        limit
        for path in sorted(PACKAGE.rglob("*.py"))
        for limit in limits_of(path)
        if _is_in(limit, EVERY_NUMBER) or (_is_in(limit, BY_NAME) and _has_word(limit))
    ]


def limits_of(path: Path) -> Iterator[Limit]:
    """Every number in the value of a constant of a module."""
    module = ".".join(path.relative_to(PACKAGE).with_suffix("").parts)
    text = path.read_text(encoding="utf-8")
    for statement in ast.parse(text).body:
        for name, value in _constants(statement):
            for number in _numbers(value):
                written = ast.get_source_segment(text, number)
                assert written
                assert number.end_col_offset
                yield Limit(
                    f"{module}.{name}", path,
                    number.lineno, number.col_offset, number.end_col_offset, written,
                )  # fmt: skip


def _is_in(limit: Limit, places: Sequence[str]) -> bool:
    return limit.name.startswith(tuple(f"{place}." for place in places))


def _has_word(limit: Limit) -> bool:
    return not WORDS.isdisjoint(limit.name.rpartition(".")[2].split("_"))


def _constants(statement: ast.stmt) -> Iterator[tuple[str, ast.expr]]:
    """Names in capitals that a statement gives a value, each with its value."""
    if isinstance(statement, ast.AnnAssign) and statement.value:
        targets: list[ast.expr] = [statement.target]
    elif isinstance(statement, ast.Assign):
        targets = statement.targets
    else:
        return
    value = statement.value
    assert value
    for target in targets:
        pairs: list[tuple[ast.expr, ast.expr]] = [(target, value)]
        if isinstance(target, ast.Tuple) and isinstance(value, ast.Tuple):
            pairs = list(zip(target.elts, value.elts, strict=True))
        for each, its_value in pairs:
            if isinstance(each, ast.Name) and each.id.isupper():
                yield each.id, its_value


def _numbers(value: ast.expr) -> Iterator[ast.Constant]:
    """The numbers of an expression; of a fraction of two numbers, the denominator."""
    if isinstance(value, ast.JoinedStr):
        return
    if isinstance(value, ast.Constant):
        if isinstance(value.value, (bool, int, float)):
            yield value
        return
    inner: list[ast.AST] = list(ast.iter_child_nodes(value))
    if isinstance(value, ast.Call) and ast.unparse(value.func) == "Fraction":
        inner = list(value.args[-1:])
    for node in inner:
        if isinstance(node, ast.keyword):
            yield from _numbers(node.value)
        elif isinstance(node, ast.expr):
            yield from _numbers(node)
        elif isinstance(node, ast.comprehension):
            yield from _numbers(node.iter)
