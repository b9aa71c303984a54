"""Facts: the lines before the first lick, read and checked."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from formsheet.language import tree as t
from formsheet.language.recovery import Unread
from formsheet.lesson.chords import read_bar, read_ending
from formsheet.lesson.model import Facts
from formsheet.lesson.tuning import read_tuning
from formsheet.music.form import BARS_A_LINE, Form, built_in_form, with_ending
from formsheet.music.harp import Harp
from formsheet.music.tunings import RICHTER, Tuning
from formsheet.problems import kinds
from formsheet.problems.problem import Problem, Related
from formsheet.source import Span
from formsheet.vocabulary.facts import FACT_OF, FACTS, Fact, Said
from formsheet.vocabulary.facts import form as read_form

MOST_FORM_BARS = 64


class _Reader:
    """Reads facts one by one; collects the span of each and the problems."""

    def __init__(self, tree: t.FileTree) -> None:
        self.tree = tree
        self.problems: list[Problem] = []
        self.places: dict[str, Span] = {}
        self.unread: set[str] = set(tree.unread.facts)
        self.lines: dict[str, list[t.Fact]] = {}
        for line in tree.facts:
            self.lines.setdefault(line.keyword.text, []).append(line)
        for keyword, lines in self.lines.items():
            self.places[keyword] = lines[0].value
            if not FACT_OF[keyword].repeats:
                self._told_twice(keyword, [line.keyword for line in lines])

    def _told_twice(self, keyword: str, words: Sequence[t.Word]) -> None:
        first = Related(words[0].span, "first here") if words else None
        for word in words[1:]:
            assert first is not None
            self.problems.append(kinds.FactTwice(word.span, (first,), fact=keyword))

    def wrong(self, keyword: str, problem: Problem) -> None:
        self.problems.append(problem)
        self.unread.add(keyword)

    def value(self, fact: Fact[Any]) -> Any:
        """The value of a fact; None if it is absent or wrong."""
        lines = self.lines.get(fact.word)
        if not lines:
            return None
        if not fact.repeats:
            return self._value(fact, lines[0])
        values = [self._value(fact, line) for line in lines]
        return tuple(value for value in values if value is not None)

    def _value(self, fact: Fact[Any], line: t.Fact) -> Any:
        assert fact.read, "a line of its own shape has no reader"
        value = fact.read(Said(fact.word, line.words))
        if isinstance(value, Problem):
            self.wrong(fact.word, value)
            return None
        return value

    def tuning(self) -> Tuning | None:
        blocks = self.tree.tunings
        self._told_twice("tuning", [block.line.keyword for block in blocks])
        if not blocks:
            return RICHTER
        self.places["tuning"] = blocks[0].line.name.span
        tuning, problems = read_tuning(blocks[0])
        self.problems += problems
        if tuning is None:
            self.unread.add("tuning")
        return tuning

    def form(self) -> Form | None:
        blocks = self.tree.forms
        self._told_twice("form", [block.line.keyword for block in blocks])
        if not blocks:
            return None
        block = blocks[0]
        self.places["form"] = (block.line.name or block.line.keyword).span
        form = None
        if not block.unread:
            form = self._own_form(block) if block.rows else self._built_in_form(block.line)
        if form is None:
            self.unread.add("form")
            return None
        ending = block.line.ending
        return self._with_ending(form, ending) if ending else form

    def _built_in_form(self, line: t.FormLine) -> Form | None:
        if line.name is None:
            self.wrong("form", kinds.FormEmpty(line.keyword.span))
            return None
        form = read_form(Said("form", (line.name,)))
        if isinstance(form, Problem):
            self.wrong("form", form)
            return None
        return form

    def _own_form(self, block: t.FormBlock) -> Form | None:
        name = block.line.name.text if block.line.name else ""
        self.places["chords"] = block.rows[0].span.to(block.rows[-1].span)
        bars = []
        problems: list[Problem] = []
        for row in block.rows:
            for words in row.bars:
                chords, found = read_bar(words)
                bars.append(chords)
                problems += found
        if len(bars) > MOST_FORM_BARS:
            problems.append(
                kinds.FormTooLong(block.rows[-1].span, length=len(bars), most=MOST_FORM_BARS)
            )
        self.problems += problems
        if problems:
            return None
        if (known := built_in_form(name)) and block.line.name:
            self.problems.append(kinds.FormOwnChords(block.line.name.span, found=known.name))
        lines = (tuple(bars[at : at + BARS_A_LINE]) for at in range(0, len(bars), BARS_A_LINE))
        return Form(name or f"own form of {len(bars)} bars", tuple(lines))

    def _with_ending(self, form: Form, bars: t.ChordBars) -> Form | None:
        ending, problems = read_ending(bars, form)
        self.problems += problems
        if ending is None:
            self.unread.add("form")
            return None
        return with_ending(form, ending)


def read_facts(tree: t.FileTree, lesson: bool) -> tuple[Facts, list[Problem]]:
    """The facts of a lesson, or of a shelf (`lesson` False), with defaults; and the problems."""
    reader = _Reader(tree)
    tuning = reader.tuning()
    form = reader.form()
    given = {fact.field: reader.value(fact) for fact in FACTS if fact.word in reader.lines}
    facts = Facts(**{field: value for field, value in given.items() if value is not None})
    facts = facts._replace(
        harp=Harp(facts.harp.key, facts.harp.register, tuning or RICHTER),
        form=form,
        places=reader.places,
        unread=Unread.of_facts(*reader.unread),
    )
    if lesson:
        reader.problems += _missing(tree, facts) + _learn_too_fast(facts)
    else:
        reader.problems += [kinds.ShelfForm(block.line.keyword.span) for block in tree.forms]
        needless = [fact for fact in ("title", "harp", "tempo") if fact in facts.places]
        reader.problems += [
            kinds.ShelfPlay(play.line.keyword.span, needless=needless) for play in tree.plays
        ]
    return facts, reader.problems


def _learn_too_fast(facts: Facts) -> list[Problem]:
    """A problem if the start tempo is above the tempo of the tune."""
    if facts.learn is None or facts.learn <= facts.tempo or "tempo" not in facts.places:
        return []
    place = facts.places["learn"]
    return [kinds.LearnAboveTempo(place, learn=facts.learn, tempo=facts.tempo)]


def _missing(tree: t.FileTree, facts: Facts) -> list[Problem]:
    """Problems for missing facts that a lesson requires."""
    top = Span(tree.source, 0, 0)
    return [
        fact.missing(top)
        for fact in FACTS
        if fact.missing and fact.word not in facts.places and facts.known(fact.word)
    ]
