"""The writer and the parser are each other's inverse: a lesson written is the lesson read."""

from __future__ import annotations

from dataclasses import replace

import pytest

from formsheet.lesson.model import Lesson
from formsheet.lesson.shelves import Shelves
from formsheet.lesson.writing import lesson_text
from formsheet.source import Source
from formsheet.stages import examine
from tests.helpers import NO_FOLDER, examined
from tests.language.samples import KETTLE_CREEK, LATE_TRAM_LESSON
from tests.lessons import NAMES, demo
from tests.likeness import placeless


def again(lesson: Lesson) -> Lesson:
    found = examine(Source("again.lesson", lesson_text(lesson)), Shelves(NO_FOLDER)).lesson
    assert found
    return found


def said(lesson: Lesson) -> object:
    """What a lesson says; what is left on its shelves is not of it."""
    licks = {name: replace(lick, name=name) for name, lick in lesson.licks.items()}
    return [placeless(part) for part in (lesson.facts, lesson.form, licks, lesson.plays)]


@pytest.mark.parametrize("name", NAMES)
def test_demo_lesson(name: str) -> None:
    lesson = demo(name).lesson
    assert lesson
    assert said(again(lesson)) == said(lesson)


@pytest.mark.parametrize("text", [KETTLE_CREEK, LATE_TRAM_LESSON])
def test_sample(text: str) -> None:
    lesson = examined(text).lesson
    assert lesson
    assert said(again(lesson)) == said(lesson)
