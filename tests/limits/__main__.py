"""`python -m tests.limits`: does a test fail when a limit is moved by one step?

Each number of `found.py` is moved one step up and one step down, and the tests that are named for
its constant (`named.py`) are run each time. A step that all of them pass is a survivor; so is every
step of a limit that no test is named for. Exit code 1 if a survivor has no reason in
`exceptions.py`, or if a mark or an exception is out of date.
"""

from __future__ import annotations

import argparse
import os
import sys
import tempfile
import time
from collections.abc import Sequence
from importlib import import_module

from tests.limits.exceptions import NOT_LIMITS, SURVIVORS
from tests.limits.found import limits
from tests.limits.moving import Move, outcomes
from tests.limits.named import named_tests, slips

#: Imported once, before the processes are forked.
_LIBRARIES = ("hypothesis", "lark", "playwright.sync_api", "pytest")
_PASSED = 0
_NO_TESTS_RUN = (3, 4, 5)  # an error of pytest's own, of its command line, nothing collected


def main() -> int:
    """Sweep, print what survived, say whether all of it has a reason."""
    parser = argparse.ArgumentParser(prog="python -m tests.limits", description=__doc__)
    parser.add_argument("only", nargs="*", help="names of limits, or how they begin (default: all)")
    only = tuple(parser.parse_args().only)
    began = time.monotonic()
    found = limits()
    swept = [
        limit
        for limit in found
        if limit.name not in NOT_LIMITS and (not only or limit.name.startswith(only))
    ]
    tests = named_tests()
    wrong = slips(found, tests)
    moves = [
        Move(limit, written, tuple(tests[limit.name]))
        for limit in swept
        if limit.name in tests
        for written in limit.steps
    ]
    survivors = _survivors(moves, wrong)
    if survivors is None:
        print("the tests fail with nothing moved: run `sh tests/run` first")
        return 1
    wrong += [f"survived: {move}" for move in survivors if str(move) not in SURVIVORS]
    out_of_date = {*SURVIVORS} - {*map(str, survivors)}
    wrong += [f"no survivor: {each}, in SURVIVORS" for each in out_of_date if not only]
    print(*sorted(wrong), sep="\n", end="\n" if wrong else "")
    print(
        f"{len(swept)} numbers, {len(moves)} steps: {len(moves) - len(survivors)} seen by a test, "
        f"{len(survivors)} not ({time.monotonic() - began:.0f} s)"
    )
    return 1 if wrong else 0


def _survivors(moves: Sequence[Move], wrong: list[str]) -> list[Move] | None:
    """The moves that all their tests pass; None if tests fail with nothing moved.

    Adds to `wrong` where tests cannot be run.
    """
    for library in _LIBRARIES:
        import_module(library)
    cores = len(os.sched_getaffinity(0))
    with tempfile.TemporaryDirectory() as aside:
        os.environ["HYPOTHESIS_STORAGE_DIRECTORY"] = aside
        os.environ["PYTHONDONTWRITEBYTECODE"] = "1"
        unmoved = sorted({test for move in moves for test in move.tests})
        if any(code != _PASSED for _, code in outcomes([unmoved], cores)):
            return None
        found = []
        for index, code in outcomes(moves, cores):
            if code in _NO_TESTS_RUN:
                wrong.append(f"no test could be run: {moves[index]}")
            elif code == _PASSED:
                found.append(moves[index])
    return found


if __name__ == "__main__":
    sys.exit(main())
