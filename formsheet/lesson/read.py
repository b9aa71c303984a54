"""Syntax tree to lesson."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import cached_property

from formsheet.language import tree as t
from formsheet.language.recovery import LENGTHS, LINE, READ, Unread
from formsheet.lesson import model
from formsheet.lesson.chords import asked_bars, read_ending
from formsheet.lesson.facts import read_facts
from formsheet.lesson.licks import Licks
from formsheet.lesson.model import Lesson, Lick
from formsheet.lesson.shelf import own_licks
from formsheet.lesson.shelves import Shelves
from formsheet.music.form import Bars, Form
from formsheet.music.key import song_key
from formsheet.problems import kinds
from formsheet.problems.nearest import Names
from formsheet.problems.problem import Problem, Related

MOST_CHORUSES = 50  # of one play line
#: Returns the name of a shelf that has a lick of this name, if any.
ShelfOf = Callable[[str], str | None]
NO_FORM = Form("", ())  # of a lesson whose form is missing or unread: no bars are laid out


def read_lesson(tree: t.FileTree, shelves: Shelves) -> tuple[Lesson, list[Problem]]:
    """The lesson and its problems; parts that could not be read are left out."""
    facts, problems = read_facts(tree, lesson=True)
    used = shelves.used(tree, facts)
    problems += used.problems
    own = own_licks(tree, facts, used)
    problems += own.problems
    licks = used.licks | own.licks
    plays, found = _read_plays(
        tree,
        facts.form,
        licks,
        tree.unread | used.unread,
        lambda lick: shelves.holding(lick, facts, tree.source.path),
    )
    problems += found
    if not tree.plays:
        problems.append(kinds.PlayMissing(tree.source.end))
    form = facts.form or NO_FORM
    lesson = Lesson(
        facts=facts,
        form=form,
        key=song_key(facts.harp.key, facts.position, form.minor),
        licks={name: lick for name, lick in licks.items() if isinstance(lick, Lick)},
        plays=plays,
        shelved=tuple(used.left),
        unread={name: lick for name, lick in own.licks.items() if isinstance(lick, Unread)},
        end=tree.source.end,
    )
    return lesson, problems


def _read_plays(
    tree: t.FileTree, form: Form | None, licks: Licks, lost: Unread, shelf_of: ShelfOf
) -> tuple[tuple[model.Play, ...], list[Problem]]:
    reader = _PlayReader(form, licks, lost, shelf_of)
    return tuple(map(reader.play, tree.plays)), reader.problems


class _PlayReader:
    def __init__(self, form: Form | None, licks: Licks, lost: Unread, shelf_of: ShelfOf) -> None:
        self.form = form
        self.licks = licks
        self.names = Names([*licks, "rest"])
        self.lost = lost
        self.shelf_of = shelf_of
        self.problems: list[Problem] = []
        self.unread = READ  # of the play that is being read

    @cached_property
    def listed(self) -> list[str]:
        """The names of the lesson's licks, sorted."""
        return sorted(self.licks)

    def play(self, block: t.PlayBlock) -> model.Play:
        line = block.line
        self.unread = block.unread
        times = self._count(line.times, MOST_CHORUSES) or 1
        last_endings = [each for each in block.endings if each.last_time]
        return model.Play(
            title=line.title.text if line.title else "",
            times=times,
            every=tuple(map(self._every, block.every)),
            bars=tuple(bars for each in block.bars if (bars := self._bars(each))),
            span=line.keyword.span,
            ending=self._ending([each for each in block.endings if not each.last_time]),
            last_ending=self._ending(last_endings),
            last_ending_span=t.bars_span(last_endings[0].bars) if last_endings else None,
            unread=self.unread,
        )

    def _ending(self, lines: Sequence[t.EndingLine]) -> Bars:
        """The bars that replace the last ones of the form; empty without such a line.

        Also empty if the form could not be read: there is nothing to replace.
        """
        for again in lines[1:]:
            first = Related(lines[0].keyword.span, "first here")
            self.problems.append(kinds.EndingTwice(again.keyword.span, (first,)))
        if not lines:
            return ()
        ending, problems = read_ending(lines[0].bars, self.form)
        self.problems += problems
        if ending is None:
            self.unread |= LINE
        return ending if ending and self.form else ()

    def _every(self, line: t.EveryLine) -> model.Every:
        on, problems = asked_bars([line.on])
        self.problems += problems
        if problems:
            self.unread |= LENGTHS
        return model.Every(on[0], self._placed(line.placed), line.on_span)

    def _bars(self, line: t.BarsLine) -> model.BarsPlaced | None:
        first, *rest = map(int, line.range.text.replace("–", "-").split("-"))
        last = rest[0] if rest else first
        placed = self._placed(line.placed)
        if not 1 <= first <= last:
            self.problems.append(kinds.BarsRange(line.range.span, found=line.range.text))
            self.unread |= LINE
            return None
        return model.BarsPlaced(first, last, placed, line.last_time, line.range.span)

    def _placed(self, placed: Sequence[t.Placed]) -> tuple[model.Placed, ...]:
        """What a line places; empty if one of its licks is unread, as no count could be exact."""
        known = [self._known(each) for each in placed]
        read = tuple(
            model.Placed(
                name=each.name.text,
                rest=each.rest,
                times=self._count(each.times, model.MOST_ROUNDS),
                span=each.span,
            )
            for each in placed
        )
        return read if all(known) else ()

    def _known(self, placed: t.Placed) -> bool:
        """Whether the lick exists and was read; if not, the play cannot be laid out."""
        name = placed.name
        if placed.rest or isinstance(self.licks.get(name.text), Lick):
            return True
        self.unread |= Unread.of_names([name.text])
        if name.text not in self.licks and not self.lost.may_name(name.text):
            shelf = self.shelf_of(name.text)
            near = None if shelf else self.names.nearest(name.text)
            self.problems.append(
                kinds.LickUnknown(name.span, found=name.text, near=near, shelf=shelf,
                      known=self.listed)
            )  # fmt: skip
        return False

    def _count(self, word: t.Word | None, most: int) -> int | None:
        if word is None:
            return None
        count = int(word.text[1:])
        if 1 <= count <= most:
            return count
        self.problems.append(kinds.CountRange(word.span, found=word.text, most=most))
        self.unread |= LENGTHS
        return None
