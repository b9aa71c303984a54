"""Writes the expected outputs anew: `python -m tests.language.slips`."""

from tests.language.slips import FOLDER, NAMES, output_of

for name in NAMES:
    (FOLDER / f"{name}.txt").write_text(output_of(name), encoding="utf-8")
