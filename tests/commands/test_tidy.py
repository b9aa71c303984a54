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


# ---- With corrections -------------------------------------------------------------------------

SLIPS = "Title A\nharp C\n\nlick a on I\n  q 2D 3d 4d 2d\n"
MENDED = "title     A\nharp      C\n\nlick a on I\n  q 2d 3d 4d 2d\n"


@pytest.fixture
def slips(tmp_path: Path) -> Path:
    path = tmp_path / "a.lesson"
    path.write_text(SLIPS, encoding="utf-8")
    return path


def test_corrections_are_printed_then_the_file_is_tidied(
    slips: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert told(capsys, "--mend", slips) == (
        f"{slips}:1:1: `Title` becomes `title` [word-unknown]\n"
        f"{slips}:5:5: `2D` becomes `2d` [note-capital]\n"
        f"{slips}: 3 errors left, see formsheet check\n"
        f"{slips}\n"
        "2 corrections made; 1 of 1 file tidied\n"
    )
    assert slips.read_text(encoding="utf-8") == MENDED
    assert told(capsys, "--mend", slips).endswith("0 corrections made; 0 of 1 file tidied\n")


def test_diff_of_corrections_writes_nothing(
    slips: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    lines = told(capsys, "--mend", "--diff", slips).splitlines()
    assert lines[0].startswith("---")
    assert {"-Title A", "+title     A", "-  q 2D 3d 4d 2d", "+  q 2d 3d 4d 2d"} <= set(lines)
    assert not [line for line in lines if "becomes" in line]
    assert slips.read_text(encoding="utf-8") == SLIPS


def test_check_of_corrections_writes_nothing(
    slips: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    out = told(capsys, "--mend", "--check", slips, status=1)
    assert "`Title` becomes `title`" in out
    assert out.endswith("2 corrections to be made; 1 of 1 file to be tidied\n")
    assert slips.read_text(encoding="utf-8") == SLIPS


def test_what_cannot_be_corrected_stays_byte_for_byte(
    slips: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    data = b"\xef\xbb\xbftitel  B\r\nsay\ta\x07b\rc\r\n"
    slips.write_bytes(data)
    out = told(capsys, "--mend", slips, status=1)
    assert out.endswith("0 corrections made; 0 of 1 file tidied; 1 cannot be read\n")
    assert slips.read_bytes() == data


def test_file_that_still_cannot_be_read_is_corrected_but_not_tidied(
    slips: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    slips.write_bytes(b"\xef\xbb\xbfTitle  B\r\nsay\ta\x07b\r\ntitel C\r\n")
    out = told(capsys, "--mend", slips, status=1)
    assert "titel" in out
    assert out.endswith("1 correction made; 0 of 1 file tidied; 1 cannot be read\n")
    assert slips.read_bytes() == b"\xef\xbb\xbftitle  B\r\nsay\ta\x07b\r\ntitel C\r\n"


def test_shelf_is_corrected_before_the_lessons_that_use_it(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    shelf, lesson = tmp_path / "z.licks", tmp_path / "a.lesson"
    shelf.write_text("position 2nd\nLick a on I\n  q 2d 3d 4d 2d\n", encoding="utf-8")
    lesson.write_text(
        "Title A\nharp C\ntempo 100\nform 8-bar\nuse a from z\nplay\n  bars 1-8 rest x8\n",
        encoding="utf-8",
    )
    out = told(capsys, "--mend", tmp_path)
    assert out.index("`Lick` becomes") < out.index("`Title` becomes")
    assert out.endswith("2 corrections made; 2 of 2 files tidied\n")
    assert main(["check", str(lesson)]) == 0


def test_failed_write_leaves_the_file_whole(
    slips: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    def refused(*_: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("os.replace", refused)
    assert main(["tidy", "--mend", str(slips)]) == 2
    assert "No space left" in capsys.readouterr().err
    assert slips.read_text(encoding="utf-8") == SLIPS
    assert [path.name for path in slips.parent.iterdir()] == ["a.lesson"]
