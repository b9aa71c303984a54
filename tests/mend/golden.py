"""Writes anew what `tidy --mend` makes of the pasted lesson: `python -m tests.mend.golden`."""

from __future__ import annotations

from contextlib import chdir, redirect_stdout
from io import StringIO
from pathlib import Path
from shutil import copy
from tempfile import TemporaryDirectory

from formsheet.cli import main

HERE = Path(__file__).parent
#: A lesson as a word processor leaves it: capitals at the beginnings of lines, quotes, primes and
#: dashes of its own, hard spaces, a byte order mark, the line ends of another system.
PASTE = HERE / "paste.lesson"
SAID, MENDED = HERE / "paste.txt", HERE / "paste.mended"


def mended_paste() -> tuple[str, bytes]:
    """What is printed, and the file as it is then."""
    with TemporaryDirectory() as folder, chdir(folder), redirect_stdout(StringIO()) as out:
        copy(PASTE, folder)
        main(["tidy", "--mend", PASTE.name])
        return out.getvalue(), Path(PASTE.name).read_bytes()


if __name__ == "__main__":
    said, data = mended_paste()
    SAID.write_text(said, encoding="utf-8")
    MENDED.write_bytes(data)
