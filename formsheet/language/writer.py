"""The writer: lines of the tree to the text of a file. The parser's other half.

A file is a row of lines, comments and blank lines. Blank lines are kept, several as one, and one
is put before each block; comments at line ends are aligned.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from formsheet.language import tree as t
from formsheet.language.aligned import INDENT, line_texts
from formsheet.language.written import WIDEST, music_lines

_BEFORE_COMMENT = "  "


@dataclass(frozen=True)
class Row:
    """One line of a file: what it says, its comment from the `#` on, or neither."""

    line: t.Line | None = None
    comment: str = ""
    indented: bool = False  # of a comment alone

    @property
    def blank(self) -> bool:
        """Whether the line is empty."""
        return self.line is None and not self.comment


BLANK = Row()


def rows_text(rows: Sequence[Row]) -> str:
    """A file's text from its rows."""
    spaced = _spaced(rows)
    texts = iter(line_texts([row.line for row in spaced if row.line]))
    pairs = [(next(texts) if row.line else "", row) for row in spaced]
    return "".join(f"{text}\n" for text in _with_comments(pairs))


def lines_text(lines: Sequence[t.Line]) -> str:
    """The text of lines that were made: blocks apart, no comments."""
    return rows_text([Row(line) for line in lines])


def tree_text(tree: t.FileTree) -> str:
    """The text of a whole tree. Parsed again it is the same tree, but for the places."""
    return lines_text(lines_of(tree))


def lines_of(tree: t.FileTree) -> list[t.Line]:
    """The lines of a tree, block after block."""
    lines: list[t.Line] = [*tree.facts]
    for tuning in tree.tunings:
        lines += [tuning.line, *tuning.reeds]
    for form in tree.forms:
        lines += [form.line, *form.rows]
    lines += tree.uses
    lines += [t.RhythmLine(rhythm.keyword, rhythm.name, tuple(rhythm.marks))
              for rhythm in tree.rhythms]  # fmt: skip
    for lick in tree.licks:
        lines += [lick.line, *lick.pickups] if lick.line else []
        lines += music(lick.marks)
        lines += lick.tips
    for play in tree.plays:
        lines += [play.line, *play.every, *play.bars, *play.endings]
    return lines


def music(marks: Sequence[t.AnyMark]) -> list[t.MusicLine]:
    """Marks as lines of music, none too wide."""
    broken = music_lines(marks, WIDEST - len(INDENT)) if marks else []
    return [t.MusicLine(tuple(line), line[0].span) for line in broken]


# ---- Blank lines -----------------------------------------------------------------------------


def _spaced(rows: Sequence[Row]) -> list[Row]:
    """Blank lines as they are kept: none at the ends, one before a block."""
    spaced: list[Row] = []
    before: t.Line | None = None
    for row in rows:
        if row.line and before and _apart(before, row.line):
            _part(spaced)
        before = row.line or before
        if not row.blank or (spaced and not spaced[-1].blank):
            spaced.append(row)
    while spaced and spaced[-1].blank:
        spaced.pop()
    return spaced


def _apart(before: t.Line, line: t.Line) -> bool:
    """Whether a blank line belongs before a line, given the line before it."""
    match line:
        case t.LickLine() | t.PlayLine():
            return True
        case t.RhythmLine():
            return not isinstance(before, t.RhythmLine | t.MusicLine)
        case t.Use():
            return not isinstance(before, t.Use)
        case _:
            return False


def _part(rows: list[Row]) -> None:
    """Put a blank line at the end, but above the comments that lead to what follows."""
    at = len(rows)
    while at and rows[at - 1].comment and not rows[at - 1].line and not rows[at - 1].indented:
        at -= 1
    if at and not any(row.blank for row in rows[at - 1 :]):
        rows.insert(at, BLANK)


# ---- Comments --------------------------------------------------------------------------------


def _with_comments(pairs: Sequence[tuple[str, Row]]) -> list[str]:
    """Each line's text with its comment, those of lines in a row below each other."""
    texts: list[str] = []
    column = 0
    for at, (text, row) in enumerate(pairs):
        if row.line is None:
            texts.append((INDENT if row.indented else "") + row.comment)
        elif not row.comment:
            texts.append(text)
        else:
            if at == 0 or not _ends_in_comment(pairs[at - 1][1]):
                column = _comment_column(pairs[at:])
            texts.append(text.ljust(column) + _BEFORE_COMMENT + row.comment)
    return texts


def _ends_in_comment(row: Row) -> bool:
    return bool(row.line and row.comment)


def _comment_column(pairs: Sequence[tuple[str, Row]]) -> int:
    """The widest of the lines from here on that end in a comment without one between."""
    widest = 0
    for text, row in pairs:
        if not _ends_in_comment(row):
            break
        widest = max(widest, len(text))
    return widest
