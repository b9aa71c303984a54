"""Helpers of these tests: text to syntax tree, and trees to plain values."""

from __future__ import annotations

from formsheet.language import tree as t
from formsheet.language.parse import parse
from formsheet.source import Source
from tests.helpers import told


def tree_of(text: str) -> t.FileTree:
    """The tree of a text in which every line can be read."""
    tree, problems = parse(Source("test.lesson", text))
    assert not problems, told(tuple(problems))
    return tree


def slugs_of(text: str) -> list[str]:
    """The kinds of what is wrong with the lines of a text."""
    return [problem.code for problem in parse(Source("test.lesson", text))[1]]


def spots_of(text: str) -> list[tuple[str, str]]:
    """What is wrong with the lines of a text, with the text under each mark."""
    return [(p.code, p.span.text) for p in parse(Source("test.lesson", text))[1]]


def lick_block(music: str) -> t.LickBlock:
    """The block of a lick with this music."""
    return tree_of(f"lick a on I\n{music}\n").licks[0]


def marks_of(music: str) -> list[t.AnyMark]:
    """The marks of a line of music."""
    return lick_block(music).marks


def signs_of(music: str) -> str:
    """The marks of a line of music by their kinds: "value note rest"."""
    return " ".join(
        "note" if isinstance(mark, t.NoteMark) else mark.sign.value for mark in marks_of(music)
    )


def note(text: str) -> t.NoteMark:
    """The one note of a text."""
    (mark,) = marks_of(text)
    assert isinstance(mark, t.NoteMark)
    return mark


def texts(words: tuple[t.Word, ...]) -> list[str]:
    """The text of each word."""
    return [word.text for word in words]


def asked(bars: tuple[t.AskedBar, ...]) -> str:
    """Chords as a lick asks for them, written plainly: "I,IV | I V"."""
    return " | ".join(" ".join(",".join(texts(slot)) for slot in bar) for bar in bars)


def placed(items: tuple[t.Placed, ...]) -> str:
    """What is placed, written plainly: "porch x2, rest"."""
    return ", ".join(
        ("REST" if item.rest else item.name.text) + (f" {item.times.text}" if item.times else "")
        for item in items
    )
