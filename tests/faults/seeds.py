"""Texts that the fuzzing begins with, and the words of the language."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from tests.lessons import LESSONS
from tests.random_lessons import random_lesson

#: Lessons of a few lines, each about a part of the language; their shelf lies in `shelf/`.
SHORT = Path(__file__).parent / "short"
_TESTS = Path(__file__).parents[1]
_LONGEST_SHORT = 1000  # characters
_MADE = 20  # lessons made by chance

#: Words and signs of the language, and what is near to them.
_WORDS = """
    w h q e s q. e3 q.. - = | [ ] ]x3 ]x0 ]x99 x x2 x64 x65 ! { } {wah} " ' # , in on as from
    1d 4d' 3d\'\'\' 10b 6ob 7od 123d 14b 1234567d 11d 0b 4d"ka" 4d{shake}! I IV V i7 bVI7 I7 IV7
    lick turnaround rhythm play every bars bar last time use title harp form tempo feel say tip
    pickup swing straight rest tuning blow draw meter position count-in level learn ending
    teacher rights date 1-12 9 0 13 999 C Bb low 12/8 3/4 6/8 2nd 60% 3:2 natural minor 8-bar
    12-bar standard beginner advanced
"""
_CHARACTERS = "\0\r\t\u2019\u201c\u201d\u266d\ufeff\u0301\U0001f3b5\u202e"
WORDS = (*_WORDS.split(), *_CHARACTERS)

#: What a word may give way to: words of its own kind, and numbers beyond all sense.
KINDS = (
    (r"[whqes](\.\.?|3)?", ("w", "h", "q", "e", "s", "q.", "e.", "q..", "s..", "e3", "s3", "w..")),
    (r"(10|[1-9])+o?[bd]'*.*", ("1d", "2b", "4d'", "3d\'\'\'", "10b\'\'", "6ob", "7od", "123d",
                               "14b", "1234567d", "910d", "4d!", '2d"a"', "4d{shake}", "8b'")),
    (r"[b#]?[IVivx]+7?", ("I", "IV", "V", "i", "iv7", "bVII", "#ivdim", "Imaj7", "V+", "I7", "V7")),
    (r"x\d+|\]x\d+", ("x0", "x1", "x2", "x64", "x65", "x9999", "]x2", "]x64", "]x99", "]")),
    (r"\d[\d.:/-]*%?", ("0", "1", "2", "7", "12", "1-12", "12-1", "0-0", "64", "9" * 30, "9" * 5000,
                        "1/0", "1:0", "0%", "100%", "50%", "1" * 4000 + "/3", "٣")),
    (r"[a-z-]{3,}", ("rest", "swing", "straight", "a", "I", "x", "zz" * 200, "é", "lick", "play",
                     "in", "on", "from", "porch", "home")),
)  # fmt: skip


def _read(path: Path) -> str:
    return path.read_text(encoding="utf-8", errors="replace")


@cache
def short_seeds() -> tuple[str, ...]:
    """Short lessons: in order, wrong in one musical way, wrong in any way that is told."""
    folders = (SHORT, _TESTS / "colleague", _TESTS / "errors")
    texts = [_read(path) for folder in folders for path in sorted(folder.rglob("*.lesson"))]
    in_order = [_read(path) for path in sorted(SHORT.glob("*.lesson"))]
    return tuple(text for text in [*in_order * 3, *texts] if len(text) <= _LONGEST_SHORT)


@cache
def long_seeds() -> tuple[str, ...]:
    """The demo lessons, and lessons made by chance."""
    demos = [_read(path) for path in sorted(LESSONS.glob("*.lesson"))]
    return (*demos, *map(random_lesson, range(_MADE)))


@cache
def shelf_seeds() -> tuple[str, ...]:
    """Shelves."""
    folders = (SHORT, LESSONS, _TESTS / "errors")
    return tuple(_read(path) for folder in folders for path in sorted(folder.rglob("*.licks")))


@cache
def lines() -> tuple[str, ...]:
    """Every line of the short lessons, each once."""
    return tuple(dict.fromkeys(line for text in short_seeds() for line in text.split("\n") if line))
