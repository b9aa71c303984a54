"""Lines to blocks: a lick and its music, a form and its chords, a play and its bars."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from itertools import pairwise

from formsheet.language import tree as t
from formsheet.language.expected import TERMINAL_WORDS
from formsheet.language.nameless import (
    is_nameless,
    is_value_for_name,
    name_of,
    value_for_name,
)
from formsheet.language.recovery import LINE, Unread
from formsheet.language.strays import looks_like_chord, looks_like_music, stray_mistakes
from formsheet.problems import kinds
from formsheet.problems.nearest import Names
from formsheet.problems.problem import Problem
from formsheet.source import Source, Span
from formsheet.suffixes import SHELF_SUFFIX
from formsheet.vocabulary.facts import FACT_OF, TEXT_FACTS
from formsheet.vocabulary.lines import LINE_WORDS, USAGE

#: Words that a teacher may well write, and what to write for them.
MEANT = {
    "bpm": "the tempo is a line such as `tempo 104`",
    "key": "the song's key follows from `harp` and `position`",
    "swing": "the feel of the whole lesson is a line such as `feel swing`",
    "chord": "the chords come from the `form`",
    "chords": "the chords come from the `form`",
}

#: Words that a musician has for a fact, each with its keyword and how its value looks.
OTHER_WORDS = {
    "time": ("meter", r"\d+/\d+"),
    "signature": ("meter", r"\d+/\d+"),
    "time-signature": ("meter", r"\d+/\d+"),
    "speed": ("tempo", r"\d+"),
}

_BULLETS = frozenset("•●○◦▪▫■□‣⁃·∙➢➤")
_NUMBER_OR_DASH = r"[*+>–—-]|\d{1,2}[.)]"  # a bullet only before a word that begins a line
_FIRST_WORDS = frozenset((*FACT_OF, *LINE_WORDS, "last"))
_FENCE = r"(?:`{3,}|~{3,})[\w-]*"
_NUMBERED = re.compile(r"[^\S\n]*(#\d\S*)")

_PlacingLine = t.EveryLine | t.BarsLine | t.EndingLine
_Block = t.TuningBlock | t.FormBlock | t.RhythmBlock | t.LickBlock | t.PlayBlock | None


def gather(source: Source, lines: list[t.Line]) -> tuple[t.FileTree, list[Problem]]:
    """The file's tree; a line that stands where it cannot belong is a problem."""
    gatherer = _Gatherer(source, has_play=any(map(_is_play, lines)))
    for line in lines:
        gatherer.take(line)
    gatherer.finish()
    return gatherer.tree, gatherer.problems


class _Gatherer:
    """Keeps the block that the next line may belong to."""

    def __init__(self, source: Source, has_play: bool) -> None:
        # On a shelf a forgotten `play` is no slip: it has no place there.
        self.has_play = has_play or source.name.endswith(SHELF_SUFFIX)
        self.run = False  # the line before was one of them
        self.early: list[_PlacingLine] = []  # lines of a play that stand above it
        self.tree = t.FileTree(source)
        self.problems: list[Problem] = []
        self.block: _Block = None
        self.text_line: str | None = None  # the keyword of the line before, where it takes a text
        self.given: set[str] = set()  # keywords of the facts so far
        self.unnamed: list[tuple[t.RhythmLine, t.RhythmBlock]] = []
        self.lick_lost = False  # a lick without its name
        self.lost_names: set[str] = set()  # words of unread lines
        self.lost_facts: set[str] = set()  # keywords of unread lines
        self.words_above = Names((*FACT_OF, *LINE_WORDS))  # before the first lick
        self.words_below = Names((*LINE_WORDS, "swing", "straight"))

    def take(self, line: t.Line) -> None:
        """Put a line where it belongs."""
        self._take(line)
        placing = isinstance(line, _PlacingLine)
        self.run = placing and not isinstance(self.block, t.PlayBlock)
        is_text = isinstance(line, t.TipLine) or (
            isinstance(line, t.Fact) and line.keyword.text in TEXT_FACTS
        )
        if is_text:
            assert isinstance(line, t.TipLine | t.Fact)
            self.text_line = line.keyword.text
            self._tell_cut_text(line.text if isinstance(line, t.TipLine) else line.words[0])
        elif not isinstance(line, t.MusicLine):
            self.text_line = None

    def _tell_cut_text(self, text: t.Word) -> None:
        """A number sign in a text is more likely meant than a comment: `my #1 foot`."""
        source, end = text.span.source, text.span.end
        if found := _NUMBERED.match(source.text, end):
            span = Span(source, found.start(1), found.end(1))
            self.problems.append(kinds.TextCut(span, found=found[1], text=text.span))

    def _take(self, line: t.Line) -> None:
        match line:
            case t.Fact() | t.TuningLine() | t.FormLine() | t.Use():
                self._take_fact(line)
            case t.ReedLine(keyword):
                if isinstance(self.block, t.TuningBlock):
                    self.block.reeds.append(line)
                else:
                    self._misplaced(keyword, "tuning")
            case t.ChordLine():
                if isinstance(self.block, t.FormBlock):
                    self.block.rows.append(line)
                else:
                    self.problems.append(kinds.ChordsMisplaced(line.span))
            case t.RhythmLine(keyword, name, marks):
                self._open(rhythm := t.RhythmBlock(keyword, name))
                if is_value_for_name(line):
                    rhythm.unread = LINE
                    self.unnamed.append((line, rhythm))
                else:
                    self._add_marks(rhythm, marks)
            case t.LickLine(name=name):
                self._open(t.LickBlock(name, line))
            case t.PlayLine():
                self._open(t.PlayBlock(line))
            case t.MusicLine():
                self._take_music(line)
            case t.PickupLine(keyword, marks, _):
                if isinstance(self.block, t.LickBlock):
                    self.block.pickups.append(line)
                    self._report_strays(self.block, marks)
                else:
                    self._misplaced(keyword, "lick")
            case t.TipLine(keyword):
                if isinstance(self.block, t.LickBlock):
                    self.block.tips.append(line)
                else:
                    self._misplaced(keyword, "lick")
            case t.EveryLine() | t.BarsLine() | t.EndingLine():
                self._take_placing(line)
            case t.UnreadLine(words):
                self._take_unread(words[0].text, words)

    def finish(self) -> None:
        """What is known only when all lines are: which names were forgotten, and what is lost."""
        rhythms = {rhythm.name.text for rhythm in self.tree.rhythms}
        asked = (lick.line.rhythm for lick in self.tree.licks if lick.line and lick.line.rhythm)
        wanted = [word for word in asked if word.text not in rhythms]
        for line, rhythm in self.unnamed:
            name = wanted[0] if wanted else None
            self.problems.append(value_for_name(line, name and name.text))
            rhythm.name = name or rhythm.name
            wanted = [word for word in wanted if word.text != rhythm.name.text]
        if self.lick_lost:
            for play in self.tree.plays:
                self.lost_names |= {each.name.text for each in _placed(play)}
        self.tree.unread = Unread(frozenset(self.lost_names), frozenset(self.lost_facts))

    def _open(self, block: t.RhythmBlock | t.LickBlock | t.PlayBlock) -> None:
        self.block = block
        match block:
            case t.RhythmBlock():
                self.tree.rhythms.append(block)
            case t.LickBlock():
                self.tree.licks.append(block)
            case t.PlayBlock():
                self.tree.plays.append(block)
                _add_early(self.early, block)
                self.early = []

    def _take_placing(self, line: _PlacingLine) -> None:
        if not isinstance(self.block, t.PlayBlock) and not self.has_play:
            self._open_forgotten(line.keyword)
        match self.block, line:
            case t.PlayBlock() as play, t.EveryLine():
                play.every.append(line)
            case t.PlayBlock() as play, t.BarsLine():
                play.bars.append(line)
            case t.PlayBlock() as play, t.EndingLine():
                play.endings.append(line)
            case _:
                if not self.run:
                    self._misplaced(line.keyword, "play")
                if self.tree.plays:
                    _add_early([line], self.tree.plays[-1])
                else:
                    self.early.append(line)

    def _open_forgotten(self, keyword: t.Word) -> None:
        """Read the lines of a play whose first line was forgotten as what they are."""
        if self.tree.plays:
            self.block = self.tree.plays[-1]
        else:
            self.problems.append(kinds.PlayForgotten(keyword.span, found=keyword.text))
            self._open(t.PlayBlock(t.PlayLine(keyword, None, None)))

    def _take_fact(self, line: t.Fact | t.TuningLine | t.FormLine | t.Use) -> None:
        self.block = None
        word = line.keyword
        if (self.tree.licks or self.tree.plays) and not self._given(word.text):
            early = [lick.name.span for lick in self.tree.licks[:1]]
            early += [play.line.keyword.span for play in self.tree.plays[:1]]
            first = min(early, key=lambda span: span.start)
            lick = first if isinstance(line, t.Fact | t.Use) else None
            self.problems.append(kinds.FactLate(word.span, fact=word.text, lick=lick))
        match line:
            case t.Fact():
                self.tree.facts.append(line)
                self.given.add(word.text)
            case t.TuningLine():
                self.block = t.TuningBlock(line)
                self.tree.tunings.append(self.block)
            case t.FormLine():
                self.block = t.FormBlock(line)
                self.tree.forms.append(self.block)
            case t.Use():
                self.tree.uses.append(line)

    def _given(self, keyword: str) -> bool:
        """Whether a fact that is given once stands above: giving it twice is told elsewhere."""
        match keyword:
            case "tuning":
                return bool(self.tree.tunings)
            case "form":
                return bool(self.tree.forms)
            case _:
                return keyword in self.given and not FACT_OF[keyword].repeats

    def _take_music(self, line: t.MusicLine) -> None:
        first, *others = line.marks
        if _is_decoration(first, others):
            self.problems.append(kinds.LineDecorated(first.span, alone=not others))
            words = (t.Word(mark.span.text, mark.span) for mark in others or line.marks)
            self._take_unread(line.marks[-len(others)].span.text, tuple(words))
        elif isinstance(self.block, t.FormBlock) and _like_chords(line):
            self._take_chords(self.block, line)
        elif _has(first, t.Sign.STRAY) and not looks_like_music(first.span.text):
            self._take_unknown(line)
        elif isinstance(self.block, t.LickBlock | t.RhythmBlock):
            self._add_marks(self.block, line.marks)
        elif _has(first, t.Sign.STRAY) and not first.span.text[0].isalnum():
            self._take_unknown(line)
        else:
            self.problems.append(kinds.MusicMisplaced(line.span))

    def _take_chords(self, form: t.FormBlock, line: t.MusicLine) -> None:
        """Chords of an own form that are none of ours, or bar lines with nothing between."""
        form.unread = LINE
        words = [mark.span for mark in line.marks if not _has(mark, t.Sign.BAR)]
        span = next((word for word in words if not looks_like_chord(word.text)), None)
        if span:
            self.problems.append(kinds.ChordUnknown(span, found=span.text))
            return
        doubled = [
            mark.span
            for before, mark in pairwise(line.marks)
            if _has(before, t.Sign.BAR) and _has(mark, t.Sign.BAR)
        ]
        self.problems.append(
            kinds.WordUnexpected((doubled or [line.span])[0], found="|",
                  wanted=[TERMINAL_WORDS["CHORD"]],
                  chord_expected=True, usage=USAGE["|"])
        )  # fmt: skip

    def _take_unknown(self, line: t.MusicLine) -> None:
        """A line that begins with a word the language does not know."""
        first, *others = (t.Word(mark.span.text, mark.span) for mark in line.marks)
        late = self.tree.licks or self.tree.plays
        names = self.words_below if late else self.words_above
        if others and (word := _of_two_words(first, others[0], names)):
            first, *others = word, *others[1:]
        if not late and (plain := _plain_word(first, others)):
            self.problems.append(
                kinds.WordUnknown(first.span, found=first.text, near=None, plain=None, meant=None,
                      text_line=None, synonym=plain)
            )  # fmt: skip
            self._take_unread(plain, (first, *others))
            return
        known = names.nearest(first.text)
        if known == "last time" and others and others[0].text.casefold() == "time":
            both = first.span.to(others[0].span)
            first, *others = t.Word(both.text, both), *others[1:]
        meant = MEANT.get(first.text.casefold())
        known = None if meant else known
        text_line = None if known or meant else self.text_line
        plain = None if known or meant or text_line else first.text
        self.problems.append(
            kinds.WordUnknown(first.span, found=first.text, near=known, plain=plain,
                  meant=meant, text_line=text_line)
        )  # fmt: skip
        self._take_unread(known or "", (first, *others))

    def _take_unread(self, keyword: str, words: tuple[t.Word, ...]) -> None:
        """Keep what an unread line would have begun, and what is lost with it."""
        if is_nameless(words):
            name = t.Word(name_of(words[1].text, words[0].text, ""), words[1].span)
            words = (words[0], name)
            self.lick_lost = True
        first, *others = words
        self.lost_names.update(word.text for word in others)
        if keyword in FACT_OF:
            self.lost_facts.add(keyword)
            self.block = None
        if keyword == "form":
            self.block = t.FormBlock(t.FormLine(first, None), unread=LINE)
            self.tree.forms.append(self.block)
        elif keyword == "tuning":
            self.block = t.TuningBlock(t.TuningLine(first, first))
        elif keyword == "play":
            self._open(t.PlayBlock(t.PlayLine(first, None, None), unread=LINE))
        elif keyword in ("lick", "turnaround") and others:
            self._open(t.LickBlock(others[0], None, unread=LINE))
        elif keyword == "rhythm" and others:
            self._open(t.RhythmBlock(first, others[0], unread=LINE))
        elif isinstance(self.block, t.TuningBlock | None) and keyword not in FACT_OF:
            self.block = t.LickBlock(first, None, unread=LINE)  # not of the tree: only its music
        elif keyword != "tip" and not isinstance(self.block, t.TuningBlock | None):
            self.block.unread = LINE

    def _add_marks(self, block: t.LickBlock | t.RhythmBlock, marks: t.Marks) -> None:
        block.marks.extend(marks)
        self._report_strays(block, marks)

    def _report_strays(self, block: t.LickBlock | t.RhythmBlock, marks: t.Marks) -> None:
        strays = [m for m in marks if isinstance(m, t.Mark) and m.sign is t.Sign.STRAY]
        if strays:
            block.unread = LINE
        if isinstance(block, t.RhythmBlock):  # the rest of a name of two words
            self.lost_names.update(mark.span.text for mark in strays)
        # The 2 of `]2` is told as a group that does not say how often it is played.
        uncounted = {m.span.end for m in marks if isinstance(m, t.Mark) and m.text == "]"}
        self.problems += stray_mistakes(m for m in strays if m.span.start not in uncounted)

    def _misplaced(self, keyword: t.Word, owner: str) -> None:
        self.problems.append(kinds.LineMisplaced(keyword.span, found=keyword.text, owner=owner))


def _is_decoration(first: t.AnyMark, others: Sequence[t.AnyMark]) -> bool:
    """A bullet or a number before a line, or a line of signs that goes round a copied text."""
    text = first.span.text
    if not others:
        return bool(re.fullmatch(_FENCE, text))
    keyword = others[0].span.text in _FIRST_WORDS
    return bool(text in _BULLETS or (keyword and re.fullmatch(_NUMBER_OR_DASH, text)))


def _of_two_words(first: t.Word, second: t.Word, names: Names) -> t.Word | None:
    """A word of the language written as two: `turn around`, `count in`."""
    span = first.span.to(second.span)
    both = [f"{first.text}{joint}{second.text}".casefold() for joint in ("", "-")]
    found = any(word in names.listed for word in both)
    return t.Word(" ".join(span.text.split()), span) if found else None


def _plain_word(first: t.Word, others: Sequence[t.Word]) -> str | None:
    """The keyword of a fact for which a musician has another word, with a value that it takes."""
    keyword, value = OTHER_WORDS.get(first.text.casefold(), ("", ""))
    return keyword if len(others) == 1 and re.fullmatch(value, others[0].text) else None


def _is_play(line: t.Line) -> bool:
    """Whether a line begins a play, or was meant to: `Play`, `play:`."""
    match line:
        case t.PlayLine():
            return True
        case t.UnreadLine(words):
            return words[0].text == "play"
        case t.MusicLine(marks):
            return marks[0].span.text.casefold().rstrip(":") == "play"
        case _:
            return False


def _add_early(lines: Sequence[_PlacingLine], play: t.PlayBlock) -> None:
    """Read lines that stand in the wrong place as the play's, so that its bars are not told too."""
    play.every += [line for line in lines if isinstance(line, t.EveryLine)]
    play.bars += [line for line in lines if isinstance(line, t.BarsLine)]
    play.endings += [line for line in lines if isinstance(line, t.EndingLine)]


def _placed(play: t.PlayBlock) -> Iterator[t.Placed]:
    for every in play.every:
        yield from every.placed
    for bars in play.bars:
        yield from bars.placed


def _has(mark: t.AnyMark, sign: t.Sign) -> bool:
    return isinstance(mark, t.Mark) and mark.sign is sign


def _like_chords(line: t.MusicLine) -> bool:
    """Whether a line of no marks but bar lines and words is meant as chords."""
    signs = {mark.sign if isinstance(mark, t.Mark) else None for mark in line.marks}
    return t.Sign.BAR in signs and signs <= {t.Sign.BAR, t.Sign.STRAY}
