"""The shorthands of old tab: how each writes draw and blow, as patterns of its notes.

All of them are common practice, no source. A pattern reads one note, chord or run of notes where it
is asked to; what else may stand in a line (bar lines, commas, signs for a held note) is the same in
all shorthands and is read by `line.py`.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from typing import NamedTuple

from formsheet.music.tab import WIDEST_REACH, Breath, Tab

#: Holes as written: "4", "10", "123", "910".
HOLES = r"(?:[1-9](?!0))*(?:10|[1-9](?!0))"
#: A bend: one tick or b for each half step; a double quote is two ticks.
BEND = r"(?:\"'?|'{1,3}|b{1,3}(?![a-z]))?"
_OPEN, _CLOSE = r"[(\[]", r"[)\]]"
_DRAW_WORDS, _BLOW_WORDS = ("draw", "inhale", "in"), ("blow", "exhale", "out")
_WORDS = "|".join((*_DRAW_WORDS, *_BLOW_WORDS))


class Doubt(Exception):
    """A mark that can be read in two ways; the message says which, and how to write it."""


class Note(NamedTuple):
    """What a pattern has read: the marks, and how many characters they take."""

    tabs: tuple[Tab, ...]
    length: int
    shows_draw: bool  # whether it shows how draw is written


Reader = Callable[[str, int], Note | None]


class Shorthand(NamedTuple):
    """A shorthand: its name for `--shorthand`, its signs, and the reader of its notes."""

    name: str
    says: str
    reader: Reader
    bare: bool  # whether a bare number is a note


def holes_of(text: str) -> tuple[int, ...] | None:
    """The holes of a number such as "4", "123" or "910"; None if no mouth covers them."""
    holes = tuple(int(each) for each in re.findall(r"10|[1-9]", text))
    if len(holes) > 1 and (
        list(holes) != sorted(set(holes)) or holes[-1] - holes[0] >= WIDEST_REACH
    ):
        return None
    return holes or None


def _tab(holes: str, draw: bool, bend: str, over: bool = False) -> Tab | None:
    found = holes_of(holes)
    depth = _depth(bend)
    if found is None or (depth and len(found) > 1):
        return None
    return Tab(found, Breath.DRAW if draw else Breath.BLOW, depth, over)


def _depth(bend: str) -> int:
    """Half steps of a bend as written."""
    return len(bend) + bend.count('"')


def _one(tab: Tab | None, length: int, shows_draw: bool = True) -> Note | None:
    return Note((tab,), length, shows_draw) if tab else None


# ---- Signs ---------------------------------------------------------------------------------

_OVER = r"(?P<over>o(?![A-Za-z]))?"
_SIGNED = re.compile(rf"(?P<sign>[+-])(?P<holes>{HOLES}){_OVER}(?P<bend>{BEND})(?!\d)")
_SIGN_LAST = re.compile(rf"(?P<holes>{HOLES}){_OVER}(?P<bend>{BEND})(?P<sign>[+-])(?![+-])")
_BARE = re.compile(rf"(?P<holes>{HOLES}){_OVER}(?P<bend>{BEND})(?!\d)")
_BRACKET = re.compile(rf"{_OPEN}\s*(?P<inside>[^()\[\]]*?)\s*{_CLOSE}(?P<bend>{BEND})")


def _signs(text: str, at: int) -> Note | None:
    if found := _SIGNED.match(text, at):
        tab = _tab(found["holes"], found["sign"] == "-", found["bend"], bool(found["over"]))
        return _one(tab, len(found[0]), found["sign"] == "+")
    return _chord(text, at, _signs)


def _signs_last(text: str, at: int) -> Note | None:
    if found := _SIGN_LAST.match(text, at):
        tab = _tab(found["holes"], found["sign"] == "-", found["bend"], bool(found["over"]))
        return _one(tab, len(found[0]))
    return _chord(text, at, _signs_last)


def _minus(text: str, at: int) -> Note | None:
    found = _SIGNED.match(text, at)
    if found and found["sign"] == "-":
        if at and text[at - 1].isdigit() | (text[at - 1] in "'b"):
            raise Doubt(
                f'"{_word_at(text, at)}": is the - a sign for draw or a hyphen? Put a space '
                "between the notes, as in `4 -4`"
            )
        tab = _tab(found["holes"], True, found["bend"], bool(found["over"]))
        return _one(tab, len(found[0]))
    return _blown(text, at) or _chord(text, at, _minus)


def _chord(text: str, at: int, inner: Reader) -> Note | None:
    """A chord in brackets, all its notes on one breath."""
    found = _BRACKET.match(text, at)
    if not found or found["bend"]:
        return None
    inside = re.sub(r"(?<=[\d'b])(?=[+-])", " ", found["inside"])
    notes = _all(inside, inner)
    if not notes:
        return None
    tabs = [tab for note in notes for tab in note.tabs]
    if len(tabs) == len(tabs[0].holes) == 1:
        raise Doubt(
            f"{found[0]}: is a note in brackets a draw note, or one that may be left out? "
            "Write it without brackets, or name the shorthand"
        )
    signed = {each.tabs[0].breath for each in notes if each.shows_draw}
    breaths = {tab.breath for tab in tabs}
    if inner is _minus and len(breaths) == 2 and notes[0].shows_draw:
        # "(-1 2 3)": the sign is for all of them
        raise Doubt(f"{found[0]}: are all of these draw? Write (-1-2-3) or (1 2 3)")
    holes = tuple(hole for tab in tabs for hole in tab.holes)
    if len(breaths) > 1 or len(signed) > 1 or any(tab.bend for tab in tabs):
        raise Doubt(f"{found[0]}: a chord has one breath and no bends; is this a chord or a run?")
    whole = _tab("".join(map(str, holes)), tabs[0].breath is Breath.DRAW, "")
    return _one(whole, len(found[0]), any(note.shows_draw for note in notes))


def _all(text: str, inner: Reader) -> list[Note] | None:
    """The notes of a text that has nothing else; None if it has."""
    notes, at = [], 0
    while at < len(text):
        if text[at] in " ,":
            at += 1
            continue
        note = inner(text, at)
        if note is None:
            return None
        notes.append(note)
        at += note.length
    return notes


def _word_at(text: str, at: int) -> str:
    """The word round a place."""
    start = max(text.rfind(" ", 0, at), text.rfind("\t", 0, at)) + 1
    return re.split(r"\s", text[start:], maxsplit=1)[0]


# ---- Letters -------------------------------------------------------------------------------

_LETTER = re.compile(
    rf"(?P<group>{_OPEN}(?:{HOLES}\s*)+{_CLOSE}|{HOLES})(?P<early>[\"']{{0,3}})"
    rf"(?:(?P<over>[oO])?(?P<letter>[dDbBzZ])|\s?(?P<word>(?i:{_WORDS})))(?P<bend>{BEND})(?![A-Za-z\d])"
)
_LETTER_FIRST = re.compile(
    rf"(?:(?P<over>[oO])?(?P<letter>[dDbBzZ])|(?P<word>(?i:{_WORDS}))\s?)"
    rf"(?P<group>{_OPEN}(?:{HOLES}\s*)+{_CLOSE}|{HOLES})(?P<bend>{BEND})(?![A-Za-z\d])"
)


def _lettered(pattern: re.Pattern[str]) -> Reader:
    def reader(text: str, at: int) -> Note | None:
        found = pattern.match(text, at)
        if not found or (at and text[at - 1].isalpha()):
            return None
        draw = (found["letter"] or found["word"]).casefold() in ("d", "z", *_DRAW_WORDS)
        bend = found["bend"] + (found.groupdict().get("early") or "")
        holes = re.sub(r"\D", "", found["group"])
        return _one(_tab(holes, draw, bend, bool(found["over"])), len(found[0]))

    return reader


# ---- Arrows --------------------------------------------------------------------------------

UP, DOWN = "↑^", "↓vV"
_GROUP = rf"(?P<group>{_OPEN}(?:{HOLES}\s*)+{_CLOSE}|{HOLES})"
_ARROW_LAST = re.compile(
    rf"{_GROUP}(?P<early>{BEND})(?P<arrow>[{UP}{DOWN}])(?P<bend>{BEND})(?![A-Za-z])"
)
_ARROW_FIRST = re.compile(rf"(?P<arrow>[{UP}{DOWN}]){_GROUP}(?P<bend>{BEND})(?![\d{UP}{DOWN}])")


def _arrowed(pattern: re.Pattern[str]) -> Reader:
    def reader(text: str, at: int) -> Note | None:
        found = pattern.match(text, at)
        if not found:
            return None
        bend = found["bend"] + (found.groupdict().get("early") or "")
        holes = re.sub(r"\D", "", found["group"])
        return _one(_tab(holes, found["arrow"] in DOWN, bend), len(found[0]))

    return reader


# ---- Brackets and circles ------------------------------------------------------------------


def _brackets(text: str, at: int) -> Note | None:
    if found := _BRACKET.match(text, at):
        inside = _all(found["inside"], _blown)
        if not inside:
            return None
        tabs = [tab._replace(breath=Breath.DRAW) for note in inside for tab in note.tabs]
        if found["bend"]:
            if len(tabs) > 1 or tabs[0].bend or len(tabs[0].holes) > 1:
                return None
            tabs = [tabs[0]._replace(bend=_depth(found["bend"]))]
        return Note(tuple(tabs), len(found[0]), True)
    return _blown(text, at)


def _blown(text: str, at: int) -> Note | None:
    found = _BARE.match(text, at)
    if not found:
        return None
    tab = _tab(found["holes"], False, found["bend"], bool(found["over"]))
    return _one(tab, len(found[0]), False)


_CIRCLED = {chr(0x2460 + number): str(number + 1) for number in range(10)}
_CIRCLES = re.compile(rf"(?P<holes>[{''.join(_CIRCLED)}]+)(?P<bend>{BEND})")


def _circles(text: str, at: int) -> Note | None:
    if found := _CIRCLES.match(text, at):
        holes = "".join(_CIRCLED[each] for each in found["holes"])
        return _one(_tab(holes, True, found["bend"]), len(found[0]))
    return _blown(text, at) or _chord(text, at, _circles)


#: A row of holes, for the shorthand that has the breath in a row below.
def row_of_holes(text: str, at: int) -> Note | None:
    """A note of a row of holes: its breath is not known yet, and is given as blow."""
    return _blown(text, at)


#: The shorthands in one line, in the order in which they are tried. Arrows stand after or before.
SHORTHANDS: Sequence[Shorthand] = (
    Shorthand("letters", "4D draw, 4B blow", _lettered(_LETTER), False),
    Shorthand("letters-first", "D4 draw, B4 blow", _lettered(_LETTER_FIRST), False),
    Shorthand("arrows", "4↓ draw, 4↑ blow", _arrowed(_ARROW_LAST), False),
    Shorthand("arrows", "↓4 draw, ↑4 blow", _arrowed(_ARROW_FIRST), False),
    Shorthand("signs", "-4 draw, +4 blow", _signs, False),
    Shorthand("signs", "4- draw, 4+ blow", _signs_last, False),
    Shorthand("circles", "④ draw, 4 blow", _circles, True),
    Shorthand("minus", "-4 draw, 4 blow", _minus, True),
    Shorthand("brackets", "(4) draw, 4 blow", _brackets, True),
)
#: The one in two rows; see `rows.py`.
ROWS = "rows"
ROWS_SAY = "holes, and the breath in a row below"
NAMES = (*dict.fromkeys(each.name for each in SHORTHANDS), ROWS)
