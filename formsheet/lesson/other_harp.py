"""The same tab on another harp: the position stays, the key of the song changes with the harp."""

from __future__ import annotations

from formsheet.lesson.model import Lesson
from formsheet.music.harp import Harp
from formsheet.music.key import song_key


def on_harp(lesson: Lesson, harp: Harp) -> Lesson:
    """The lesson for a student with a harp in another key or register, tuned as the lesson says."""
    facts = lesson.facts
    tuned = Harp(harp.key, harp.register, facts.harp.tuning)
    return lesson._replace(
        facts=facts._replace(harp=tuned),
        key=song_key(tuned.key, facts.position, lesson.form.minor),
    )
