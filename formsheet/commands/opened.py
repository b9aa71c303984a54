"""A lesson or a shelf opened for its licks."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property

from formsheet.commands.files import UsageError, one_job
from formsheet.commands.named import named_licks
from formsheet.language import tree as t
from formsheet.language.files import read_source
from formsheet.language.parse import parse
from formsheet.lesson.model import Lesson, Lick
from formsheet.lesson.shelf import Shelf
from formsheet.lesson.shelves import Shelves
from formsheet.music.form import Form
from formsheet.music.key import song_key
from formsheet.source import Source, shown_name
from formsheet.stages import Examined, examine_any
from formsheet.suffixes import LESSON_SUFFIX, SHELF_SUFFIX


@dataclass(frozen=True)
class Opened:
    """What was found in the file."""

    examined: Examined
    source: Source  # empty where the file could not be read
    lesson: Lesson | None  # a shelf as a lesson without a form; None where it could not be read
    shelves: Shelves

    @cached_property
    def tree(self) -> t.FileTree:
        """The file as it is written."""
        return parse(self.source)[0]

    @property
    def licks(self) -> Mapping[str, Lick]:
        """Its own licks and those it takes, by name; of a shelf its own alone."""
        return self.lesson.licks if self.lesson else {}

    def chosen(self, names: Sequence[str]) -> Mapping[str, Lick]:
        """The licks of these names, all if none is named; UsageError where one is unknown."""
        if not self.licks:
            raise UsageError(f"{self.examined.name} has no licks")
        return named_licks(names, self.licks) or self.licks


def open_licks(name: str) -> Opened:
    """Read a lesson or a shelf; UsageError where it is not found."""
    job = one_job(name, (LESSON_SUFFIX, SHELF_SUFFIX))
    shelves, shown = Shelves(job.folder), shown_name(job.path)
    source, problems = read_source(job.path, shown)
    if source is None:
        unread = Examined(shown, job.path, problems=tuple(problems))
        return Opened(unread, Source(shown, ""), None, shelves)
    each = examine_any(source, shelves)
    lesson = _as_lesson(each.shelf, source) if each.shelf else each.lesson
    return Opened(each, source, lesson, shelves)


def _as_lesson(shelf: Shelf, source: Source) -> Lesson:
    """A shelf's licks as those of a lesson; the key is minor where a lick is on a minor I."""
    licks = {name: lick for name, lick in shelf.licks.items() if isinstance(lick, Lick)}
    chords = [chord for lick in licks.values() for bar in lick.on for slot in bar for chord in slot]
    minor = any(chord.minor_third and not chord.root for chord in chords)
    key = song_key(shelf.facts.harp.key, shelf.facts.position, minor)
    return Lesson(shelf.facts, Form("", ()), key, licks, (), source.end)


def over_form(lesson: Lesson, form: Form) -> Lesson:
    """The lesson as if it had this form: its key is minor where the form is."""
    key = song_key(lesson.facts.harp.key, lesson.facts.position, form.minor)
    return lesson._replace(form=form, key=key)
