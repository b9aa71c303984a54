"""Lines to blocks: a lick and its music, a form and its chords, a play and its bars."""

from __future__ import annotations

from formsheet.language import tree as t
from formsheet.language.mistakes import stray_mistake
from formsheet.problems.nearest import nearest
from formsheet.problems.problem import Problem, error
from formsheet.source import Source

FACT_WORDS = ("title", "teacher", "rights", "date", "say", "harp", "tuning", "position", "form",
              "meter", "tempo", "learn", "feel", "count-in", "use")  # fmt: skip
BLOCK_WORDS = ("rhythm", "lick", "turnaround", "pickup", "tip", "play", "every", "bars", "bar",
               "last time", "blow", "draw")  # fmt: skip

_Block = t.TuningBlock | t.FormBlock | t.RhythmBlock | t.LickBlock | t.PlayBlock | None


def gather(source: Source, lines: list[t.Line]) -> tuple[t.FileTree, list[Problem]]:
    """The file's tree; a line that stands where it cannot belong is a problem."""
    gatherer = _Gatherer(source)
    for line in lines:
        gatherer.take(line)
    return gatherer.tree, gatherer.problems


class _Gatherer:
    """Keeps the block that the next line may belong to."""

    def __init__(self, source: Source) -> None:
        self.tree = t.FileTree(source)
        self.problems: list[Problem] = []
        self.block: _Block = None

    def take(self, line: t.Line) -> None:
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
                    self.problems.append(error("chords-misplaced", line.span))
            case t.RhythmLine(keyword, name, marks):
                self._open(rhythm := t.RhythmBlock(keyword, name))
                self._add_marks(rhythm, marks)
            case t.LickLine(name=name):
                self._open(t.LickBlock(name, line))
            case t.PlayLine():
                self._open(t.PlayBlock(line))
            case t.MusicLine():
                self._take_music(line)
            case t.PickupLine(keyword, marks):
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
            case t.EveryLine(keyword):
                if isinstance(self.block, t.PlayBlock):
                    self.block.every.append(line)
                else:
                    self._misplaced(keyword, "play")
            case t.BarsLine(keyword):
                if isinstance(self.block, t.PlayBlock):
                    self.block.bars.append(line)
                else:
                    self._misplaced(keyword, "play")
            case t.BrokenLine(words):
                self._take_broken(words[0].text if words else "", words[1:])

    def _open(self, block: t.RhythmBlock | t.LickBlock | t.PlayBlock) -> None:
        self.block = block
        match block:
            case t.RhythmBlock():
                self.tree.rhythms.append(block)
            case t.LickBlock():
                self.tree.licks.append(block)
            case t.PlayBlock():
                self.tree.plays.append(block)

    def _take_fact(self, line: t.Fact | t.TuningLine | t.FormLine | t.Use) -> None:
        self.block = None
        if self.tree.licks or self.tree.plays:
            word = line.keyword
            self.problems.append(error("fact-late", word.span, fact=word.text))
        match line:
            case t.Fact():
                self.tree.facts.append(line)
            case t.TuningLine():
                self.block = t.TuningBlock(line)
                self.tree.tunings.append(self.block)
            case t.FormLine():
                self.block = t.FormBlock(line)
                self.tree.forms.append(self.block)
            case t.Use():
                self.tree.uses.append(line)

    def _take_music(self, line: t.MusicLine) -> None:
        first = line.marks[0]
        if _is_unknown_word(first) and not (
            isinstance(first, t.Mark) and first.text in "xX" and len(first.text) == 1
        ):
            self._take_unknown(line)
        elif isinstance(self.block, t.LickBlock | t.RhythmBlock):
            self._add_marks(self.block, line.marks)
        else:
            self.problems.append(error("music-misplaced", line.span))

    def _take_unknown(self, line: t.MusicLine) -> None:
        """A line that begins with a word the language does not know."""
        first, *others = line.marks
        word = first.span.text
        known = nearest(word, (*FACT_WORDS, *BLOCK_WORDS))
        self.problems.append(error("word-unknown", first.span, found=word, near=known))
        words = tuple(t.Word(mark.span.text, mark.span) for mark in others)
        self._take_broken(known or "", words)

    def _take_broken(self, keyword: str, words: tuple[t.Word, ...]) -> None:
        """Keep what a broken line would have begun, so that nothing is blamed on its loss."""
        name = words[0] if words else None
        if keyword in FACT_WORDS:
            self.tree.broken_facts.add(keyword)
            self.block = None
        if keyword == "form" and name:
            self.block = t.FormBlock(t.FormLine(name, None, None), broken=True)
            self.tree.forms.append(self.block)
        elif keyword in ("lick", "turnaround") and name:
            self._open(t.LickBlock(name, None, broken=True))
        elif keyword == "rhythm" and name:
            self._open(t.RhythmBlock(name, name, broken=True))
        elif keyword == "play" and name:
            self._open(t.PlayBlock(t.PlayLine(name, None, None), broken=True))
        elif keyword != "tip" and not isinstance(self.block, t.TuningBlock | None):
            self.block.broken = True

    def _add_marks(self, block: t.LickBlock | t.RhythmBlock, marks: t.Marks) -> None:
        block.marks.extend(marks)
        self._report_strays(block, marks)

    def _report_strays(self, block: t.LickBlock | t.RhythmBlock, marks: t.Marks) -> None:
        in_rhythm = isinstance(block, t.RhythmBlock)
        strays = [m for m in marks if isinstance(m, t.Mark) and m.sign is t.Sign.STRAY]
        self.problems += [stray_mistake(mark, in_rhythm) for mark in strays]
        block.broken = block.broken or bool(strays)

    def _misplaced(self, keyword: t.Word, owner: str) -> None:
        self.problems.append(error("line-misplaced", keyword.span, found=keyword.text, owner=owner))


def _is_unknown_word(mark: t.AnyMark) -> bool:
    """A first word that is more likely a misspelt keyword than a misspelt note."""
    return isinstance(mark, t.Mark) and mark.sign is t.Sign.STRAY and mark.text[0].isalpha()
