"""Which files of a lessons folder count."""

from __future__ import annotations

from pathlib import Path

from formsheet.desk.folder import files_in


def laid(home: Path, *names: str) -> None:
    for name in names:
        (home / name).parent.mkdir(parents=True, exist_ok=True)
        (home / name).write_text("x", encoding="utf-8")


def test_lessons_and_shelves_at_any_depth(tmp_path: Path) -> None:
    laid(tmp_path, "b.lesson", "a.lesson", "shelf/c.licks", "winter/late/d.lesson", "notes.txt")
    assert list(files_in(tmp_path)) == [
        "a.lesson", "b.lesson", "shelf/c.licks", "winter/late/d.lesson",
    ]  # fmt: skip
    assert [found.is_lesson for found in files_in(tmp_path).values()] == [True, True, False, True]


def test_what_editors_hide_is_left_out(tmp_path: Path) -> None:
    laid(tmp_path, "a.lesson", ".a.lesson", ".versions/a.lesson", "a.lesson~", "#a.lesson#")
    (tmp_path / ".#b.lesson").symlink_to("someone@desk.1234")
    (tmp_path / "c.lesson").symlink_to("nowhere")
    assert list(files_in(tmp_path)) == ["a.lesson"]


def test_links_out_of_the_folder_are_not_followed(tmp_path: Path) -> None:
    home, outside = tmp_path / "lessons", tmp_path / "outside"
    laid(home, "a.lesson")
    laid(outside, "secret.lesson")
    (home / "s.lesson").symlink_to(outside / "secret.lesson")
    (home / "outside").symlink_to(outside)
    (home / "b.lesson").symlink_to("a.lesson")
    assert list(files_in(home)) == ["a.lesson", "b.lesson"]


def test_a_folder_that_is_not_there_is_empty(tmp_path: Path) -> None:
    assert files_in(tmp_path / "no") == {}
