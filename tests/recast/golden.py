"""What `recast` prints of demo licks: `python -m tests.recast.golden` writes it anew."""

from __future__ import annotations

import io
from contextlib import redirect_stderr, redirect_stdout
from pathlib import Path

from formsheet.cli import main
from tests.lessons import LESSONS

GOLDEN = Path(__file__).parents[1] / "golden" / "recast"

#: Name of the file -> lesson or shelf, and the words after it.
CASES = {
    "porch": ("back-step-shuffle.lesson", "porch", "--on", "IV", "--on", "V | IV"),
    "chug": ("back-step-shuffle.lesson", "chug", "--on", "V", "--all"),
    "flood": ("slow-barge.lesson", "flood", "--on", "iv"),
    "hoist": ("gantry-crane.lesson", "hoist-one", "--on", "ii7"),
    "home": ("shelf/turnarounds.licks", "home", "--on", "IV | I"),
    "draft-porch": ("back-step-shuffle.lesson", "porch", "--draft", "--turnaround", "home"),
    "draft-stroll": ("two-lamps-on-mill-lane.lesson", "stroll", "--draft"),
    "draft-bell": ("last-tram-but-one.lesson", "bell", "--draft", "--title", "Depot Bell"),
    "draft-water": ("mill-in-winter.lesson", "water", "--draft"),
}


def printed(file: str, *words: str) -> str:
    """What the command prints."""
    out = io.StringIO()
    with redirect_stdout(out), redirect_stderr(io.StringIO()):
        main(["recast", str(LESSONS / file), *words])
    return out.getvalue().replace(str(LESSONS), "lessons")


def rewrite() -> None:
    """Write them anew. Read every change."""
    GOLDEN.mkdir(parents=True, exist_ok=True)
    for name, words in CASES.items():
        (GOLDEN / f"{name}.txt").write_text(printed(*words), encoding="utf-8")


if __name__ == "__main__":
    rewrite()
