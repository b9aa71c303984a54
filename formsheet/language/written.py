"""Words and marks as they are written: quotes where they are needed, spaces between marks."""

from __future__ import annotations

import re
from collections.abc import Sequence
from itertools import pairwise

from formsheet.language.lines import text_as_read
from formsheet.language.tree import AnyMark, AskedBar, ChordBars, Mark, NoteMark, Placed, Sign, Word
from formsheet.vocabulary.quotes import DOUBLE

WIDEST = 100  # characters of a line, where it can be helped
GAP = 3  # between the first words of a line and what is lined up behind them

#: A word that needs no quotes where the language allows either (`WORD` of the grammar).
_PLAIN = re.compile(r"""[^\s"#,][^\s",]*""")
_KEYWORD = "ending"  # may follow the name of a form
_BREAKS = re.compile(r"[\r\n]+")

_SIGNS = {Sign.REST: "-", Sign.HOLD: "=", Sign.PLACE: "x", Sign.BAR: "|", Sign.OPEN: "[",
          Sign.SWING: "swing", Sign.STRAIGHT: "straight"}  # fmt: skip
_SWITCHES = (Sign.SWING, Sign.STRAIGHT)


def quoted(text: str) -> str:
    """Words in quotes. The language has no escape: of two kinds of quote in it, one gives way."""
    text = _BREAKS.sub(" ", text)
    if '"' not in text:
        return f'"{text}"'
    return f"“{text}”" if "”" not in text else f'"{text.replace(chr(34), chr(39))}"'


def rest_of_line(text: str) -> str:
    """A text that takes the rest of its line; in quotes where it would be read otherwise."""
    text = _BREAKS.sub(" ", text)
    plain = text and not text[0].isspace() and text_as_read(text) == text
    return text if plain else quoted(text)


def name_text(name: str) -> str:
    """A name of one or more words; in quotes where one of them is none, or is a keyword."""
    parts = name.split()
    plain = all(word_text(part) == part != _KEYWORD for part in parts)
    return name if parts and plain and " ".join(parts) == name else quoted(name)


def word_text(word: str) -> str:
    """A name of one word; in quotes where it is none."""
    return word if _PLAIN.fullmatch(word) and not set(DOUBLE) & set(word) else quoted(word)


def note_text(note: NoteMark) -> str:
    """A note with all that is attached to it: `4d'!{wah}"ka"`."""
    over = "o" if note.over else ""
    parts = ["".join(map(str, note.holes)), over, note.breath, "'" * note.ticks]
    parts.append("!" if note.deliberate else "")
    parts.append(f"{{{note.technique.text}}}" if note.technique else "")
    parts.append(quoted(note.syllable.text) if note.syllable else "")
    return "".join(parts)


def mark_text(mark: AnyMark) -> str:
    """Any mark of music."""
    if isinstance(mark, NoteMark):
        return note_text(mark)
    if mark.sign is Sign.CLOSE:
        return "]" if mark.times is None else f"]x{mark.times}"
    return _SIGNS.get(mark.sign, mark.text)


def gap(before: AnyMark, mark: AnyMark) -> str:
    """The space between two marks: a wider one where a value or a bar begins."""
    first = before.sign if isinstance(before, Mark) else None
    second = mark.sign if isinstance(mark, Mark) else None
    if first is Sign.CLOSE and second is Sign.STRAY:
        return ""  # the `2` of `]2`, reported with its bracket
    if first is Sign.BAR or second is Sign.BAR:
        return "  "
    if first is Sign.OPEN or second is Sign.CLOSE or first in _SWITCHES:
        return " "
    return "  " if second is Sign.VALUE or second in _SWITCHES else " "


def music_text(marks: Sequence[AnyMark]) -> str:
    """Marks on one line."""
    parts = [mark_text(mark) for mark in marks[:1]]
    for before, mark in pairwise(marks):
        parts += [gap(before, mark), mark_text(mark)]
    return "".join(parts)


def music_lines(marks: Sequence[AnyMark], width: int) -> list[list[AnyMark]]:
    """Marks broken into lines of at most `width` characters, after a bar line where it can be."""
    lines: list[list[AnyMark]] = [[]]
    for stretch in _stretches(marks):
        if lines[-1] and len(music_text([*lines[-1], *stretch])) > width:
            lines.append([])
        lines[-1] += stretch
    return [part for line in lines for part in _broken(line, width)]


def _stretches(marks: Sequence[AnyMark]) -> list[list[AnyMark]]:
    """Marks bar by bar, each bar line at the end of its bar."""
    found: list[list[AnyMark]] = [[]]
    for mark in marks:
        found[-1].append(mark)
        if isinstance(mark, Mark) and mark.sign is Sign.BAR:
            found.append([])
    return [bar for bar in found if bar]


def _broken(line: list[AnyMark], width: int) -> list[list[AnyMark]]:
    """A bar that is too wide by itself, broken before a mark."""
    parts: list[list[AnyMark]] = [[]]
    used = 0
    for before, mark in zip([None, *line], line, strict=False):
        step = len(mark_text(mark)) + (len(gap(before, mark)) if before else 0)
        if parts[-1] and used + step > width:
            parts.append([])
            used = 0
        parts[-1].append(mark)
        used += step
    return [part for part in parts if part]


def asked_text(bars: Sequence[AskedBar]) -> str:
    """What a lick is written for: `I, IV | I V`."""
    slots = (" ".join(", ".join(word.text for word in slot) for slot in bar) for bar in bars)
    return " | ".join(slots)


def chords_text(bars: ChordBars) -> str:
    """Bars of chords on one line: `I IV | I V`."""
    return " | ".join(joined(*bar) for bar in bars)


def placed_text(items: Sequence[Placed]) -> str:
    """What a line of play places: `porch x2, rest`."""
    return ", ".join(joined(item.name, item.times) for item in items)


def joined(*words: Word | None) -> str:
    """The words that are there, with spaces between."""
    return " ".join(word.text for word in words if word)
