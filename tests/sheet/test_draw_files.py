"""What a sheet may fetch, and where the resources are found."""

from __future__ import annotations

from pathlib import Path

import pytest

from formsheet import resources
from formsheet.sheet.fetcher import OwnFiles


@pytest.mark.parametrize(
    "url", ["file:///etc/hostname", "https://example.org/a.svg", "data:,x", "formsheet:/b.svg"]
)
def test_nothing_else_is_served(url: str) -> None:
    with pytest.raises(ValueError, match="not a file of this sheet"):
        OwnFiles({"formsheet:/a.svg": b"<svg/>"}).fetch(url)


def test_own_files_are_served_with_their_type() -> None:
    answer = OwnFiles({"formsheet:/a.svg": b"<svg/>"}).fetch("formsheet:/a.svg")
    assert answer.content_type == "image/svg+xml"
    assert answer.read() == b"<svg/>"


def test_templates_are_found_in_a_checkout() -> None:
    assert resources.resource("templates", "sheet.html").read_text().count("{% macro")


def test_resources_inside_the_package_come_first(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "_data" / "grammar").mkdir(parents=True)
    (tmp_path / "_data" / "grammar" / "lesson.lark").write_text("start: ")
    monkeypatch.setattr(resources, "_HOMES", (tmp_path / "_data", tmp_path))
    assert resources.resource("grammar", "lesson.lark").read_text() == "start: "


def test_a_missing_resource_is_named() -> None:
    with pytest.raises(FileNotFoundError, match=r"templates/nothing\.html"):
        resources.resource("templates", "nothing.html")
