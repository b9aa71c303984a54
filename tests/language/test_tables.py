"""The parser's tables that lie beside the grammar."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from formsheet.language import tables
from tests.lessons import LESSONS

TEXTS = [path.read_text(encoding="utf-8") for path in sorted(LESSONS.glob("*.lesson"))]
FROM_GRAMMAR = tables.parser_of(tables.read_grammar())


def test_tables_are_of_the_grammar() -> None:
    """If not: `python -m formsheet.language.tables`."""
    assert json.loads(tables.tables_file().read_bytes())["grammar"] == tables.read_grammar()


def test_parser_from_tables_reads_as_the_one_from_the_grammar(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """With tables of the release that is installed, whichever was used for those kept."""
    path = tmp_path / "tables.json"
    path.write_text(json.dumps(tables.tables_of(tables.read_grammar())))
    monkeypatch.setattr(tables, "tables_file", lambda: path)
    from_tables = tables.make_parser()
    assert from_tables.source_path == "<deserialized>"
    for text in TEXTS:
        assert from_tables.parse(text) == FROM_GRAMMAR.parse(text)


@pytest.mark.parametrize("text", [None, "", "{", '{"release": "0", "grammar": ""}'])
def test_other_tables_are_not_used(
    text: str | None, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "tables.json"
    if text is not None:
        path.write_text(text)
    monkeypatch.setattr(tables, "tables_file", lambda: path)
    assert tables.make_parser().parse(TEXTS[0]) == FROM_GRAMMAR.parse(TEXTS[0])
