"""A lesson or a shelf opened for its licks."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from formsheet.commands.files import examined, one_job
from formsheet.language import tree as t
from formsheet.language.files import read_source
from formsheet.language.parse import parse
from formsheet.lesson.model import Facts, Lesson, Lick
from formsheet.lesson.shelves import Shelves
from formsheet.music.form import Form
from formsheet.music.key import song_key
from formsheet.source import Source
from formsheet.stages import Examined
from formsheet.suffixes import LESSON_SUFFIX, SHELF_SUFFIX


@dataclass(frozen=True)
class Opened:
    """What was found in the file."""

    examined: Examined
    tree: t.FileTree
    lesson: Lesson | None  # a shelf as a lesson without a form; None where it could not be read
    shelves: Shelves

    @property
    def licks(self) -> Mapping[str, Lick]:
        """Its licks by name."""
        return self.lesson.licks if self.lesson else {}


def open_licks(name: str) -> Opened:
    """Read a lesson or a shelf; UsageError where there is none of that name."""
    job, each = next(examined([one_job(name, (LESSON_SUFFIX, SHELF_SUFFIX))]))
    source, _ = read_source(job.path, str(job.path))
    tree, _ = parse(source or Source(name, ""))
    lesson = each.lesson
    if each.shelf:
        licks = {name: lick for name, lick in each.shelf.licks.items() if lick}
        lesson = _shelf_lesson(each.shelf.facts, licks)
    return Opened(each, tree, lesson, Shelves(job.folder))


def _shelf_lesson(facts: Facts, licks: Mapping[str, Lick]) -> Lesson | None:
    """A shelf's licks as those of a lesson; the key is minor where a lick is on a minor I."""
    chords = [chord for lick in licks.values() for bar in lick.on for slot in bar for chord in slot]
    minor = any(chord.minor_third and not chord.root for chord in chords)
    key = song_key(facts.harp.key, facts.position, minor)
    span = next((lick.span for lick in licks.values()), None)
    return Lesson(facts, Form("", ()), key, dict(licks), (), span) if span else None
