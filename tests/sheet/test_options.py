"""The options of `build`, from the command line to the printed sheet."""

from __future__ import annotations

from operator import attrgetter
from pathlib import Path
from typing import Any

import pypdf
import pytest

from formsheet.cli import main
from formsheet.sheet.mark_styles import MARK_STYLES, MarkStyle
from tests.helpers import over

LESSON = over("I | IV", "q 2d 3d 4d - | 4b 5b 6b -")


def sheet(folder: Path, *options: str) -> pypdf.PdfReader:
    lesson = folder / "walk.lesson"
    lesson.write_text(LESSON, encoding="utf-8")
    assert main(["build", str(lesson), "--out", str(folder / "out"), *options]) == 0
    return pypdf.PdfReader(folder / "out" / "walk" / "sheet.pdf")


@pytest.mark.parametrize(
    ("options", "size"),
    [
        ((), (842, 595)),
        (("--portrait",), (595, 842)),
        (("--page", "letter"), (792, 612)),
        (("--portrait", "--page", "Letter", "--large"), (612, 792)),
        (("--large",), (842, 595)),
    ],
)
def test_the_paper(tmp_path: Path, options: tuple[str, ...], size: tuple[int, int]) -> None:
    for page in sheet(tmp_path, *options).pages:
        assert (page.mediabox.width, page.mediabox.height) == pytest.approx(size, abs=0.5)


@pytest.mark.parametrize("marks", MARK_STYLES, ids=attrgetter("name"))
def test_the_marks_are_explained(tmp_path: Path, marks: MarkStyle) -> None:
    pages = sheet(tmp_path, "--marks", marks.name).pages
    text = " ".join("".join(page.extract_text() for page in pages).split())
    for words in (marks.blow_words, marks.draw_words):
        assert words in text


def test_the_outline_leads_to_each_part(tmp_path: Path) -> None:
    def titles(items: Any) -> list[object]:
        return [titles(item) if isinstance(item, list) else item.title for item in items]

    reader = sheet(tmp_path)
    title, parts = titles(reader.outline)
    assert title == "Test Blues"
    assert isinstance(parts, list)
    assert parts[0] == "The licks"
    assert sorted(parts[1:]) == [
        "In this order",
        "Joins and speed",
        "Mind",
        "The band’s chords",
        "Your harp",
    ]
