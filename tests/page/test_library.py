"""Lessons found in a folder of handouts."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from formsheet.engine.library import renew_library
from formsheet.page.library import entries
from tests.helpers import examined, over
from tests.parts import part_files

TITLE = 'Kettle & "Lid" <song>'


def made(out: Path, name: str, **facts: str) -> None:
    lesson = examined(over("I", "q 2d 3d 4d 5d", **facts))
    (out / name).mkdir(parents=True)
    for file_name, data in part_files("page", lesson).items():
        (out / name / file_name).write_bytes(data)


def test_a_lesson_is_found_by_its_page(tmp_path: Path) -> None:
    made(tmp_path, "kettle", title=TITLE, harp="low F", position="3rd")
    (found,) = entries(tmp_path)
    assert (found.title, found.harp, found.position, found.key) == (TITLE, "low F", "3rd", "G")
    assert (found.form, found.tempo) == ("Own", "60 beats a minute")


def test_links_lead_to_what_is_there(tmp_path: Path) -> None:
    made(tmp_path, "set/kettle")
    (tmp_path / "set/kettle/tab.txt").write_text("tab")
    (found,) = entries(tmp_path)
    assert [link.path for link in found.links] == ["set/kettle/page.html", "set/kettle/tab.txt"]


@pytest.mark.parametrize("told", ["", '<meta name="formsheet-lesson" content="{&quot;a&quot;:1}">'])
def test_pages_of_others_are_let_be(tmp_path: Path, told: str) -> None:
    (tmp_path / "page.html").write_text(f"<!DOCTYPE html>{told}<title>Something else</title>")
    assert list(entries(tmp_path)) == []
    assert renew_library(tmp_path) is None


def test_lessons_built_earlier_stay_in_the_list(tmp_path: Path) -> None:
    made(tmp_path, "one", title="One")
    renew_library(tmp_path)
    made(tmp_path, "two", title="Two")
    written = renew_library(tmp_path)
    assert written == tmp_path / "index.html"
    page = written.read_text(encoding="utf-8")
    assert "<h2>One</h2>" in page
    assert "<h2>Two</h2>" in page


def test_folder_whose_name_is_no_text(tmp_path: Path) -> None:
    made(tmp_path, os.fsdecode(b"n\xff?#"))
    page = renew_library(tmp_path)
    assert page
    assert 'href="n%FF%3F%23/page.html"' in page.read_text(encoding="utf-8")


def test_list_of_lessons_that_are_all_gone_is_removed(tmp_path: Path) -> None:
    made(tmp_path, "one", title="One")
    renew_library(tmp_path)
    (tmp_path / "one/page.html").unlink()
    assert renew_library(tmp_path) is None
    assert not (tmp_path / "index.html").exists()
    (tmp_path / "index.html").write_text("mine")
    assert renew_library(tmp_path) is None
    assert (tmp_path / "index.html").read_text() == "mine"


def test_a_page_of_that_name_that_is_not_ours_stays(tmp_path: Path) -> None:
    made(tmp_path, "one", title="One")
    (tmp_path / "index.html").write_text("mine")
    assert renew_library(tmp_path) is None
    assert (tmp_path / "index.html").read_text() == "mine"
