"""Files that take long to make: kept where the same goes into them as before."""

from __future__ import annotations

import time
from collections.abc import Iterator
from functools import partial

import pytest

from formsheet.engine.event import Outcome
from formsheet.engine.parts import PARTS, Made, Piece
from formsheet.sheet.options import Options
from formsheet.stages import Examined
from tests.engine.conftest import A_WHILE, Desk

made: list[str] = []  # the names of the pieces, each time that one is made


def _content(name: str, key: str) -> bytes:
    made.append(name)
    return key.encode()


def licks(each: Examined, options: Options) -> Iterator[Made | Piece]:
    """A piece a lick, made of its tab, and a plain file."""
    assert each.lesson
    for name, lick in each.lesson.licks.items():
        key = " ".join(str(mark.tab) for bar in lick.bars for mark in bar)
        yield Piece(f"clips/{name}.txt", key, partial(_content, name, key))
    yield "clips/all.txt", " ".join(each.lesson.licks).encode()


@pytest.fixture
def pieces(desk: Desk, monkeypatch: pytest.MonkeyPatch) -> Desk:
    """A lesson of two licks whose files are pieces, built."""
    monkeypatch.setitem(PARTS, "licks", licks)
    desk.lesson("a.lesson", "2d", "3d")
    time.sleep(A_WHILE)
    desk.build()
    assert made == ["l0", "l1"]
    made.clear()
    return desk


@pytest.fixture(autouse=True)
def counted() -> None:
    made.clear()


def test_only_what_has_changed_is_made(pieces: Desk) -> None:
    pieces.lesson("a.lesson", "2d", "4d")
    time.sleep(A_WHILE)
    event = pieces.build()["a"]
    assert event.outcome is Outcome.BUILT
    assert made == ["l1"]
    assert "clips/l0.txt" not in {
        str(path.relative_to(event.target.folder)) for path in event.files
    }
    assert pieces.made()["a/clips/l0.txt"] == b"2d"
    assert pieces.made()["a/clips/l1.txt"] == b"4d"
    assert pieces.stale == []


def test_a_piece_that_was_altered_or_removed_is_made(pieces: Desk) -> None:
    (pieces.out / "a/clips/l0.txt").write_bytes(b"xx")
    assert pieces.stale == ["a:licks"]
    pieces.build()
    assert made == ["l0"]
    assert pieces.made()["a/clips/l0.txt"] == b"2d"
    (pieces.out / "a/clips/l1.txt").unlink()
    pieces.build()
    assert made == ["l0", "l1"]
    assert pieces.stale == []


def test_a_piece_that_is_no_longer_made_is_removed(pieces: Desk) -> None:
    pieces.lesson("a.lesson", "2d")
    pieces.build()
    assert made == []
    assert sorted(pieces.made()) == ["a/clips/all.txt", "a/clips/l0.txt", "a/tune.txt"]


def test_all_is_made_again_where_that_is_asked_for(pieces: Desk) -> None:
    pieces.again()
    assert made == ["l0", "l1"]


def test_all_is_made_by_another_tool(pieces: Desk, monkeypatch: pytest.MonkeyPatch) -> None:
    from formsheet.engine.tool import Tool

    monkeypatch.setattr(Tool, "seen", "other")
    monkeypatch.setattr(Tool, "digest", "other")
    pieces.build()
    assert made == ["l0", "l1"]
