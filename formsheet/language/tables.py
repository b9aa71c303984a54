"""The parser's tables, worked out beforehand: a process that checks one lesson is not to spend
most of its time on reading the grammar.

`python -m formsheet.language.tables` writes them anew after a change of the grammar or the facts;
a test holds them current. Tables of another grammar or another release of the parser library are
not used: the parser is then built from the grammar, which takes longer and does the same.
"""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

from lark import Lark, Token, Transformer, __version__

from formsheet.resources import resource, resource_folder
from formsheet.vocabulary.lines import filled_in

_TABLES = "tables.json"


def read_grammar() -> str:
    """The language as it is written down, with the words of its facts."""
    return filled_in(resource("grammar", "lesson.lark").read_text(encoding="utf-8"))


def _options(transformer: Transformer[Token, Any] | None) -> dict[str, Any]:
    """Options that the tables do not hold. Places are kept by our own tree, not the parser's."""
    return {"transformer": transformer, "propagate_positions": transformer is None}


def parser_of(grammar: str, transformer: Transformer[Token, Any] | None = None) -> Lark:
    """The parser, built from the grammar."""
    return Lark(grammar, parser="lalr", maybe_placeholders=True, **_options(transformer))


def tables_of(grammar: str) -> dict[str, Any]:
    """Everything that the parser of a grammar knows, as plain data."""
    from lark.grammar import Rule
    from lark.lexer import TerminalDef

    data, memo = parser_of(grammar).memo_serialize([TerminalDef, Rule])
    return {"release": __version__, "grammar": grammar, "data": data, "memo": memo}


def tables_file() -> Path:
    """Where the tables lie, beside the grammar."""
    return resource_folder("grammar") / _TABLES


def make_parser(transformer: Transformer[Token, Any] | None = None) -> Lark:
    """The parser from the tables if they are of this grammar, else from the grammar.

    A `transformer` is called by the parser as it reads; without one it builds its own trees.
    """
    grammar = read_grammar()
    try:
        tables = json.loads(tables_file().read_bytes())
    except (OSError, ValueError):
        return parser_of(grammar, transformer)
    if (tables["release"], tables["grammar"]) != (__version__, grammar):
        return parser_of(grammar, transformer)
    data, memo = tables["data"], tables["memo"]
    states = data["parser"]["parser"]
    states["states"] = _numbered(states["states"])  # names in JSON are texts
    parser: Lark = Lark._load_from_dict(  # type: ignore[no-untyped-call]
        data, _numbered(memo), **_options(transformer)
    )
    return parser


def _numbered(table: dict[str, Any]) -> dict[int, Any]:
    return {int(number): entry for number, entry in table.items()}


if __name__ == "__main__":
    tables_file().write_text(json.dumps(tables_of(read_grammar())) + "\n", encoding="utf-8")
