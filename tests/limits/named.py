"""Which tests are named for which limit: the marks `@pytest.mark.limit("judge.level.LIMITS")`."""

from __future__ import annotations

import ast
from collections import defaultdict
from collections.abc import Iterator

from tests.limits.found import ROOT


def named_tests() -> dict[str, list[str]]:
    """Name of a limit -> the tests that are marked with it, as pytest names them."""
    found: dict[str, list[str]] = defaultdict(list)
    for path in sorted((ROOT / "tests").rglob("test_*.py")):
        for function in ast.parse(path.read_text(encoding="utf-8")).body:
            if isinstance(function, ast.FunctionDef):
                for name in _limits(function):
                    found[name].append(f"{path.relative_to(ROOT).as_posix()}::{function.name}")
    return dict(found)


def _limits(function: ast.FunctionDef) -> Iterator[str]:
    for mark in function.decorator_list:
        if isinstance(mark, ast.Call) and ast.unparse(mark.func) == "pytest.mark.limit":
            for name in mark.args:
                assert isinstance(name, ast.Constant), "the name of a limit is written out"
                yield str(name.value)
