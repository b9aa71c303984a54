"""Texts for the student that may not be true of the new tab: they name a hole, breath or a note."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from typing import NamedTuple

from formsheet.arrange.retab import Retabbed
from formsheet.music import pitch
from formsheet.music.tab import Breath, Tab

#: Words in a text that describe how a note is played.
_PLAYING = re.compile(
    r"\b(holes?|draws?|drawn|blows?|blown|bends?|bent|breath(e|es|ing)?)\b", re.IGNORECASE
)
#: A hole with its breath, in words ("2 draw", "4th blow") or as tab ("2d'", "4b").
_HOLE = re.compile(
    r"(?<![\w.])(?P<hole>\d{1,2})"
    r"(?:(?:st|nd|rd|th)?[ -](?P<word>draw|blow)\b|(?P<sign>[bd])(?P<ticks>['’′]*)(?![\w'’′]))",
    re.IGNORECASE,
)
#: A note by its letter, also as the root of a chord ("Bb7"). An `A` that is only an article has no
#: such word before it.
_NOTE = re.compile(
    r"(?<![\w'’])(?:(?P<letter>[B-G][b#♭♯]?|A[b#♭♯])|(?<=\bthe )A|(?<=\bto )A|(?<=\blow )A"
    r"|(?<=\bhigh )A|(?<=\bon )A|(?<=\bof )A|(?<=\ban )A)(?:m|maj)?7?(?![\w'’])"
)
HOLES_CHANGED = "the holes have changed"
NOTES_CHANGED = "the notes have changed"


class Doubt(NamedTuple):
    """A text to be read again."""

    place: str  # in words
    text: str
    why: str  # "the holes have changed (2 draw is now 4b)"


def doubt(text: str, done: Retabbed, licks: Iterable[str]) -> str:
    """Why a text on some licks may not be true any more, in words; "" where nothing speaks for it.

    A hole that is named counts only where its tab has changed; a note only where the key has.
    """
    moved = _moved(done, licks)
    found = [words for words in (_of_holes(text, moved), _of_notes(text, done)) if words]
    return " and ".join(found)


def _moved(done: Retabbed, licks: Iterable[str]) -> dict[Tab, list[Tab]]:
    """Each tab of the old licks with its new ones."""
    moved: dict[Tab, list[Tab]] = {}
    for name in licks:
        choices, old = done.choices(name), done.licks[name]
        for mark in (mark for bar in (old.pickup, *old.bars) for mark in bar):
            if mark.tab and (new := choices[mark.span.place].tab) not in (
                known := moved.setdefault(mark.tab, [])
            ):
                known.append(new)
    return moved


def _of_holes(text: str, moved: dict[Tab, list[Tab]]) -> str:
    if not any([new] for old, new in moved.items() if new != [old]):
        return ""
    named = list(_named(text, moved))
    if not named:
        return HOLES_CHANGED if _PLAYING.search(text) else ""
    gone = {words: new for words, old, new in named if new != [old]}
    if not gone:
        return ""
    now = [f"{words} is now {new[0]}" for words, new in gone.items() if len(new) == 1]
    return HOLES_CHANGED + (f" ({', '.join(now)})" if now else "")


def _named(text: str, moved: dict[Tab, list[Tab]]) -> Iterator[tuple[str, Tab, list[Tab]]]:
    """The holes that a text names: its words, the old tab, the new ones."""
    for found in _HOLE.finditer(text):
        word = found["word"] or ("draw" if found["sign"].casefold() == "d" else "blow")
        breath = Breath.DRAW if word.casefold() == "draw" else Breath.BLOW
        bend = len(found["ticks"] or "")
        alike = [
            old
            for old in moved
            if old.holes == (int(found["hole"]),) and old.breath is breath and not old.overbend
        ]
        bent = re.search(r"\bbent $", text[: found.start()], re.IGNORECASE)
        exact = [old for old in alike if old.bend > 0] if bent else []
        exact = exact or [old for old in alike if old.bend == bend]
        for old in exact or alike[:1]:
            yield found[0], old, moved[old]


def _of_notes(text: str, done: Retabbed) -> str:
    if not done.half_steps:
        return ""
    names = dict.fromkeys(found["letter"] or "A" for found in _NOTE.finditer(text))
    now = [
        f"{name} is now {done.key.spell((pitch.pitch_class(plain) + done.half_steps) % 12)}"
        for name in names
        for plain in [pitch.plain_signs(name)]
    ]
    return f"{NOTES_CHANGED} ({', '.join(now)})" if now else ""
