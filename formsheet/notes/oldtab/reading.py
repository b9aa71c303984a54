"""Read old tab: find its shorthand, and its notes line by line.

Each shorthand is tried on the whole text. One fits if every line is either tab or words, if it
shows somewhere how draw is written, and if a harp has all the notes. Where several fit and read
different notes, or none does, the answer is a question: nothing is guessed.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

from formsheet.listing import listed
from formsheet.music.harp import Harp
from formsheet.music.tab import Tab
from formsheet.notes.melody import NotesError, Said
from formsheet.notes.oldtab.layout import Line, harp_named, page_of
from formsheet.notes.oldtab.line import LABEL, Phrase, Trouble, Words, line_of
from formsheet.notes.oldtab.rows import phrases_in_rows
from formsheet.notes.oldtab.shorthands import NAMES, ROWS, ROWS_SAY, SHORTHANDS, Shorthand

_KNOWN = listed(NAMES, "or")
_ANY_HARP = Harp("C")  # which bends there are does not depend on the key
_LEGEND = re.compile(
    r"(?P<sign>[↑↓^+]|(?<![A-Za-z])[vV-]|\(\s*\)|\[\s*\]|[Cc]ircle[ds]?|[Bb]rackets?)\s*(?:[=:]|is|are|means)+"
    r"\s*(?P<word>blow|draw|exhale|inhale|out|in)\b"
)  # fmt: skip
#: Several draw notes in one bracket.
_RUN = re.compile(r"[(\[]\s*\d[\d'b]*[\s,]+\d")
_DRAW_SIGNS = re.compile(r"[↓vV-]|[(\[]|[CcBb]")


@dataclass(frozen=True)
class OldTab:
    """The notes of old tab, line by line, and how they were read."""

    shorthand: str
    signs: str  # how it writes draw and blow
    phrases: tuple[Phrase, ...]
    harp: str  # the key of the harp that the text names; "" without one
    said: tuple[Said, ...]


@dataclass(frozen=True)
class _Try:
    """The whole text in one shorthand."""

    name: str
    signs: str
    phrases: tuple[Phrase, ...]
    words: tuple[int, ...]
    troubles: tuple[Trouble, ...]

    @property
    def shows_draw(self) -> bool:
        return any(phrase.shows_draw for phrase in self.phrases)

    @property
    def tabs(self) -> list[tuple[Tab, ...]]:
        return [phrase.tabs for phrase in self.phrases]

    @property
    def fits(self) -> bool:
        return not self.troubles and self.shows_draw and bool(self.phrases)

    @property
    def worth(self) -> tuple[bool, int, int]:
        """How near it is to a reading."""
        shows_draw = self.shows_draw or any(trouble.shows_draw for trouble in self.troubles)
        read = sum(map(len, self.tabs)) + sum(trouble.read for trouble in self.troubles)
        return shows_draw, read, -len(self.troubles)


def read_old_tab(text: str, shorthand: str | None = None, columns: int | None = None) -> OldTab:
    """The notes of a text; NotesError with a question where it cannot be read for certain.

    `shorthand` is one of `NAMES`, `columns` how many columns the lines have, where that is known.
    """
    page = page_of(text, columns)
    lines = [line._replace(text=line.text) for line in page.lines]
    turned = _legend_turns(lines)
    tries = [
        _turned(each) if turned else each
        for each in (*(_tried(lines, kind) for kind in SHORTHANDS), _tried_rows(lines))
        if shorthand in (None, each.name)
    ]
    tries = [_checked(each) for each in tries]
    found = _decided(tries, shorthand)
    said = _said(found, page.columns, turned, lines)
    return OldTab(found.name, found.signs, found.phrases, harp_named(lines), tuple(said))


# ---- Trying --------------------------------------------------------------------------------


def _tried(lines: Sequence[Line], kind: Shorthand) -> _Try:
    found = [
        Words(line.number) if _LEGEND.search(line.text) else line_of(line, kind.reader, kind.bare)
        for line in lines
        if line.text.strip()
    ]
    if kind.bare and (trouble := _numbered(lines, found)):
        found.append(trouble)
    return _sorted(kind.name, kind.says, found)


def _tried_rows(lines: Sequence[Line]) -> _Try:
    return _sorted(ROWS, ROWS_SAY, phrases_in_rows(lines))


def _sorted(name: str, signs: str, found: Sequence[Phrase | Words | Trouble]) -> _Try:
    return _Try(
        name,
        signs,
        tuple(each for each in found if isinstance(each, Phrase)),
        tuple(each.line for each in found if isinstance(each, Words)),
        tuple(each for each in found if isinstance(each, Trouble)),
    )


def _numbered(lines: Sequence[Line], found: Sequence[object]) -> Trouble | None:
    """Trouble if the lines seem to be numbered, in a shorthand in which a number is a note."""
    tab = {each.line for each in found if isinstance(each, Phrase)}
    labels = [LABEL.match(line.text) for line in lines if line.number in tab]
    numbers = [int(label["number"]) for label in labels if label and "|" in label[0]]
    if len(numbers) < 2 or numbers != list(range(numbers[0], numbers[0] + len(numbers))):
        return None
    first = min(tab)
    return Trouble(
        first, "are the numbers before the first bar lines numbers of lines? Remove them"
    )


def _checked(found: _Try) -> _Try:
    """With trouble for each line that has a note that no harp of the usual tuning has."""
    wrong = []
    for phrase in found.phrases:
        for tab in phrase.tabs:
            if len(tab.holes) == 1 and not _ANY_HARP.can_play(tab):
                word = "overbend" if tab.overbend else f"bend {tab.bend} half steps"
                says = f"{tab.holes[0]} {tab.breath.word} does not {word}"
                wrong.append(Trouble(phrase.line, says))
                break
    return _Try(found.name, found.signs, found.phrases, found.words, (*found.troubles, *wrong))


# ---- Deciding ------------------------------------------------------------------------------


def _decided(tries: Sequence[_Try], asked: str | None) -> _Try:
    if asked:
        whole = [each for each in tries if each.phrases and not each.troubles]
        if whole:
            return max(whole, key=lambda each: each.worth)
        raise NotesError(_why_not(max(tries, key=lambda each: each.worth), asked))
    fitting = [each for each in tries if each.fits]
    if not fitting:
        raise NotesError(_question(tries))
    first = fitting[0]
    other = next((each for each in fitting if each.tabs != first.tabs), None)
    if other:
        line = next(
            (
                a.line
                for a, b in zip(first.phrases, other.phrases, strict=False)
                if a.tabs != b.tabs
            ),
            first.phrases[0].line,
        )
        raise NotesError(
            f"line {line} can be read in two ways: as `{first.name}` ({first.signs}) or as "
            f"`{other.name}` ({other.signs}); say which with --shorthand"
        )
    return first


def _question(tries: Sequence[_Try]) -> str:
    best = max(tries, key=lambda each: each.worth)
    if not best.phrases and not best.troubles:
        return "no tab is found; write notes as -4 4, 4D 4B, 4↓ 4↑ or (4) 4, or name the shorthand"
    if best.troubles:
        return _why_not(best, "")
    return (
        "nothing shows which notes are draw: write them as -4, 4D, 4↓ or (4); "
        "if all of them are blow, say so with --shorthand minus"
    )


def _why_not(found: _Try, asked: str) -> str:
    if not found.troubles:
        return f"no tab in the shorthand `{asked}` is found; --shorthand takes {_KNOWN}"
    first = min(found.troubles, key=lambda each: each.line)
    read = f"read as `{found.name}` ({found.signs}); " if not asked else ""
    more = "" if first.says.endswith("it") or "?" in first.says else "; what is it?"
    return f"line {first.line}: {first.says}{more} ({read}--shorthand takes {_KNOWN})"


# ---- Legends -------------------------------------------------------------------------------


def _legend_turns(lines: Sequence[Line]) -> bool:
    """Whether a legend gives the signs of draw to blow. NotesError if it contradicts itself."""
    ways = {
        bool(_DRAW_SIGNS.match(found["sign"])) is (found["word"] in ("draw", "inhale", "in"))
        for line in lines
        for found in _LEGEND.finditer(line.text)
    }
    if len(ways) > 1:
        raise NotesError("its legend gives one breath two signs; which is draw? Mend the legend")
    return ways == {False}


def _turned(found: _Try) -> _Try:
    phrases = tuple(
        phrase._replace(
            bars=tuple(
                tuple(tab._replace(breath=tab.breath.other) for tab in bar) for bar in phrase.bars
            )
        )
        for phrase in found.phrases
    )
    return _Try(found.name, found.signs, phrases, found.words, found.troubles)


# ---- Saying --------------------------------------------------------------------------------


def _said(found: _Try, columns: int, turned: bool, lines: Sequence[Line]) -> list[Said]:
    tab = {phrase.line for phrase in found.phrases}
    brackets = found.name == "brackets"
    runs = [
        each.number for each in lines if brackets and each.number in tab and _RUN.search(each.text)
    ]
    said = [Said("shorthand", {"name": found.name, "signs": found.signs, "turned": turned})]
    if columns > 1:
        said.append(Said("columns", {"count": columns}))
    if found.words:
        said.append(Said("words", {"lines": sorted(found.words)}))
    left_out: Counter[str] = Counter()
    for phrase in found.phrases:
        left_out.update(dict(phrase.left_out))
    if left_out:
        said.append(Said("signs-left-out", {"signs": dict(left_out)}))
    if runs:
        said.append(Said("bracket-runs", {"lines": runs}))
    if again := [phrase.line for phrase in found.phrases if phrase.times > 1]:
        said.append(Said("lines-again", {"lines": again}))
    return said
