"""Builds killed at random moments, then one that is let finish: nothing is lost or left half.

`python -m tests.faults.killed [KILLS] [SEED]` says how it went; the suite does a few.
"""

from __future__ import annotations

import random
import shutil
import signal
import subprocess
import sys
import tempfile
import time
from dataclasses import dataclass
from pathlib import Path

from tests.engine.conftest import files_below
from tests.lessons import LESSONS

_CALL = (sys.executable, "-m", "tests.cheap", "build")
_ROOT = Path(__file__).parents[2]


@dataclass(frozen=True)
class Outcome:
    """What became of it."""

    kills: int  # that met a build at work
    took_s: float  # of an undisturbed build
    torn: int  # files seen after a kill that were neither as before nor as after
    same: bool  # in the end
    strays: tuple[str, ...]  # files of ours that lie about in the end


def lessons_in(folder: Path, count: int, edition: str) -> None:
    """Demo lessons under many names; in another edition each name has another tune."""
    shutil.copytree(LESSONS / "shelf", folder / "shelf", dirs_exist_ok=True)
    sources = sorted(LESSONS.glob("*.lesson"))
    for number in range(count):
        text = sources[(number + len(edition)) % len(sources)].read_text(encoding="utf-8")
        named = text.replace("title", f"title No {number}", 1)
        (folder / f"lesson {number}.lesson").write_text(named, encoding="utf-8")


def start(lessons: Path, out: Path) -> subprocess.Popen[bytes]:
    """A build in a process of its own."""
    return subprocess.Popen(
        [*_CALL, str(lessons), "--out", str(out), "--jobs", "2"],
        cwd=_ROOT, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL,
    )  # fmt: skip


def finish(lessons: Path, out: Path) -> float:
    """A build that is let finish; gives its seconds."""
    began = time.monotonic()
    assert start(lessons, out).wait(timeout=300) == 0
    return time.monotonic() - began


def killed_builds(kills: int, seed: int, count: int = 12) -> Outcome:
    """Kill a build `kills` times, the lessons changing from time to time."""
    chance = random.Random(seed)
    with tempfile.TemporaryDirectory() as name:
        top = Path(name)
        lessons, out = top / "lessons", top / "out"
        editions: dict[str, dict[str, bytes]] = {}
        took = 0.0
        for edition in ("one", "other"):
            lessons_in(lessons, count, edition)
            took = finish(lessons, top / edition)
            editions[edition] = files_below(top / edition)
        torn = met = 0
        for number in range(kills):
            if number % 4 == 0:
                lessons_in(lessons, count, ("one", "other")[number // 4 % 2])
            if number % 10 == 9:
                shutil.rmtree(out, ignore_errors=True)
            process = start(lessons, out)
            time.sleep(chance.uniform(0.05, took * 1.1))
            met += process.poll() is None
            process.send_signal(signal.SIGKILL)
            process.wait()
            torn += _torn(files_below(out), editions)
        lessons_in(lessons, count, "one")
        time.sleep(0.2)  # the helpers of the last one end
        finish(lessons, out)
        left = [p for p in out.rglob("*") if p.name.endswith(".part")]
        return Outcome(met, took, torn, files_below(out) == editions["one"],
                       tuple(str(p.relative_to(out)) for p in left))  # fmt: skip


def _torn(found: dict[str, bytes], editions: dict[str, dict[str, bytes]]) -> int:
    return sum(
        data not in (files.get(n) for files in editions.values()) for n, data in found.items()
    )


if __name__ == "__main__":
    arguments = [int(word) for word in sys.argv[1:]]
    print(killed_builds(*(arguments + [100, 1][len(arguments) :])))
