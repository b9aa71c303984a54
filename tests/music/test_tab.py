"""Tab marks: how they are written, how wide the mouth is, and its shape."""

from __future__ import annotations

import pytest

from formsheet.music.tab import Breath, Shape, Tab

BLOW, DRAW = Breath.BLOW, Breath.DRAW

# Marks as the lesson language writes them.
MARKS = [
    (Tab((4,), DRAW), "4d", 1, Shape.SINGLE),
    (Tab((4,), BLOW), "4b", 1, Shape.SINGLE),
    (Tab((3,), DRAW, bend=1), "3d'", 1, Shape.SINGLE),
    (Tab((3,), DRAW, bend=3), "3d'''", 1, Shape.SINGLE),
    (Tab((10,), BLOW, bend=2), "10b''", 1, Shape.SINGLE),
    (Tab((6,), BLOW, overbend=True), "6ob", 1, Shape.SINGLE),
    (Tab((7,), DRAW, overbend=True), "7od", 1, Shape.SINGLE),
    (Tab((3, 4), DRAW), "34d", 2, Shape.BLOCK),
    (Tab((1, 2, 3), DRAW), "123d", 3, Shape.BLOCK),
    (Tab((9, 10), BLOW), "910b", 2, Shape.BLOCK),
    (Tab((1, 4), BLOW), "14b", 4, Shape.SPLIT),
    (Tab((6, 10), DRAW), "610d", 5, Shape.SPLIT),
]


@pytest.mark.parametrize(("tab", "text"), [(tab, text) for tab, text, _, _ in MARKS])
def test_mark_as_written(tab: Tab, text: str) -> None:
    assert str(tab) == text


@pytest.mark.parametrize(("tab", "span"), [(tab, span) for tab, _, span, _ in MARKS], ids=str)
def test_holes_under_the_mouth(tab: Tab, span: int) -> None:
    assert tab.span == span


@pytest.mark.parametrize(("tab", "shape"), [(tab, shape) for tab, _, _, shape in MARKS], ids=str)
def test_shape_of_the_mouth(tab: Tab, shape: Shape) -> None:
    assert tab.shape is shape


@pytest.mark.parametrize(("breath", "other", "word"), [(BLOW, DRAW, "blow"), (DRAW, BLOW, "draw")])
def test_breath(breath: Breath, other: Breath, word: str) -> None:
    assert (breath.other, breath.word) == (other, word)
