"""Which tests are named for which limit: the marks `@pytest.mark.limit("judge.level.LIMITS")`.

A class or a module is not marked: a mark stands on a test.
"""

from __future__ import annotations

import ast
from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence

from tests.limits.exceptions import NOT_LIMITS
from tests.limits.found import ROOT, Limit


def named_tests() -> dict[str, list[str]]:
    """Name of a limit -> the tests that are marked with it, as pytest names them."""
    found: dict[str, list[str]] = defaultdict(list)
    for path in sorted((ROOT / "tests").rglob("test_*.py")):
        for function in ast.parse(path.read_text(encoding="utf-8")).body:
            if isinstance(function, ast.FunctionDef):
                for name in _limits(function):
                    found[name].append(f"{path.relative_to(ROOT).as_posix()}::{function.name}")
    return dict(found)


def slips(found: Sequence[Limit], tests: Mapping[str, Sequence[str]]) -> list[str]:
    """Limits without a test, and names in marks and in `NOT_LIMITS` that are out of date."""
    names = {limit.name for limit in found}
    marked, left_out = {*tests}, {*NOT_LIMITS}
    return [
        *(f"no test is named for {name}" for name in names - marked - left_out),
        *(f"no limit: {name}, marked on {tests[name][0]}" for name in marked - names),
        *(f"no limit: {name}, in NOT_LIMITS" for name in left_out - names),
        *(f"both marked on a test and in NOT_LIMITS: {name}" for name in marked & left_out),
    ]


def _limits(function: ast.FunctionDef) -> Iterator[str]:
    for mark in function.decorator_list:
        if isinstance(mark, ast.Call) and ast.unparse(mark.func) == "pytest.mark.limit":
            for name in mark.args:
                assert isinstance(name, ast.Constant), "the name of a limit is written out"
                yield str(name.value)
