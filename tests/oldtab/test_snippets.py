"""Old tab in the trade's shorthands: read as a player reads it, or asked about, never misread."""

from __future__ import annotations

from pathlib import Path

import pytest

from formsheet.notes.melody import NotesError
from formsheet.notes.oldtab.reading import OldTab, read_old_tab

HERE = Path(__file__).parent
READINGS = [
    line.split("\t") for line in (HERE / "readings.tsv").read_text(encoding="utf-8").splitlines()
]
#: Of forty snippets so many are to be read; the others may be refused with a question.
TO_BE_READ = 36


def snippet(name: str) -> str:
    return (HERE / "snippets" / f"{name}.txt").read_text(encoding="utf-8")


def marks(found: OldTab) -> str:
    """The notes as the readings have them: bar lines only where they are written."""
    parts: list[str] = []
    for phrase in found.phrases:
        if parts and phrase.barred:
            parts.append("|")
        parts.append(" | ".join(" ".join(map(str, bar)) for bar in phrase.bars))
    return " ".join(parts)


@pytest.mark.parametrize(("name", "shorthand", "reading"), READINGS)
def test_never_misread(name: str, shorthand: str, reading: str) -> None:
    """Common practice, no source: the readings were written before the reader."""
    try:
        found = read_old_tab(snippet(name))
    except NotesError as caught:
        question = str(caught)
    else:
        assert (found.shorthand, marks(found)) == (shorthand, reading)
        return
    assert "?" in question or "--shorthand" in question


def test_most_are_read() -> None:
    refused = []
    for name, *_ in READINGS:
        try:
            read_old_tab(snippet(name))
        except NotesError as asked:
            refused.append((name, str(asked)))
    assert len(READINGS) - len(refused) >= TO_BE_READ, refused


@pytest.mark.parametrize(("name", "shorthand", "reading"), READINGS)
def test_the_shorthand_may_be_named(name: str, shorthand: str, reading: str) -> None:
    assert marks(read_old_tab(snippet(name), shorthand)) == reading
