"""Tests run with one number moved: in a process of its own, which imports the module so changed.

No file is altered. The module is compiled from its source with the other number in it. The
process is forked from one that has the test libraries imported but nothing of `formsheet`.
"""

from __future__ import annotations

import importlib.machinery
import importlib.util
import os
import resource
import sys
import traceback
import types
from collections.abc import Iterator, Sequence
from importlib.abc import MetaPathFinder
from typing import NamedTuple

import pytest

from tests.limits.found import ROOT, Limit

#: Seconds of processor time of a run with a number moved; one that takes longer has failed.
LONGEST_S = 60
_OPTIONS = ("-x", "--tb=no", "--assert=plain", "-p", "no:cacheprovider", "-p", "no:xdist")


class Move(NamedTuple):
    """One number moved, and the tests that should see it."""

    limit: Limit
    written: str  # the other number
    tests: tuple[str, ...]

    def __str__(self) -> str:
        return f"{self.limit.name}: {self.limit.written} -> {self.written}"


class _Changed(importlib.machinery.SourceFileLoader):
    """Loads a module from another source than its file's."""

    def __init__(self, move: Move) -> None:
        super().__init__(move.limit.module, str(move.limit.path))
        self._source = move.limit.source(move.written)

    def get_code(self, fullname: str) -> types.CodeType:
        return compile(self._source, self.path, "exec", dont_inherit=True)


class _Finder(MetaPathFinder):
    def __init__(self, move: Move) -> None:
        self._move = move

    def find_spec(
        self, fullname: str, path: object, target: object = None
    ) -> importlib.machinery.ModuleSpec | None:
        if fullname != self._move.limit.module:
            return None
        loader = _Changed(self._move)
        return importlib.util.spec_from_file_location(fullname, loader.path, loader=loader)


def outcomes(runs: Sequence[Move | Sequence[str]], at_once: int) -> Iterator[tuple[int, int]]:
    """Index of each run and its exit code, pytest's own, as they end; negative for a signal.

    A run is a move, or the names of tests that are run with nothing moved.
    """
    assert "formsheet" not in sys.modules
    started: dict[int, int] = {}
    left = iter(enumerate(runs))
    for index, run in left:
        started[_start(run)] = index
        if len(started) >= at_once:
            yield _ended(started)
    while started:
        yield _ended(started)


def _ended(started: dict[int, int]) -> tuple[int, int]:
    process, status = os.wait()
    return started.pop(process), os.waitstatus_to_exitcode(status)


def _start(run: Move | Sequence[str]) -> int:
    process = os.fork()
    if process:
        return process
    code = 3  # pytest's for an error of its own
    try:
        code = _child(run)
    except BaseException:
        traceback.print_exc(file=sys.__stderr__)
    finally:
        sys.stderr.flush()
        os._exit(code)


def _child(run: Move | Sequence[str]) -> int:
    nowhere = os.open(os.devnull, os.O_WRONLY)
    for stream in (1, 2):
        os.dup2(nowhere, stream)
    tests = run
    if isinstance(run, Move):
        resource.setrlimit(resource.RLIMIT_CPU, (LONGEST_S, LONGEST_S))
        sys.meta_path.insert(0, _Finder(run))
        tests = run.tests
    os.chdir(ROOT)
    return int(pytest.main([*_OPTIONS, *map(str, tests)]))
