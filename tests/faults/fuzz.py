"""Lessons altered at random, through the whole check: no exception, and none takes long.

    python -m tests.faults.fuzz --count 100000 --seed 1     # random changes, on all cores
    python -m tests.faults.fuzz --guided FOLDER             # led by coverage, with atheris

An input that fails is written into the folder given with `--keep`.
"""

from __future__ import annotations

import argparse
import random
import sys
import time
import traceback
from collections.abc import Callable, Iterator
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass
from pathlib import Path

from formsheet.lesson.shelves import Shelves
from formsheet.problems.drawing import as_data, drawn
from formsheet.report.data import check_data
from formsheet.report.table import check_table, heading
from formsheet.source import Source
from formsheet.stages import examine
from tests.lessons import LESSONS

LONGEST_S = 1.0  # of processor time for one input
_BATCH = 500

SEEDS = [path.read_text(encoding="utf-8") for path in sorted(LESSONS.glob("*.lesson"))]
#: Words and signs of the language, and what is near to them.
_WORDS = """
    w h q e s q. e3 q.. - = | [ ] ]x3 ]x0 ]x99 x x2 x64 x65 ! { } {wah} " ' # , in on as from
    1d 4d' 3d\'\'\' 10b 6ob 7od 123d 14b 1234567d 11d 0b 4d"ka" 4d{shake}! I IV V i7 bVI7 I7 IV7
    lick turnaround rhythm play every bars bar last time use title harp form tempo feel say tip
    pickup swing straight rest tuning blow draw meter position count-in level learn ending
    1-12 9 0 13 999 C Bb low 12/8 3/4 2nd 60% 3:2 natural minor 8-bar 12-bar standard
"""
_CHARACTERS = "\0\r\t\u2019\u201c\u266d\ufeff\u0301\U0001f3b5\u202e"
WORDS = [*_WORDS.split(), *_CHARACTERS]


@dataclass(frozen=True)
class Failure:
    """An input that raised, or that took too long."""

    text: str
    reason: str


def checked(text: str) -> str | None:
    """Why a text fails the whole check; None where it does not."""
    began = time.process_time()
    try:
        each = examine(Source("fuzzed.lesson", text, LESSONS / "fuzzed.lesson"), Shelves(LESSONS))
        for problem in each.problems:
            drawn(problem), as_data(problem)
        check_data(each)
        if each.lesson and each.tune:
            heading(each.lesson), check_table(each, 80)
    except Exception:
        return traceback.format_exc()
    took = time.process_time() - began
    return f"took {took:.1f} s" if took > LONGEST_S else None


def altered(chance: random.Random) -> str:
    """A demo lesson with one to six random changes."""
    text = chance.choice(SEEDS)
    for _ in range(chance.randint(1, 6)):
        text = chance.choice(CHANGES)(text, chance)
    return text


def _spot(text: str, chance: random.Random) -> int:
    return chance.randrange(len(text) + 1)


def _put_word(text: str, chance: random.Random) -> str:
    at, space = _spot(text, chance), chance.choice((" ", "", "\n"))
    return f"{text[:at]}{space}{chance.choice(WORDS)}{space}{text[at:]}"


def _swap_word(text: str, chance: random.Random) -> str:
    words = text.split(" ")
    words[chance.randrange(len(words))] = chance.choice(WORDS)
    return " ".join(words)


def _cut(text: str, chance: random.Random) -> str:
    at = _spot(text, chance)
    return text[:at] + text[at + chance.choice((1, 2, 5, 40)) :]


def _repeat(text: str, chance: random.Random) -> str:
    at = _spot(text, chance)
    return (
        text[:at]
        + text[at : at + chance.choice((1, 3, 30))] * chance.choice((2, 3, 50))
        + text[at:]
    )


def _move_line(text: str, chance: random.Random) -> str:
    lines = text.split("\n")
    line = lines.pop(chance.randrange(len(lines)))
    lines.insert(_spot("x" * len(lines), chance), line)
    return "\n".join(lines)


def _splice(text: str, chance: random.Random) -> str:
    other = chance.choice(SEEDS)
    return text[: _spot(text, chance)] + other[_spot(other, chance) :]


def _any_character(text: str, chance: random.Random) -> str:
    at = _spot(text, chance)
    code = chance.choice((chance.randrange(32, 127), chance.randrange(0xD800)))
    return text[:at] + chr(code) + text[at + 1 :]


CHANGES: tuple[Callable[[str, random.Random], str], ...] = (
    _put_word, _swap_word, _swap_word, _cut, _repeat, _move_line, _splice, _any_character,
)  # fmt: skip


def batch(seed: int, count: int) -> list[Failure]:
    """Failures among inputs that follow from a seed."""
    chance = random.Random(seed)
    texts = (altered(chance) for _ in range(count))
    return [Failure(text, reason) for text in texts if (reason := checked(text))]


def failures(seed: int, count: int) -> Iterator[Failure]:
    """Failures among `count` inputs, worked on by all cores."""
    sizes = [_BATCH] * (count // _BATCH) + ([count % _BATCH] if count % _BATCH else [])
    with ProcessPoolExecutor() as pool:
        for found in pool.map(batch, range(seed * 1_000_000, seed * 1_000_000 + len(sizes)), sizes):
            yield from found


def guided(folder: Path) -> None:
    """Let coverage lead: runs until it is stopped or something fails."""
    import atheris  # not among what the tests need: it builds on few systems

    folder.mkdir(parents=True, exist_ok=True)
    for number, text in enumerate(SEEDS):
        (folder / f"seed-{number}").write_text(text, encoding="utf-8")
    atheris.instrument_all()

    def one(data: bytes) -> None:
        if reason := checked(data.decode("utf-8", "replace")):
            raise AssertionError(reason)

    atheris.Setup([sys.argv[0], str(folder), "-max_len=4000", "-timeout=10"], one)
    atheris.Fuzz()


def main() -> int:
    """Say how many failed, and how."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--count", type=int, default=10_000)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--keep", type=Path)
    parser.add_argument("--guided", type=Path, metavar="FOLDER")
    arguments = parser.parse_args()
    if arguments.guided:
        guided(arguments.guided)
    kinds: dict[str, int] = {}
    for number, failure in enumerate(failures(arguments.seed, arguments.count)):
        kind = failure.reason.strip().splitlines()[-1]
        kinds[kind] = kinds.get(kind, 0) + 1
        if arguments.keep:
            arguments.keep.mkdir(parents=True, exist_ok=True)
            (arguments.keep / f"{number}.lesson").write_text(failure.text, encoding="utf-8")
            (arguments.keep / f"{number}.txt").write_text(failure.reason, encoding="utf-8")
    print(f"{arguments.count} inputs, {sum(kinds.values())} failed")
    for kind, count in sorted(kinds.items(), key=lambda pair: -pair[1]):
        print(f"{count:6}  {kind}")
    return bool(kinds)


if __name__ == "__main__":
    sys.exit(main())
