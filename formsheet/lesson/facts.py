"""Facts: the lines before the first lick, read and checked."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from fractions import Fraction
from typing import TypeVar

from formsheet.language import tree as t
from formsheet.language.recovery import Unread
from formsheet.lesson.chords import read_bar, read_ending
from formsheet.lesson.fact_values import (
    FASTEST,
    POSITIONS,
    SLOWEST,
    harp_of,
    harp_words,
    position_of_words,
    tempo_of,
)
from formsheet.lesson.model import Facts, Level
from formsheet.lesson.tuning import read_tuning
from formsheet.music.form import BARS_A_LINE, FORMS, Form, built_in_form, with_ending
from formsheet.music.harp import HARP_KEYS, REGISTERS, Harp
from formsheet.music.rhythm import METERS, Meter
from formsheet.music.swing import STRAIGHT, SWING, Feel, parse_ratio
from formsheet.music.tunings import RICHTER, Tuning
from formsheet.problems import kinds
from formsheet.problems.nearest import nearest
from formsheet.problems.problem import Problem, Related
from formsheet.source import Span

REQUIRED = ("title", "harp", "form", "tempo")  # of a lesson; a shelf needs none
_REPEATABLE = ("say",)

_MOST_COUNT_IN = 4
MOST_FORM_BARS = 64

#: Other words that players have for a feel. Common practice, no source.
_FEELS_MEANT = {"shuffle": "swing", "shuffled": "swing", "swung": "swing", "even": "straight"}

T = TypeVar("T")


def position_name(position: int) -> str:
    """1 is "1st", 2 is "2nd"."""
    return POSITIONS[position - 1]


class _Reader:
    """Reads facts one by one, remembering where each stood and what went wrong."""

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
            if keyword not in _REPEATABLE:
                self._told_twice(keyword, [line.keyword for line in lines])

    def _told_twice(self, keyword: str, words: Sequence[t.Word]) -> None:
        first = Related(words[0].span, "first here") if words else None
        for word in words[1:]:
            assert first is not None
            self.problems.append(kinds.FactTwice(word.span, (first,), fact=keyword))

    def text(self, keyword: str) -> str:
        lines = self.lines.get(keyword)
        text = lines[0].words[0].text if lines else ""
        if lines and not text.strip():
            self.wrong(keyword, kinds.TextEmpty(lines[0].value, fact=keyword))
        return text

    def wrong(self, keyword: str, problem: Problem) -> None:
        self.problems.append(problem)
        self.unread.add(keyword)

    def read(self, keyword: str, default: T, read: Callable[[t.Fact], T | None]) -> T:
        """The fact's value; the default where it is absent or wrong."""
        lines = self.lines.get(keyword)
        value = read(lines[0]) if lines else None
        return default if value is None else value

    # -- one method a fact

    def harp(self, line: t.Fact) -> Harp | None:
        text = " ".join(word.text for word in line.words)
        if harp := harp_of(text):
            return harp
        register, key = harp_words(text)
        if register not in REGISTERS and key in HARP_KEYS:
            span = line.words[0].span.to(line.words[-2].span)
            near = nearest(register, filter(None, REGISTERS))
            self.wrong("harp", kinds.HarpRegister(span, found=register, key=key, near=near))
            return None
        from formsheet.lesson.misnamed import harp_meant  # most lessons name one

        span = line.words[-1].span if register in REGISTERS else line.value
        near, german = harp_meant(span.text)
        self.wrong("harp", kinds.HarpUnknown(span, found=span.text, near=near, german=german))
        return None

    def position(self, line: t.Fact) -> int | None:
        position = position_of_words(line.value.text)
        if position is None:
            from formsheet.lesson.misnamed import position_meant

            meant, nickname = position_meant(line.value.text)
            plain = None if nickname else meant
            problem = kinds.PositionUnknown(
                line.value, found=line.value.text, meant=meant, nickname=nickname, plain=plain
            )
            self.wrong("position", problem)
        return position

    def meter(self, line: t.Fact) -> Meter | None:
        if line.value.text not in METERS:
            problem = kinds.MeterUnknown(line.value, found=line.value.text, known=list(METERS))
            self.wrong("meter", problem)
            return None
        return METERS[line.value.text]

    def tempo(self, line: t.Fact) -> Fraction | None:
        keyword, text = line.keyword.text, line.value.text
        tempo = tempo_of(text)
        if tempo is None:
            problem = kinds.TempoUnknown(
                line.value, found=text, fact=keyword, slowest=SLOWEST, fastest=FASTEST
            )
            self.wrong(keyword, problem)
        return tempo

    def feel(self, line: t.Fact) -> Feel | None:
        word, *ratio = [word.text for word in line.words]
        if word == "straight" and not ratio:
            return STRAIGHT
        if word == "swing" and not ratio:
            return SWING
        if word == "swing" and len(ratio) == 1 and (feel := parse_ratio(ratio[0])):
            return feel
        found = line.value.text
        if word == "swing":
            self.wrong("feel", kinds.FeelRatio(line.value, found=found))
        else:
            near = _FEELS_MEANT.get(word.casefold()) or nearest(word, ("swing", "straight"))
            self.wrong("feel", kinds.FeelUnknown(line.value, found=found, near=near))
        return None

    def count_in(self, line: t.Fact) -> int | None:
        text = line.value.text
        if not (text.isdecimal() and len(text) == 1 and int(text) <= _MOST_COUNT_IN):
            problem = kinds.CountInUnknown(line.value, found=text, most=_MOST_COUNT_IN)
            self.wrong("count-in", problem)
            return None
        return int(text)

    def level(self, line: t.Fact) -> Level | None:
        word = line.value.text
        known = [level.value for level in Level]
        if word not in known:
            near = nearest(word, known)
            self.wrong("level", kinds.LevelUnknown(line.value, found=word, near=near, known=known))
            return None
        return Level(word)

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
        form = built_in_form(line.name.text)
        if form is None:
            from formsheet.lesson.misnamed import form_meant

            near = form_meant(line.name.text)
            problem = kinds.FormUnknown(
                line.name.span, found=line.name.text, near=near, known=list(FORMS)
            )
            self.wrong("form", problem)
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
    """The facts of a lesson, or of a shelf (`lesson` False), with defaults for what is absent."""
    reader = _Reader(tree)
    tuning = reader.tuning()
    form = reader.form()
    harp = reader.read("harp", Harp("C"), reader.harp)
    facts = Facts(
        title=reader.text("title"),
        harp=Harp(harp.key, harp.register, tuning or RICHTER),
        position=reader.read("position", 2, reader.position),
        form=form,
        meter=reader.read("meter", METERS["4/4"], reader.meter),
        tempo=reader.read("tempo", Fraction(100), reader.tempo),
        feel=reader.read("feel", STRAIGHT, reader.feel),
        learn=reader.read("learn", None, reader.tempo),
        count_in=reader.read("count-in", 1, reader.count_in),
        level=reader.read("level", Level.IMPROVER, reader.level),
        teacher=reader.text("teacher"),
        rights=reader.text("rights"),
        date=reader.text("date"),
        says=tuple(line.words[0].text for line in reader.lines.get("say", ())),
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
    """A student who would start above the tempo of the tune."""
    if facts.learn is None or facts.learn <= facts.tempo or "tempo" not in facts.places:
        return []
    place = facts.places["learn"]
    return [kinds.LearnAboveTempo(place, learn=facts.learn, tempo=facts.tempo)]


def _missing(tree: t.FileTree, facts: Facts) -> list[Problem]:
    """What a lesson cannot do without."""
    top = Span(tree.source, 0, 0)
    missing = [fact for fact in REQUIRED if fact not in facts.places and facts.known(fact)]
    if not missing:
        return []
    required: dict[str, type[Problem]] = {
        "title": kinds.TitleMissing,
        "harp": kinds.HarpMissing,
        "form": kinds.FormMissing,
        "tempo": kinds.TempoMissing,
    }
    return [required[fact](top) for fact in missing]
