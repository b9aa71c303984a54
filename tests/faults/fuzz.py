"""Lessons altered at random, through the whole check: no exception, and none takes long.

    python -m tests.faults.fuzz --count 100000 --seed 1     # random changes, on all cores
    python -m tests.faults.guided FOLDER                    # led by coverage, with atheris

An input that fails is written into the folder given with `--keep`.
"""

from __future__ import annotations

import argparse
import gc
import os
import random
import sys
from collections import Counter
from collections.abc import Iterator
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass
from pathlib import Path

from tests.faults.altering import altered_lesson, altered_part, altered_shelf
from tests.faults.trying import Kind, tried

_BATCH = 1000
_SHARES = {Kind.TEXT: 0.4, Kind.TIDY: 0.1, Kind.LESSON: 0.45, Kind.SHELF: 0.05}
_MAKERS = {
    Kind.TEXT: altered_part,
    Kind.TIDY: altered_part,
    Kind.LESSON: altered_lesson,
    Kind.SHELF: altered_shelf,
}


@dataclass(frozen=True)
class Failure:
    """An input that raised, or that took too long."""

    kind: Kind
    text: str
    reason: str


def inputs(seed: int, count: int) -> Iterator[tuple[Kind, str]]:
    """Inputs that follow from a seed."""
    chance = random.Random(seed)
    for kind in chance.choices(list(_SHARES), list(_SHARES.values()), k=count):
        yield kind, _MAKERS[kind](chance)


def batch(seed: int, count: int) -> tuple[list[Failure], Counter[Kind]]:
    """Failures among inputs that follow from a seed, and how many of each kind there were."""
    gc.freeze()  # what is loaded stays; going over it again and again takes time
    found, tries = [], Counter[Kind]()
    for kind, text in inputs(seed, count):
        tries[kind] += 1
        if reason := tried(kind, text):
            found.append(Failure(kind, text, reason))
    return found, tries


def batches(seed: int, count: int, processes: int) -> Iterator[tuple[list[Failure], Counter[Kind]]]:
    """The batches of `count` inputs, worked on by some processes."""
    sizes = [_BATCH] * (count // _BATCH) + ([count % _BATCH] if count % _BATCH else [])
    seeds = range(seed * 1_000_000, seed * 1_000_000 + len(sizes))
    if processes == 1:
        yield from map(batch, seeds, sizes)
        return
    with ProcessPoolExecutor(processes) as pool:
        yield from pool.map(batch, seeds, sizes)


def main() -> int:
    """Say how many failed, and how."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--count", type=int, default=10_000)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--processes", type=int, default=os.cpu_count() or 1)
    parser.add_argument("--keep", type=Path)
    arguments = parser.parse_args()
    reasons, tries, number = Counter[str](), Counter[Kind](), 0
    for failures, tried_now in batches(arguments.seed, arguments.count, arguments.processes):
        tries += tried_now
        print(f"\r{tries.total()}", end="", file=sys.stderr, flush=True)
        for failure in failures:
            reasons[failure.reason.strip().splitlines()[-1]] += 1
            if arguments.keep:
                _keep(arguments.keep, failure, number)
            number += 1
    print(file=sys.stderr)
    each = ", ".join(f"{tries[kind]} as {kind.value}" for kind in Kind)
    print(f"{tries.total()} inputs ({each}), {number} failed")
    for reason, count in reasons.most_common():
        print(f"{count:6}  {reason}")
    return bool(reasons)


def _keep(folder: Path, failure: Failure, number: int) -> None:
    folder.mkdir(parents=True, exist_ok=True)
    name = f"{number}-{failure.kind.value}"
    (folder / f"{name}.lesson").write_text(failure.text, encoding="utf-8")
    (folder / f"{name}.txt").write_text(failure.reason, encoding="utf-8")


if __name__ == "__main__":
    sys.exit(main())
