"""The same lesson gives the same bytes in any process, however Python hashes in it."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

from tests.engine.conftest import files_below

ROOT = Path(__file__).resolve().parents[2]
LESSON = "two-lamps-on-mill-lane"


def written(folder: Path, seed: int) -> dict[str, bytes]:
    """What a process with this seed of its hashes makes of the lesson."""
    subprocess.run(
        [sys.executable, "-m", "tests.sheet.written", LESSON, folder],
        cwd=ROOT, env=os.environ | {"PYTHONHASHSEED": str(seed)}, check=True,
    )  # fmt: skip
    return files_below(folder)


def test_every_file_is_the_same_whatever_the_hash_seed(tmp_path: Path) -> None:
    one, two = (written(tmp_path / str(seed), seed) for seed in (1, 2))
    assert {"sheet.pdf", "page.html", "tab.txt", "lesson.json", "tune.musicxml"} < set(one)
    assert {Path(name).suffix for name in one} >= {".svg", ".png", ".mid"}
    assert list(one) == list(two)
    assert [name for name in one if one[name] != two[name]] == []
