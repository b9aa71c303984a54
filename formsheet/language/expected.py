"""What the grammar's terminals are called in a message. A test holds it against the grammar."""

from __future__ import annotations

from collections.abc import Iterable

from formsheet.vocabulary.lines import KEYWORD_TERMINALS

#: Terminal -> words for it. Keywords name themselves.
TERMINAL_WORDS: dict[str, str] = {
    **KEYWORD_TERMINALS,
    "VALUE": "a note value, such as `q` or `e3`",
    "NOTE": "a note, such as `4d` or `2d'`",
    "REST": "`-` for a rest",
    "HOLD": "`=` to hold the note",
    "PLACE": "`x`",
    "BAR": "`|`",
    "OPEN": "`[`",
    "CLOSE": "`]x2`",
    "BANG": "`!`",
    "TECHNIQUE": "a technique in braces, such as `{wah}`",
    "STRAY": "music",
    "CHORD": "a chord, such as `I`, `IV7` or `ii7`",
    "COUNT": "a count, such as `x4`",
    "RANGE": "bar numbers, such as `9` or `1-4`",
    "NAME": "a name",
    "WORD": "a word",
    "STRING": "words in quotes",
    "COMMA": "`,`",
    "TEXT": "some text",
    "_NL": "the end of the line",
    "$END": "the end of the line",
}

#: Terminals that only separate others.
SEPARATORS = frozenset({"COMMENT", "BLANK"})

_MUSIC = frozenset({"VALUE", "NOTE", "REST", "HOLD", "PLACE", "OPEN", "CLOSE", "SWING", "STRAIGHT",
                    "STRAY"})  # fmt: skip


def expected_words(terminals: Iterable[str]) -> list[str]:
    """Words for what could have stood at a place, each once, music marks put together."""
    names = set(terminals) - SEPARATORS
    if names >= _MUSIC:
        names = names - _MUSIC | {"STRAY"}
    return list(dict.fromkeys(TERMINAL_WORDS[name] for name in TERMINAL_WORDS if name in names))
