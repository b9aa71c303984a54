"""A recast lick as text to paste: in its named rhythm if the lick has one."""

from __future__ import annotations

from formsheet.language import tree as t
from formsheet.language.made import word
from formsheet.language.writer import lines_text, music
from formsheet.lesson.model import Kind, Lick, LickBar
from formsheet.lesson.writing import bar_marks, lick_lines
from formsheet.music.rhythm import Value


def rhythm_of(name: str, tree: t.FileTree) -> t.RhythmBlock | None:
    """The rhythm, defined in the same file, in which a lick is written; None if there is none."""
    blocks = {block.name.text: block for block in tree.rhythms}
    for lick in tree.licks:
        if lick.name.text == name and lick.line and lick.line.rhythm:
            return blocks.get(lick.line.rhythm.text)
    return None


def lines_in_rhythm(lick: Lick, rhythm: str | None) -> list[t.Line]:
    """The lines of a lick; only the notes if it is in a rhythm."""
    lines = lick_lines(lick)
    if rhythm is None:
        return lines
    head, *others = lines
    assert isinstance(head, t.LickLine)
    notes = [mark for mark in bar_marks(lick.bars) if isinstance(mark, t.NoteMark)]
    return [
        head._replace(rhythm=word(rhythm)),
        *(line for line in others if isinstance(line, t.PickupLine)),
        *music(notes),
        *(line for line in others if isinstance(line, t.TipLine)),
    ]


def lick_as_text(lick: Lick, rhythm: t.RhythmBlock | None) -> str:
    """The text of a lick, its notes aligned with the places of its rhythm."""
    name = rhythm.name.text if rhythm else None
    return lines_text(lines_in_rhythm(lick, name))


def same_rhythm(first: Lick, second: Lick) -> bool:
    """Whether two licks differ only in their notes."""
    return [_values(bar) for bar in first.bars] == [_values(bar) for bar in second.bars]


def _values(bar: LickBar) -> list[tuple[Kind, Value, bool | None]]:
    return [(mark.kind, mark.value, mark.swings) for mark in bar]
