"""One line of old tab: notes, bar lines and signs that are left out; or words."""

from __future__ import annotations

import re
from collections import Counter
from typing import NamedTuple

from formsheet.music.tab import Tab
from formsheet.notes.oldtab.layout import Line
from formsheet.notes.oldtab.shorthands import Doubt, Note, Reader

#: A bar line: `|`, `||`, `|:`, or a slash between spaces.
BAR = re.compile(r":?\|[|:]*|(?<!\S)/{1,2}(?!\S)")
#: Signs that say how a note is played or how long: held, shaken, stressed. They are left out.
_SIGNS = re.compile(r"~+|!+|\.+|…|_+|-{2,}(?=\s|$)|>+")
#: The name of a chord in brackets, over or between the notes.
_CHORD_NAME = re.compile(r"[(\[][A-G][b#]?(?:m|maj|min|dim|sus|add|\d)*[)\]]")
#: A line that may be a count of the beats, and commas that may join a chord.
_COUNT = re.compile(r"\s*(?:1\s+2\s+3(?:\s+4)?\s*)+")
_COMMAS = re.compile(r"\d,\d")
#: Words before the notes of a line: "Intro: -2 -3 4".
_HEADING = re.compile(r"\s*[A-Za-z][\w ']{0,24}:\s+(?=\S)")
_SPACE = re.compile(r"[\s,;]+")
#: At the end of a line: how often it is played.
_TIMES = re.compile(r"\s\(?(?:[xX×]\s?(?P<after>[2-9])|(?P<before>[2-9])\s?[xX×])\)?\s*$")
#: A number before a line: "1 |", "2.", "3)", "4:".
LABEL = re.compile(r"\s*(?P<number>\d{1,2})\s*(?:\|(?!\|)|[.:)](?=\s))")
_ALONE = re.compile(r"(?<!\S)-(?!\S)")


class Phrase(NamedTuple):
    """The notes of a line, bar by bar where it has bar lines."""

    line: int  # its number in the file
    bars: tuple[tuple[Tab, ...], ...]
    barred: bool  # it has bar lines
    shows_draw: bool  # it shows how draw is written
    times: int = 1
    left_out: tuple[tuple[str, int], ...] = ()  # signs that are left out, and how many

    @property
    def tabs(self) -> tuple[Tab, ...]:
        """All its notes."""
        return tuple(tab for bar in self.bars for tab in bar)


class Words(NamedTuple):
    """A line that has no tab: a title, lyrics, chord names."""

    line: int


class Trouble(NamedTuple):
    """A line that has tab and something that cannot be read."""

    line: int
    says: str
    read: int = 0  # how many of its words can be read all the same
    shows_draw: bool = False  # one of them shows how draw is written


def line_of(line: Line, reader: Reader, bare: bool) -> Phrase | Words | Trouble:
    """A line in a shorthand; `bare` says that a number without a sign is a note in it."""
    label = LABEL.match(line.text)
    text = line.text if bare or not label else line.text[label.end() :]
    if bare and label and "|" not in label[0] and re.search(r"\d", line.text[label.end() :]):
        says = f'"{label[0].strip()}" begins the line: is it the number of the line? Remove it'
        return Trouble(line.number, says, len(line.text.split()), True)
    if bare and _COUNT.fullmatch(text):
        says = f'"{text.strip()}": is this a count, or are these notes? Remove it, or add bar lines'
        return Trouble(line.number, says, len(text.split()), True)
    heading = _HEADING.match(text)
    if heading and not _read(heading[0].split(":")[0].split()[-1], reader):
        text = text[heading.end() :]
    found = _TIMES.search(text)
    times = int(found["after"] or found["before"]) if found else 1
    try:
        return _phrase(line, text[: found.start()] if found else text, reader, times)
    except Doubt as caught:
        return Trouble(line.number, str(caught), len(text.split()), True)
    except _UnreadError as caught:
        return _not_all_tab(line, text, reader, caught.word)


class _UnreadError(Exception):
    def __init__(self, word: str) -> None:
        super().__init__(word)
        self.word = word


def _phrase(line: Line, text: str, reader: Reader, times: int) -> Phrase | Words | Trouble:
    bars: list[list[Tab]] = [[]]
    barred = shows_draw = False
    left_out: Counter[str] = Counter()
    at = 0
    if _COMMAS.search(re.sub(r"[(\[].*?[)\]]", "", text)) and reader(text.lstrip(), 0):
        raise Doubt(
            "commas without spaces: do they join a chord? Write (123) for a chord, 1 2 3 for a run"
        )
    while at < len(text):
        if space := _SPACE.match(text, at):
            at = space.end()
        elif bar := BAR.match(text, at):
            bars.append([])
            barred, at = True, bar.end()
        elif note := reader(text, at):
            bars[-1] += note.tabs
            shows_draw, at = shows_draw or note.shows_draw, at + note.length
        elif name := _CHORD_NAME.match(text, at):
            left_out[name[0]] += 1
            at = name.end()
        elif sign := _SIGNS.match(text, at):
            left_out[sign[0][0]] += 1
            at = sign.end()
        elif _ALONE.match(text, at) and any(bars):
            raise Doubt(
                "a dash stands alone: is it a rest, a held note, or the sign of the next note? "
                "Remove it, or put it close to its note"
            )
        else:
            raise _UnreadError(re.split(r"\s", text[at:], maxsplit=1)[0])
    if not any(bars):
        return Words(line.number)
    whole = tuple(tuple(bar) for bar in bars if bar)
    return Phrase(line.number, whole, barred, shows_draw, times, tuple(left_out.items()))


def _not_all_tab(line: Line, text: str, reader: Reader, unread: str) -> Words | Trouble:
    """Words where hardly anything in the line can be tab; trouble where something can."""
    words = BAR.sub(" ", text).split()
    notes = [_read(word, reader) for word in words]
    read = [note for note in notes if note]
    letters = [word for word in words if re.match(r"\W*[A-Za-z]{2}", word)]
    if not read or (len(letters) >= len(read) and not notes[0]):
        return Words(line.number)
    says = f'"{unread}" is no note of this shorthand'
    return Trouble(line.number, says, len(read), any(note.shows_draw for note in read))


def _read(word: str, reader: Reader) -> Note | None:
    """The note that a word is, and nothing else."""
    try:
        note = reader(word, 0)
    except Doubt:
        return None
    whole = note and re.fullmatch(r"[~!.…_,;-]*", word[note.length :])
    return note if whole else None
