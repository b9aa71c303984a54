"""What `chords` prints: `python -m tests.report.golden` writes it anew."""

from __future__ import annotations

import io
from contextlib import redirect_stdout
from pathlib import Path

from formsheet.cli import main

FOLDER = Path(__file__).parent / "charts"
GOLDEN = Path(__file__).parents[1] / "golden" / "chords"

#: Name of the file -> the words after the command.
CASES = {
    "second-position": (),
    "third-position-minor": ("--position", "3rd", "--form", "12-bar minor", "--overbends"),
    # An own form with a diminished and an augmented seventh, for a beginner.
    "diminished-seventh": (str(FOLDER / "diminished.lesson"),),
    # Plain triads under a tune with blue notes.
    "plain-triads": (str(FOLDER / "plain.lesson"),),
}


def printed(*words: str) -> str:
    """What the command prints."""
    out = io.StringIO()
    with redirect_stdout(out):
        assert main(["chords", *words]) == 0
    return out.getvalue()


def rewrite() -> None:
    """Write them anew. Read every change."""
    GOLDEN.mkdir(parents=True, exist_ok=True)
    for name, words in CASES.items():
        (GOLDEN / f"{name}.txt").write_text(printed(*words), encoding="utf-8")


if __name__ == "__main__":
    rewrite()
