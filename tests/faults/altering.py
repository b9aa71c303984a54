"""Texts altered by chance."""

from __future__ import annotations

import random
import re
from collections.abc import Callable

from tests.faults.seeds import KINDS, WORDS, lines, long_seeds, shelf_seeds, short_seeds

_LONG = 0.04  # share of the inputs that begin with a long lesson
_PUT_TOGETHER = 0.1  # share that is made of lines from everywhere
_MOST_CHANGES = 5
_MOST_ROWS = 8  # of a part
_SPACES = re.compile(r"(\s+)")


def altered_lesson(chance: random.Random) -> str:
    """A lesson with some random changes, or lines of many lessons put together."""
    if chance.random() < _PUT_TOGETHER:
        return "\n".join(chance.choice(lines()) for _ in range(chance.randint(1, 20)))
    return _altered(
        chance.choice(long_seeds() if chance.random() < _LONG else short_seeds()), chance
    )


def altered_part(chance: random.Random) -> str:
    """A few lines of a lesson with some random changes: for what reads them line by line."""
    rows = chance.choice(short_seeds()).split("\n")
    first = chance.randrange(len(rows))
    return _altered("\n".join(rows[first : first + chance.randint(1, _MOST_ROWS)]), chance)


def altered_shelf(chance: random.Random) -> str:
    """A shelf with some random changes."""
    return _altered(chance.choice(shelf_seeds()), chance)


def _altered(text: str, chance: random.Random) -> str:
    for _ in range(chance.randint(1, _MOST_CHANGES)):
        text = changed(text, chance)
    return text


def changed(text: str, chance: random.Random) -> str:
    """A text with one random change."""
    return chance.choice(CHANGES)(text, chance)


def _spot(text: str, chance: random.Random) -> int:
    return chance.randrange(len(text) + 1)


def _put_word(text: str, chance: random.Random) -> str:
    at, space = _spot(text, chance), chance.choice((" ", "", "\n"))
    return f"{text[:at]}{space}{chance.choice(WORDS)}{space}{text[at:]}"


def _swap_word(text: str, chance: random.Random) -> str:
    words = text.split(" ")
    words[chance.randrange(len(words))] = chance.choice(WORDS)
    return " ".join(words)


def _same_kind(text: str, chance: random.Random) -> str:
    """A word gives way to another of its kind: a note to a note, a number to a huge one."""
    words = _SPACES.split(text)
    at = chance.randrange(len(words))
    for pattern, others in KINDS:
        if re.fullmatch(pattern, words[at]):
            words[at] = chance.choice(others)
            break
    return "".join(words)


def _word_of_its_own(text: str, chance: random.Random) -> str:
    """A word gives way to another that stands in the same text: a name to a name of the file."""
    words = _SPACES.split(text)
    words[2 * chance.randrange((len(words) + 1) // 2)] = words[
        2 * chance.randrange((len(words) + 1) // 2)
    ]
    return "".join(words)


def _cut(text: str, chance: random.Random) -> str:
    at = _spot(text, chance)
    return text[:at] + text[at + chance.choice((1, 2, 5, 40)) :]


def _repeat(text: str, chance: random.Random) -> str:
    at = _spot(text, chance)
    again = text[at : at + chance.choice((1, 3, 30))] * chance.choice((2, 3, 50))
    return text[:at] + again + text[at:]


def _move_line(text: str, chance: random.Random) -> str:
    rows = text.split("\n")
    row = rows.pop(chance.randrange(len(rows)))
    rows.insert(chance.randrange(len(rows) + 1), row)
    return "\n".join(rows)


def _other_line(text: str, chance: random.Random) -> str:
    """A line of another lesson, beside a line of this one or in its place."""
    rows = text.split("\n")
    at = chance.randrange(len(rows))
    rows[at : at + chance.randrange(2)] = [chance.choice(lines())]
    return "\n".join(rows)


def _repeat_line(text: str, chance: random.Random) -> str:
    rows = text.split("\n")
    at = chance.randrange(len(rows))
    rows[at:at] = [rows[at]] * chance.choice((1, 1, 2, 20))
    return "\n".join(rows)


def _splice(text: str, chance: random.Random) -> str:
    other = chance.choice(short_seeds())
    return text[: _spot(text, chance)] + other[_spot(other, chance) :]


def _any_character(text: str, chance: random.Random) -> str:
    at = _spot(text, chance)
    code = chance.choice((chance.randrange(32, 127), chance.randrange(0xD800)))
    return text[:at] + chr(code) + text[at + 1 :]


CHANGES: tuple[Callable[[str, random.Random], str], ...] = (
    _put_word, _swap_word, _same_kind, _same_kind, _same_kind, _word_of_its_own, _word_of_its_own,
    _cut, _repeat, _move_line, _other_line, _repeat_line, _splice, _any_character,
)  # fmt: skip
