"""The system's libraries that set a page: which they are, and that a new one makes PDFs stale."""

from __future__ import annotations

import subprocess
import sys
import time
from pathlib import Path

import pytest

from formsheet.engine.setters import setter_files
from formsheet.engine.stamps import digest
from tests.engine.conftest import A_WHILE, Desk

_LOADED = """
from formsheet.sheet.setter import HTML
HTML(string="<p>A</p>").write_pdf()
print(*{line.split()[-1] for line in open("/proc/self/maps") if ".so" in line}, sep="\\n")
"""


@pytest.mark.skipif(sys.platform != "linux", reason="asks the system what is loaded")
def test_they_are_those_that_are_loaded() -> None:
    """The loader is asked in a process of its own: what it took for a page."""
    done = subprocess.run([sys.executable, "-c", _LOADED], capture_output=True, text=True)
    parts = ("libpango", "libharfbuzz", "libfribidi", "libfreetype", "libfontconfig")
    loaded = {path for path in done.stdout.split() if Path(path).name.startswith(parts)}
    assert len(loaded) >= len(parts)
    seen = {str(Path(path).resolve()) for path in setter_files()}
    assert {str(Path(path).resolve()) for path in loaded} <= seen


@pytest.mark.skipif(sys.platform != "linux", reason="the place is named as on Linux")
def test_a_new_one_makes_handouts_stale(
    desk: Desk, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    library = tmp_path / "lib" / "libharfbuzz.so.0"
    library.parent.mkdir()
    library.write_bytes(b"one")
    monkeypatch.setenv("LD_LIBRARY_PATH", str(library.parent))
    desk.lesson("a.lesson")
    time.sleep(A_WHILE)
    desk.build()
    assert desk.stale == []
    library.write_bytes(b"one")  # put there anew, the same
    assert desk.stale == []
    library.write_bytes(b"two")
    assert desk.stale == ["a"]
    library.write_bytes(b"one")
    assert desk.stale == []
    library.unlink()
    assert desk.stale == ["a"]


def test_one_that_is_not_there_is_nothing(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("LD_LIBRARY_PATH", "/no/such/place::")
    assert [digest(path) for path in setter_files() if path.startswith("/no/")] == [None] * 7
    assert all(path.startswith("/") for path in setter_files())
