"""The command line with a pack that costs nothing: for tests of the engine, not of the drawing.

`python -m tests.cheap build ...` is `formsheet build ...` with the parts below. Helper processes
import this module too, and so make the same parts.
"""

from __future__ import annotations

import sys
from collections.abc import Iterator
from typing import TYPE_CHECKING

from formsheet.engine.parts import PARTS, Made, Part
from formsheet.sheet.options import Options

if TYPE_CHECKING:  # as the real ones: names are asked for where nothing is to be made
    from formsheet.stages import Examined


def tune_file(each: Examined, options: Options) -> Iterator[Made]:
    """One file of every note."""
    assert each.tune
    notes = [f"{n.bar} {n.onset} {n.duration} {n.tab} {n.midi}" for n in each.tune.notes]
    head = f"{each.tune.lesson.facts.title} {each.tune.lesson.key.name} {options.page_size}"
    yield "tune.txt", "\n".join([head, *notes, ""]).encode()


def lick_files(each: Examined, options: Options) -> Iterator[Made]:
    """A file a lick, in a folder."""
    assert each.lesson
    for name, lick in each.lesson.licks.items():
        yield f"cards/{name}.txt", (f"{lick.title}\n" * 400).encode()


def clip_files(each: Examined, options: Options) -> Iterator[Made]:
    """As many files as a real pack has of sound."""
    for number in range(20):
        yield f"clips/clip-{number}.txt", b"x" * 100


CHEAP: dict[str, Part] = {"tune": tune_file, "licks": lick_files}


def use_cheap_parts() -> None:
    """Put the cheap parts in place of the real ones, for the rest of this process."""
    PARTS.clear()
    PARTS.update(CHEAP | {"clips": clip_files})


if __name__ in ("__main__", "__mp_main__"):
    use_cheap_parts()

if __name__ == "__main__":
    from formsheet.cli import main

    sys.exit(main())
