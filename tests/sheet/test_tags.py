"""The tags of the sheets, read by libraries and a tool that know nothing of this project.

What PDF/UA-1 (ISO 14289-1) asks for and a program can see; its clauses are from memory.
"""

from __future__ import annotations

import io
import re
import subprocess
from collections import Counter
from functools import cache
from itertools import pairwise
from pathlib import Path

import pikepdf
import pytest

from formsheet.sheet.view import Sheet
from tests.lessons import NAMES
from tests.sheet.demos import printed, sheet
from tests.sheet.gallery import GALLERY
from tests.sheet.placed import tune_bars
from tests.sheet.printed import pdf, read
from tests.sheet.tags import Tag, Tagged

SHEETS = [*NAMES, "common", "ties", "pickup", "three-choruses"]
#: Operators of a page's content that put ink on it (ISO 32000-1, Annex A; from memory).
PAINTING = frozenset("f F f* B B* b b* s S Tj TJ ' \" sh Do EI".split())  # noqa: SIM905


def bytes_of(name: str) -> bytes:
    return pdf(name) if name in GALLERY else printed(name)


def sheet_of(name: str) -> Sheet:
    return GALLERY[name]() if name in GALLERY else sheet(name)


@cache
def tagged(name: str) -> Tagged:
    return Tagged(bytes_of(name))


def tags(name: str, *kinds: str) -> list[Tag]:
    return [tag for tag in tagged(name).tags if tag.kind in kinds]


@pytest.mark.parametrize("name", SHEETS)
def test_the_file_is_sound(name: str) -> None:
    with pikepdf.open(io.BytesIO(bytes_of(name))) as document:
        assert document.check_pdf_syntax() == []


@pytest.mark.parametrize("name", SHEETS)
def test_the_file_names_its_standard_language_and_title(name: str) -> None:
    with pikepdf.open(io.BytesIO(bytes_of(name))) as document:
        with document.open_metadata() as metadata:
            assert metadata["pdfuaid:part"] == "1"
            assert metadata["dc:title"] == sheet_of(name).title
        assert document.Root.MarkInfo.Marked
        assert document.Root.Lang == "en"
        assert document.Root.ViewerPreferences.DisplayDocTitle


@pytest.mark.parametrize("name", SHEETS)
def test_all_ink_is_tagged_or_an_artifact(name: str) -> None:
    pieces = Counter(piece for tag in tagged(name).tags for piece in tag.pieces)
    assert set(pieces.values()) == {1}
    written = set()
    with pikepdf.open(io.BytesIO(bytes_of(name))) as document:
        for number, page in enumerate(document.pages):
            depth = 0
            for step in pikepdf.parse_content_stream(page):
                sign = str(step.operator)
                depth += (sign in ("BDC", "BMC")) - (sign == "EMC")
                if sign == "BDC" and "/MCID" in step.operands[1]:
                    written.add((number, int(step.operands[1]["/MCID"])))
                assert depth or sign not in PAINTING, (number, sign)
    assert set(pieces) <= written
    for text in _texts(name, written - set(pieces)):
        assert any(text in whole for whole in footer(name)), text


def footer(name: str) -> set[str]:
    """Texts that WeasyPrint 70 tags with no place in the tree, perhaps on two lines."""
    made, count = sheet_of(name), len(tagged(name).reader.pages)
    numbered = {f"{number}/{count}" for number in range(1, count + 1)}
    head = " · ".join([made.title, *made.harp_facts])  # of later study pages
    return {"".join(made.foot.split()), "".join(head.split()), *numbered}


def _texts(name: str, pieces: set[tuple[int, int]]) -> set[str]:
    pages = read(bytes_of(name))
    return {
        "".join(char.text for char in pages[page].chars if char.content == piece).replace(" ", "")
        for page, piece in pieces
    }


@pytest.mark.parametrize("name", SHEETS)
def test_headings_step_down_one_level_at_a_time(name: str) -> None:
    levels = [int(tag.kind[1]) for tag in tags(name, "H1", "H2", "H3", "H4")]
    assert levels[0] == 1
    assert levels.count(1) == 1
    assert all(other - one <= 1 for one, other in pairwise(levels))


@pytest.mark.parametrize("name", SHEETS)
def test_every_figure_has_words(name: str) -> None:
    figures = tags(name, "Figure")
    assert len(figures) >= len(list(tune_bars(sheet_of(name))))
    assert all(figure.alt and len(figure.box) == 4 for figure in figures)


@pytest.mark.parametrize("name", NAMES)
def test_cells_of_the_tables_name_their_headers(name: str) -> None:
    tables = [t for t in tags(name, "Table") if any(tag.kind == "TH" for tag in t.walk())]
    assert len(tables) >= 2  # the band's chords, the practice log on a page or more
    for table in tables:
        known = {tag.name for tag in table.walk() if tag.kind == "TH"}
        for cell in (tag for tag in table.walk() if tag.kind == "TD"):
            named = {str(name) for name in cell.attributes["/Headers"]}
            assert named
            assert named <= known


@pytest.mark.parametrize("name", SHEETS)
def test_a_reader_of_the_tags_meets_the_bars_in_order(name: str) -> None:
    """Each bar is a figure with its words; those of the tune come first."""
    spoken = [tag.alt for tag in tags(name, "Figure")]
    bars = [bar.spoken for bar in tune_bars(sheet_of(name))]
    first = spoken.index(bars[0])
    tune = [words for words in spoken[first:] if words in set(bars)]
    assert tune[: len(bars)] == bars


@pytest.mark.parametrize("name", SHEETS)
def test_the_title_is_heard_first(name: str, tmp_path: Path) -> None:
    """By `pdfinfo` of the Poppler utilities."""
    path = tmp_path / "sheet.pdf"
    path.write_bytes(bytes_of(name))
    read = subprocess.run(
        ["pdfinfo", "-struct-text", path], capture_output=True, text=True, check=True
    )
    heard = "".join("".join(re.findall(r'"(.*)"$', read.stdout, re.MULTILINE)).split())
    assert heard.startswith("".join(sheet_of(name).title.split()))
