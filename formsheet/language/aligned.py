"""Lines of the tree to lines of text, what belongs together set in columns."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from formsheet.language import tree as t
from formsheet.language.columns import Columns, under
from formsheet.language.rhythm_rows import RhythmRow, notes_of, rhythm_rows
from formsheet.language.written import (
    GAP,
    asked_text,
    chords_text,
    joined,
    music_text,
    name_text,
    placed_text,
    quoted,
    rest_of_line,
    word_text,
)
from formsheet.vocabulary.facts import TEXT_FACTS

INDENT = "  "
_FACT_COLUMN = 10  # where the words of a fact begin: behind the longest keyword
_USUAL_HEAD = len("bars 11-12")

_OPENING = t.Fact | t.TuningLine | t.FormLine | t.Use | t.RhythmLine | t.LickLine | t.PlayLine


@dataclass(frozen=True)
class _Setting:
    """What is alike in a whole file: rhythms by name, where the lines of play place licks."""

    rhythms: dict[str, RhythmRow]
    play_column: int


def line_texts(lines: Sequence[t.Line]) -> list[str]:
    """The text of each line; those of a form, a tuning, a rhythm or a play lined up."""
    setting = _Setting(rhythm_rows(list(_blocks(lines))), _play_column(lines))
    texts: list[str] = []
    for block in _blocks(lines):
        texts += _block_texts(block, setting)
    return texts


def _blocks(lines: Sequence[t.Line]) -> Iterator[list[t.Line]]:
    """Each opening line with the lines that belong to it."""
    block: list[t.Line] = []
    for line in lines:
        if isinstance(line, _OPENING) and block:
            yield block
            block = []
        block.append(line)
    if block:
        yield block


def _block_texts(block: Sequence[t.Line], setting: _Setting) -> list[str]:
    head, *rest = block
    rhythms = setting.rhythms
    match head:
        case t.Fact(keyword):
            return [_fact(keyword.text, _fact_words(head)), *map(_plain, rest)]
        case t.TuningLine(keyword, name):
            return [_fact(keyword.text, name_text(name.text)), *_reeds(rest)]
        case t.FormLine():
            return [_form(head, own=bool(rest)), *_chords(rest)]
        case t.RhythmLine(name=name) if name.text in rhythms and rhythms[name.text].line is head:
            return [rhythms[name.text].text]
        case t.LickLine(rhythm=t.Word(text=name)) if name in rhythms:
            return [_plain(head), *_under_rhythm(rest, rhythms[name].columns)]
        case t.PlayLine():
            return [_plain(head), *_play(rest, setting.play_column)]
        case _:
            return list(map(_plain, block))


def _plain(line: t.Line) -> str:
    """A line by itself."""
    match line:
        case t.MusicLine(marks):
            return INDENT + music_text(marks)
        case t.PickupLine(keyword, marks, once):
            when = " once" if once else ""
            return f"{INDENT}{keyword.text}{when} {music_text(marks)}"
        case t.TipLine(keyword, text):
            return f"{INDENT}{keyword.text} {rest_of_line(text.text)}"
        case t.Use(keyword, items, shelf):
            taken = ", ".join(_taken(item) for item in items)
            return f"{keyword.text} {taken} from {word_text(shelf.text)}"
        case t.RhythmLine(keyword, name, marks):
            return f"{joined(keyword, name)}{' ' * GAP}{music_text(marks)}".rstrip()
        case t.LickLine(keyword, name, title, on, _, rhythm):
            titled = f" {quoted(title.text)}" if title else ""
            timed = f" in {rhythm.text}" if rhythm else ""
            return f"{joined(keyword, name)}{titled} on {asked_text(on)}{timed}"
        case t.PlayLine(keyword, title, count):
            titled = f" {quoted(title.text)}" if title else ""
            return f"{keyword.text}{titled}{f' {count.text}' if count else ''}"
        case _:
            raise TypeError(f"not a line of its own: {line}")


def _taken(item: t.UseItem) -> str:
    return f"{item.name.text} as {item.alias.text}" if item.alias else item.name.text


# ---- Facts ---------------------------------------------------------------------------------


def _fact(keyword: str, words: str) -> str:
    return f"{keyword:<{_FACT_COLUMN}}{words}".rstrip()


def _fact_words(fact: t.Fact) -> str:
    if fact.keyword.text in TEXT_FACTS:
        return rest_of_line(fact.words[0].text)
    return joined(*fact.words)


def _form(line: t.FormLine, own: bool) -> str:
    ending = f"ending {chords_text(line.ending)}" if line.ending else ""
    written = quoted if own else name_text
    name = written(line.name.text) if line.name else ""
    words = f"{name} {ending}".strip()
    return f"{line.keyword.text} {words}" if own else _fact(line.keyword.text, words)


def _chords(rows: Sequence[t.Line]) -> list[str]:
    """The bars of a form, lined up."""
    cells = [
        [" ".join(word.text for word in bar) for bar in row.bars]
        for row in rows
        if isinstance(row, t.ChordLine)
    ]
    return [f"{INDENT}| {' | '.join(row)} |" for row in _lined_up(cells)]


def _reeds(rows: Sequence[t.Line]) -> list[str]:
    """The reeds of a tuning, hole under hole, beginning where the words of a fact do."""
    reeds = [row for row in rows if isinstance(row, t.ReedLine)]
    cells = _lined_up([[note.text for note in row.notes] for row in reeds])
    return [
        f"{INDENT + row.keyword.text:<{_FACT_COLUMN}}{' '.join(notes)}".rstrip()
        for row, notes in zip(reeds, cells, strict=True)
    ]


def _lined_up(rows: Sequence[Sequence[str]]) -> list[list[str]]:
    """Cells as wide as the widest of their column; a row may be shorter than others."""
    most = max(map(len, rows), default=0)
    widths = [max(len(row[at]) for row in rows if at < len(row)) for at in range(most)]
    return [[cell.ljust(width) for cell, width in zip(row, widths, strict=False)] for row in rows]


# ---- Licks in a rhythm -------------------------------------------------------------------------


def _under_rhythm(rest: Sequence[t.Line], found: Columns) -> list[str]:
    """The lines of a lick, its notes under the places of its rhythm."""
    notes = notes_of(rest)
    plain = len(notes) != len(found.places) or any(isinstance(m, t.Mark) for m in notes)
    texts, first = [], 0
    for line in rest:
        if isinstance(line, t.MusicLine) and not plain:
            texts.append(under(found, first, line.marks))
            first += len(line.marks)
        else:
            texts.append(_plain(line))
    return texts


# ---- Play ------------------------------------------------------------------------------------


def _play_column(lines: Sequence[t.Line]) -> int:
    """The column of the licks in all plays of a file; long `last time` lines do not count."""
    heads = [
        _play_parts(line)[0]
        for line in lines
        if isinstance(line, t.EveryLine | t.BarsLine)
        and not (isinstance(line, t.BarsLine) and line.last_time)
    ]
    return max([_USUAL_HEAD, *map(len, heads)]) + GAP


def _play(lines: Sequence[t.Line], column: int) -> list[str]:
    """Lines of play, what they place lined up."""
    return [
        f"{INDENT}{head.ljust(max(column, len(head) + GAP))}{placed}"
        for head, placed in map(_play_parts, lines)
    ]


def _play_parts(line: t.Line) -> tuple[str, str]:
    match line:
        case t.EveryLine(keyword, on, _, placed):
            return f"{keyword.text} {asked_text([on])}", placed_text(placed)
        case t.BarsLine(keyword, numbers, placed, last_time):
            last = "last time " if last_time else ""
            return f"{last}{keyword.text} {numbers.text}", placed_text(placed)
        case t.EndingLine(keyword, bars, last_time):
            last = "last time " if last_time else ""
            return f"{last}{keyword.text}", chords_text(bars)
        case _:
            raise TypeError(f"no line of play: {line}")
