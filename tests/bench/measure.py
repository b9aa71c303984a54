"""Processes measured: wall time, processor time, and the memory of all that they start."""

from __future__ import annotations

import os
import subprocess
import sys
import tempfile
import time
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

ROOT = Path(__file__).parents[2]
PYTHON = sys.executable
_POLL_S = 0.02


@dataclass(frozen=True)
class Run:
    """One process: seconds by the clock, seconds of the processor, peak memory in MB."""

    wall: float
    cpu: float
    memory: float = 0.0


@dataclass(frozen=True)
class Row:
    """A line of the table. `most` is the target: the ratio may not be above it."""

    what: str
    ours: str
    against: str
    ratio: float | None
    most: float | None = None
    note: str = ""

    @property
    def verdict(self) -> str:
        if self.ratio is None or self.most is None:
            return ""
        return "met" if self.ratio <= self.most else "short"


def environment() -> dict[str, str]:
    """As a user's: with compiled modules, kept out of the checkout."""
    compiled = os.path.join(tempfile.gettempdir(), "formsheet-bench-compiled")
    plain = {k: v for k, v in os.environ.items() if k != "PYTHONDONTWRITEBYTECODE"}
    return plain | {"PYTHONPATH": str(ROOT), "PYTHONPYCACHEPREFIX": compiled}


def run(command: Sequence[str], *, memory: bool = False, one_core: bool = False) -> Run:
    """Run a process to its end; `memory`: watch it and all that it starts.

    Processor time is that of the process alone: `one_core` keeps it from starting helpers.
    """
    began = time.perf_counter()
    process = subprocess.Popen(
        command, cwd=ROOT, env=environment(), stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL,
        preexec_fn=_keep_to_one_core if one_core else None,
    )  # fmt: skip
    peak = 0.0
    while memory:
        done, _, used = os.wait4(process.pid, os.WNOHANG)
        if done:
            break
        peak = max(peak, sum(map(_memory, _family(process.pid))))
        time.sleep(_POLL_S)
    else:
        _, _, used = os.wait4(process.pid, 0)
    process.returncode = 0
    return Run(time.perf_counter() - began, used.ru_utime + used.ru_stime, peak)


def _keep_to_one_core() -> None:
    os.sched_setaffinity(0, {min(os.sched_getaffinity(0))})


def best_of(count: int, *commands: Sequence[str], memory: bool = False) -> list[Run]:
    """The quickest of some runs of each command, taken in turn so that all meet the same noise."""
    runs = [[run(command, memory=memory) for command in commands] for _ in range(count)]
    return [
        Run(min(r.wall for r in each), min(r.cpu for r in each), min(r.memory for r in each))
        for each in zip(*runs, strict=True)
    ]


def _family(pid: int) -> list[int]:
    """A process and all below it."""
    found, waiting = [], [pid]
    while waiting:
        each = waiting.pop()
        found.append(each)
        try:
            for task in os.listdir(f"/proc/{each}/task"):
                children = Path(f"/proc/{each}/task/{task}/children").read_text()
                waiting += map(int, children.split())
        except OSError:
            continue  # it has ended
    return found


def _memory(pid: int) -> float:
    """The memory of a process in MB, what it shares divided among those that share it."""
    try:
        text = Path(f"/proc/{pid}/smaps_rollup").read_text()
    except OSError:
        return 0.0
    kilobytes = [line.split()[1] for line in text.splitlines() if line.startswith("Pss:")]
    return int(kilobytes[0]) / 1024 if kilobytes else 0.0
