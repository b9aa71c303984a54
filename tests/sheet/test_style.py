from __future__ import annotations

import ctypes.util
import os
import subprocess
import sys
from pathlib import Path

_HELPER = """
from multiprocessing import get_context
from formsheet.sheet.style import shared_style
if __name__ == "__main__":
    helper = get_context("fork").Process(target=shared_style, args=("formsheet:/",))
    helper.start()
    helper.join()
    raise SystemExit(helper.exitcode)
"""


def test_a_helper_leaves_no_faces_behind(tmp_path: Path) -> None:
    plain = os.environ | {"TMPDIR": str(tmp_path)}
    subprocess.run([sys.executable, "-c", _HELPER], env=plain, check=True, timeout=60)
    assert list(tmp_path.iterdir()) == []


def test_libraries_can_be_searched_for_again() -> None:
    search = ctypes.util.find_library
    import formsheet.sheet.setter  # noqa: F401  loaded, whoever asks first

    assert ctypes.util.find_library is search
    assert search.__module__ == "ctypes.util"
