"""The words for what could stand at a place, held against the grammar."""

from __future__ import annotations

import re

import pytest

from formsheet.language.expected import SEPARATORS, TERMINAL_WORDS, expected_words
from formsheet.resources import resource

_DEFINED = re.compile(r"^(_?[A-Z][A-Z_]*)(?:\.\d+)?:", re.MULTILINE)
_END_OF_FILE = "$END"  # the parser's own


def grammar() -> str:
    return resource("grammar", "lesson.lark").read_text(encoding="utf-8")


def terminals() -> set[str]:
    """The terminals of the grammar, without those that only stand inside another."""
    defined = {name for name in _DEFINED.findall(grammar()) if not name.endswith("EDGE")}
    assert len(defined) > 40, "the grammar was not read"
    return defined


def test_every_terminal_has_words() -> None:
    assert terminals() - SEPARATORS - set(TERMINAL_WORDS) == set()


def test_no_words_for_what_is_not_in_the_grammar() -> None:
    assert set(TERMINAL_WORDS) - {_END_OF_FILE} - terminals() == set()


def test_separators_are_in_the_grammar() -> None:
    assert terminals() >= SEPARATORS


def test_every_edge_only_stands_inside_a_terminal() -> None:
    edges = {name for name in _DEFINED.findall(grammar()) if name.endswith("EDGE")}
    rules = re.sub(r"//.*", "", grammar()).partition("TEXT_FACT.3")[0]
    assert edges
    assert not [edge for edge in edges if edge in rules]


@pytest.mark.parametrize("name", sorted(set(TERMINAL_WORDS) - {"_NL", "$END"}))
def test_keyword_names_itself(name: str) -> None:
    """A keyword's words hold the keyword as the grammar spells it."""
    found = re.search(rf'^{name}\.3:\s+"([a-z-]+)"', grammar(), re.MULTILINE)
    assert found is None or f"`{found[1]}`" in TERMINAL_WORDS[name]


@pytest.mark.parametrize(
    ("names", "words"),
    [
        (["COUNT", "_NL", "$END"], ["a count, such as `x4`", "the end of the line"]),
        (["BLANK", "COMMENT", "NAME"], ["a name"]),
        (["NOTE", "VALUE"], ["a note value, such as `q` or `e3`", "a note, such as `4d` or `2d'`"]),
        (["VALUE", "NOTE", "REST", "HOLD", "PLACE", "OPEN", "CLOSE", "SWING", "STRAIGHT", "STRAY",
          "BAR"], ["`|`", "music"]),
        ([], []),
    ],
)  # fmt: skip
def test_words_for_terminals(names: list[str], words: list[str]) -> None:
    assert expected_words(names) == words
