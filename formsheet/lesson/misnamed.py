"""Harps and positions as players say them, and how the language writes them.

Names of positions and of notes: common practice, no source.
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from formsheet.lesson.fact_values import POSITIONS
from formsheet.music.form import FORMS
from formsheet.music.harp import HARP_KEYS, REGISTERS
from formsheet.music.pitch import plain_signs
from formsheet.problems import kinds
from formsheet.problems.nearest import nearest
from formsheet.problems.problem import Problem
from formsheet.source import Span

#: What players call the positions.
NICKNAMES = {"straight": "1st", "cross": "2nd", "slant": "3rd"}
_ORDINAL_WORDS = ("first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth",
                  "ninth", "tenth", "eleventh", "twelfth")  # fmt: skip
_NUMBER_WORDS = ("one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten",
                 "eleven", "twelve")  # fmt: skip
_WRITTEN = (
    dict(zip(_ORDINAL_WORDS, POSITIONS, strict=True))
    | dict(zip(_NUMBER_WORDS, POSITIONS, strict=True))
    | {name: name for name in POSITIONS}
    | {str(number): name for number, name in enumerate(POSITIONS, start=1)}
)

_KEY = r"([a-h])[ -]?(flat|sharp|b|#)?"
_SIGNS = {"flat": "b", "sharp": "#", "b": "b", "#": "#", None: ""}
_LEFT_OUT = ("major", "maj", "harp", "richter", "diatonic", "standard")  # goes without saying
_GERMAN_B = "H"


def position_meant(text: str) -> tuple[str | None, str | None]:
    """The position that words mean, and the nickname among them; None for what is not there."""
    words = re.findall(r"[a-z]+|\d+[a-z]*", text.casefold())
    nickname = next((word for word in words if word in NICKNAMES), None)
    meant = {_WRITTEN[word] for word in words if word in _WRITTEN}
    if nickname:
        meant.add(NICKNAMES[nickname])
    return (meant.pop(), nickname) if len(meant) == 1 else (None, None)


def key_meant(text: str) -> str | None:
    """The key that words mean, in capitals and signs: "Bb" for "b flat"; None if it is none."""
    words = [word for word in text.casefold().split() if word not in _LEFT_OUT]
    found = re.fullmatch(_KEY, " ".join(words))
    if not found:
        return None
    letter = "B" if found[1].upper() == _GERMAN_B and not found[2] else found[1].upper()
    key = letter + _SIGNS[found[2]]
    return key if key in HARP_KEYS else None


#: Names of notes in German (and its neighbours) and in Romance languages, as they are here.
#: Common practice, no source. A German B is Bb: only beside an H is it certain.
_SYLLABLES = {"do": "C", "ut": "C", "re": "D", "ré": "D", "mi": "E", "fa": "F", "sol": "G",
              "la": "A", "si": "B"}  # fmt: skip
_GERMAN = r"([a-h])(isis|is|eses|es|s)?"
_GERMAN_SIGNS = {"is": "#", "isis": "##", "es": "b", "eses": "bb", "s": "b", None: ""}


def row_meant(row: Sequence[str]) -> list[str] | None:
    """A row of a tuning in German names or in syllables, in English names; None if it is neither.

    A number behind a name, its octave, is kept.
    """
    parts = [re.fullmatch(r"([^\W\d_]+[b#]?)(\d?)", word) for word in row]
    if not all(parts):
        return None
    names = [(found[1], found[2]) for found in parts if found]
    german = any(re.fullmatch(r"[Hh]", name) for name, _ in names)
    meant = [_note_meant(name, german) for name, _ in names]
    if not all(meant):
        return None
    return [f"{note}{octave}" for note, (_, octave) in zip(meant, names, strict=True)]


def _note_meant(name: str, german: bool) -> str | None:
    folded = name.casefold()
    if re.fullmatch(r"[A-G][b#]?", name):
        return "Bb" if german and name == "B" else name
    stem, sign = (folded[:-1], folded[-1]) if folded[-1] in "b#" else (folded, "")
    if stem in _SYLLABLES:
        return _SYLLABLES[stem] + sign
    found = re.fullmatch(_GERMAN, folded)
    if not found or name[0].islower() or (found[2] == "s" and found[1] not in "ae"):
        return None
    letter = found[1].upper()
    if letter == _GERMAN_B:
        return "B" + _GERMAN_SIGNS[found[2]]
    if letter == "B" and not found[2]:
        return "Bb"
    return letter + _GERMAN_SIGNS[found[2]]


def form_meant(text: str) -> str | None:
    """The built-in form that is most likely meant by a name; None where nothing is close."""
    name = " ".join(text.casefold().replace(",", " ").split())
    plain = name.removesuffix("blues").strip()
    near = nearest(plain, FORMS)
    return near or next((form for form in FORMS if plain and plain in form), None)


def with_forms(problems: Sequence[Problem]) -> list[Problem]:
    """The problems; a comma in the name of a form is a name that is not known."""
    return [_form_named(each) or each for each in problems]


def _form_named(problem: Problem) -> Problem | None:
    if not (isinstance(problem, kinds.WordUnexpected) and problem.found == ","):
        return None
    source = problem.span.source
    start = source.text.rfind("\n", 0, problem.span.start) + 1
    line = re.match(r"[^\S\n]*form[^\S\n]+([^\"|#\n]*\S)", source.text[start:])
    near = form_meant(line[1]) if line else None
    if not (line and near):
        return None
    span = Span(source, start + line.start(1), start + line.end(1))
    return kinds.FormUnknown(span, found=line[1], near=near, known=list(FORMS))


def harp_meant(text: str) -> tuple[str | None, str | None]:
    """The harp that words mean, register and key, and the H in it that is B here."""
    words = plain_signs(text).casefold().split()
    register = next((word for word in words if word in REGISTERS), "")
    key = key_meant(" ".join(word for word in words if word != register))
    german = _GERMAN_B if key and _GERMAN_B.casefold() in words else None
    return (f"{register} {key}".strip() if key else None), german
