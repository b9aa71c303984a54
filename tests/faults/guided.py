"""Lessons through the whole check, led by coverage: what runs new code is altered further.

    pip install atheris
    python -m tests.faults.guided FOLDER --seconds 1200

Ends when the time is over or something fails; the input that failed is then left where it says.
FOLDER keeps the inputs that ran new code, and a second run goes on from there. `atheris` is not
among what the tests need, for it builds on few systems.
"""

from __future__ import annotations

import argparse
import random
import sys
from pathlib import Path

import atheris

from formsheet.problems import drawing, registry  # noqa: F401  coverage of messages leads nowhere

# What reads and judges a lesson tells where it went; the parser's library and the tests do not.
with atheris.instrument_imports(include=["formsheet"]):
    from formsheet.language import mistakes  # noqa: F401  imported late, where a file has any
    from tests.faults.altering import changed
    from tests.faults.seeds import WORDS, short_seeds
    from tests.faults.trying import Kind, tried

_LONGEST = 1500  # bytes
_OWN_CHANGES = 0.7  # share of the changes that know the language


def one(data: bytes) -> None:
    """Try one input; what it raises ends the run."""
    if reason := tried(Kind.LESSON, data.decode("utf-8", "replace")):
        raise AssertionError(reason)


def altered(data: bytes, most: int, seed: int) -> bytes:
    """An input with a change of ours, which knows the language, or with one that knows nothing."""
    chance = random.Random(seed)
    if chance.random() > _OWN_CHANGES:
        return bytes(atheris.Mutate(data, most))
    text = changed(data.decode("utf-8", "replace"), chance)
    return text.encode("utf-8", "replace")[:most]


def main() -> None:
    """Set the inputs to begin from, and go."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("folder", type=Path)
    parser.add_argument("--seconds", type=int, default=600)
    arguments = parser.parse_args()
    arguments.folder.mkdir(parents=True, exist_ok=True)
    for number, text in enumerate(short_seeds()):
        (arguments.folder / f"seed-{number}").write_text(text, encoding="utf-8")
    words = arguments.folder.with_suffix(".words")
    words.write_text("".join(f"{_quoted(word)}\n" for word in WORDS), encoding="utf-8")
    options = (
        f"-max_len={_LONGEST}",
        f"-max_total_time={arguments.seconds}",
        f"-dict={words}",
        "-timeout=3600",  # by the clock, which goes on while others work; ours is in `tried`
        "-print_final_stats=1",
    )
    atheris.Setup([sys.argv[0], str(arguments.folder), *options], one, custom_mutator=altered)
    atheris.Fuzz()


def _quoted(word: str) -> str:
    return '"' + "".join(f"\\x{byte:02x}" for byte in word.encode("utf-8")) + '"'


if __name__ == "__main__":
    main()
