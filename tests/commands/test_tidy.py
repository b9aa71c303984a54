"""`formsheet tidy`: which files are written, and what is said."""

from __future__ import annotations

from pathlib import Path

import pytest

from formsheet.cli import main

UNTIDY = "title A\n\n\nharp C\n"
TIDY = "title     A\n\nharp      C\n"


@pytest.fixture
def untidy(tmp_path: Path) -> Path:
    path = tmp_path / "a.lesson"
    path.write_text(UNTIDY, encoding="utf-8")
    return path


def told(capsys: pytest.CaptureFixture[str], *words: str | Path, status: int = 0) -> str:
    assert main(["tidy", *map(str, words)]) == status
    return capsys.readouterr().out


def test_file_is_written_in_place(untidy: Path, capsys: pytest.CaptureFixture[str]) -> None:
    untidy.chmod(0o640)
    assert told(capsys, untidy) == f"{untidy}\n1 of 1 file tidied\n"
    assert untidy.read_text(encoding="utf-8") == TIDY
    assert untidy.stat().st_mode & 0o777 == 0o640
    assert told(capsys, untidy) == "0 of 1 file tidied\n"


def test_check_writes_nothing(untidy: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (untidy.parent / "b.licks").write_text(TIDY, encoding="utf-8")
    out = told(capsys, "--check", untidy.parent, status=1)
    assert out == f"{untidy}\n1 of 2 files to be tidied\n"
    assert untidy.read_text(encoding="utf-8") == UNTIDY


def test_check_of_a_tidy_file(untidy: Path, capsys: pytest.CaptureFixture[str]) -> None:
    untidy.write_text(TIDY, encoding="utf-8")
    assert told(capsys, "--check", untidy) == "0 of 1 file to be tidied\n"


def test_diff_writes_nothing(untidy: Path, capsys: pytest.CaptureFixture[str]) -> None:
    lines = told(capsys, "--diff", untidy).splitlines()
    assert {"-title A", "+title     A"} <= set(lines)
    assert untidy.read_text(encoding="utf-8") == UNTIDY


def test_file_that_cannot_be_read_is_left(untidy: Path, capsys: pytest.CaptureFixture[str]) -> None:
    broken = untidy.parent / "b.lesson"
    broken.write_text("titel  B\n", encoding="utf-8")
    out = told(capsys, untidy, broken, status=1)
    assert "[word-unknown]" in out
    assert out.endswith("1 of 2 files tidied; 1 left as it is: it cannot be read\n")
    assert broken.read_text(encoding="utf-8") == "titel  B\n"
    assert untidy.read_text(encoding="utf-8") == TIDY


def test_byte_order_mark_and_line_ends_stay(
    untidy: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    untidy.write_bytes(b"\xef\xbb\xbf" + UNTIDY.replace("\n", "\r\n").encode())
    told(capsys, untidy)
    assert untidy.read_bytes() == b"\xef\xbb\xbf" + TIDY.replace("\n", "\r\n").encode()


def test_linked_file_is_written_where_it_is(
    untidy: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    link = untidy.parent / "link.lesson"
    link.symlink_to(untidy)
    told(capsys, link)
    assert link.is_symlink()
    assert untidy.read_text(encoding="utf-8") == TIDY
    assert sorted(path.name for path in untidy.parent.iterdir()) == ["a.lesson", "link.lesson"]
