"""Which package imports which, held against the table in the contributor's guide."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from functools import cache
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parent.parent
CODE = ROOT / "formsheet"
GUIDE = ROOT / "DEVELOPERS.md"

_TABLE = re.compile(r"<!-- imports -->(.*?)<!-- /imports -->", re.DOTALL)
_NAME = re.compile(r"`([\w.]+)`")


def modules() -> dict[str, Path]:
    """Every module by its dotted name."""
    named = {}
    for path in sorted(CODE.rglob("*.py")):
        parts = path.relative_to(ROOT).with_suffix("").parts
        named[".".join(parts[:-1] if parts[-1] == "__init__" else parts)] = path
    return named


def package(name: str) -> str:
    """The package, or the module beside the packages, that a dotted name lies in."""
    return ".".join(name.split(".")[:2])


PACKAGES = {package(name) for name in modules()}


@cache
def imported(path: Path) -> tuple[str, ...]:
    """The dotted names that a file imports, anywhere in it."""
    return tuple(_imported(path))


def _imported(path: Path) -> Iterator[str]:
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            above = path.relative_to(ROOT).parts[: -node.level] if node.level else ()
            whole = ".".join([*above, *([node.module] if node.module else [])])
            for alias in node.names:
                inner = f"{whole}.{alias.name}"
                yield inner if package(inner) in PACKAGES else whole


def imports_of_ours() -> set[tuple[str, str]]:
    """Pairs of packages: the one imports the other."""
    return {
        (package(name), package(target))
        for name, path in modules().items()
        for target in imported(path)
        if target.split(".")[0] == "formsheet" and package(target) != package(name)
    }


def allowed() -> dict[str, set[str]]:
    """The table: package -> the packages that it may import."""
    found = _TABLE.search(GUIDE.read_text(encoding="utf-8"))
    assert found, "the guide has no table of imports"
    rows = [row.strip().strip("|").split("|") for row in found[1].strip().splitlines()]
    return {_NAME.findall(row[0])[0]: set(_NAME.findall(row[1])) for row in rows if "`" in row[0]}


def test_imports_and_rows_were_seen() -> None:
    assert len(imports_of_ours()) > 10
    assert len(allowed()) > 5


def test_every_package_stands_in_the_table() -> None:
    assert PACKAGES - set(allowed()) == set()


def test_the_table_names_no_package_that_is_not_there() -> None:
    named = set(allowed()).union(*allowed().values())
    assert named - PACKAGES == set()


@pytest.mark.parametrize("name", sorted(PACKAGES))
def test_package_imports_what_the_table_says(name: str) -> None:
    targets = {target for importer, target in imports_of_ours() if importer == name}
    assert targets == allowed().get(name, set())


def test_a_row_imports_only_from_rows_above_it() -> None:
    """The stages run in one direction."""
    place = {name: at for at, name in enumerate(allowed())}
    pairs = imports_of_ours()
    assert not [(a, b) for a, b in pairs if place[a] <= place[b]]


@pytest.mark.parametrize(
    ("library", "homes"),
    [("lark", "formsheet.language"), ("weasyprint", "formsheet.sheet"),
     ("jinja2", "formsheet.sheet"), ("lameenc", "formsheet.sound"),
     ("numpy", "formsheet.hearing formsheet.sheet formsheet.sound"),
     ("soundfile", "formsheet.hearing"), ("mido", "formsheet.sound"),
     ("resvg_py", "formsheet.sheet")],
)  # fmt: skip
def test_library_is_imported_where_it_belongs(library: str, homes: str) -> None:
    users = {
        package(name)
        for name, path in modules().items()
        for target in imported(path)
        if target.split(".")[0] == library
    }
    assert users == set(homes.split())


@pytest.mark.parametrize("name", sorted(modules()))
def test_nothing_is_linked_by_the_identity_of_an_object(name: str) -> None:
    """A copy of a value is the same value: marks of a tune have numbers, licks have names."""
    nodes = ast.walk(ast.parse(modules()[name].read_text(encoding="utf-8")))
    assert not [
        node.lineno
        for node in nodes
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id == "id"
    ]
