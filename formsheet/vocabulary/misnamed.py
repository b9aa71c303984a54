"""Other names that players have for harps and positions, and those of the language.

Names of positions and of notes: common practice, no source.
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from formsheet.music.form import FORMS, named_form
from formsheet.music.harp import HARP_KEYS, REGISTERS
from formsheet.music.key import POSITIONS
from formsheet.music.pitch import plain_signs
from formsheet.problems.nearest import nearest

#: Players' names for positions.
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

_KEY = r"([a-g])[ -]?(flat|sharp|b|#)?"
_SIGNS = {"flat": "b", "sharp": "#", "b": "b", "#": "#", None: ""}
_LEFT_OUT = ("major", "maj", "harp", "richter", "diatonic", "standard")  # words that add nothing
#: German note names that differ from the English ones; not B, which is another note there.
_GERMAN = {"h": "B", "cis": "C#", "dis": "D#", "fis": "F#", "gis": "G#", "ais": "A#", "des": "Db",
           "es": "Eb", "ges": "Gb", "as": "Ab"}  # fmt: skip
#: The names by which notes are sung. In Italian and Spanish they are the names of the notes, in
#: French with `ut` beside `do`.
_SUNG = {"do": "C", "ut": "C", "re": "D", "ré": "D", "mi": "E", "fa": "F", "sol": "G", "la": "A",
         "si": "B"}  # fmt: skip
_SUNG_SIGNS = {"b": "b", "#": "#", "♭": "b", "♯": "#", "bemol": "b", "bémol": "b", "bemolle": "b",
               "diese": "#", "dièse": "#", "diesis": "#", "sostenido": "#"}  # fmt: skip
_SUNG_NOTE = rf"({'|'.join(_SUNG)})[ -]?({'|'.join(_SUNG_SIGNS)})?"
_MINOR_WORDS, _MAJOR_WORDS = (
    ("minor", "min", "m", "moll", "mineur", "minore", "menor"),
    ("major", "maj", "dur", "majeur", "maggiore", "mayor"),
)


def position_meant(text: str) -> tuple[str | None, str | None]:
    """The position that words mean, and the nickname in them; None for what is missing."""
    words = re.findall(r"[a-z]+|\d+[a-z]*", text.casefold())
    nickname = next((word for word in words if word in NICKNAMES), None)
    meant = {_WRITTEN[word] for word in words if word in _WRITTEN}
    if nickname:
        meant.add(NICKNAMES[nickname])
    return (meant.pop(), nickname) if len(meant) == 1 else (None, None)


def key_meant(text: str) -> str | None:
    """The key that words mean, as a pitch name: "Bb" for "b flat"; None if there is none."""
    words = [word for word in text.casefold().split() if word not in _LEFT_OUT]
    if other := _other_name(" ".join(words)):
        return other
    found = re.fullmatch(_KEY, " ".join(words))
    if not found:
        return None
    key = found[1].upper() + _SIGNS[found[2]]
    return key if key in HARP_KEYS else None


def form_meant(text: str) -> str | None:
    """The built-in form that is most likely meant by a name; None where nothing is close."""
    name = " ".join(text.casefold().replace(",", " ").split())
    plain = name.removesuffix("blues").strip()
    near = nearest(plain, FORMS)
    return near or next((form for form in FORMS if plain and plain in form), None)


def form_with_bar_lines(name: str) -> str | None:
    """A form and its ending with bar lines for commas: "8-bar ending I IV | I V"."""
    meant = re.sub(r"\s*,\s*", " | ", name)
    try:
        return meant if meant != name and named_form(meant) else None
    except ValueError:
        return None


def harp_meant(text: str) -> tuple[str | None, str | None]:
    """The harp that words mean, register and key, and a note in them by a foreign name."""
    words = plain_signs(text).casefold().split()
    register = next((word for word in words if word in REGISTERS), "")
    key = key_meant(" ".join(word for word in words if word != register))
    if key not in HARP_KEYS:
        return None, None
    other = next((word.capitalize() for word in words if _other_name(word)), None) if key else None
    return (f"{register} {key}".strip() if key else None), other


def note_meant(text: str) -> str | None:
    """The note that a German or a sung name means, its octave kept: "B4" for "H4", "G4" for
    "Sol4"; None where it means none.
    """
    found = re.fullmatch(r"(\D+)(\d*)", text)
    name = _other_name(found[1]) if found else None
    return name and f"{name}{found[2]}" if found else None


def _other_name(text: str) -> str | None:
    """The note of a German or a sung name: "B" for "H", "Bb" for "si bémol"."""
    folded = text.casefold().strip()
    if folded in _GERMAN:
        return _GERMAN[folded]
    found = re.fullmatch(_SUNG_NOTE, folded)
    return _SUNG[found[1]] + _SUNG_SIGNS.get(found[2], "") if found else None


def row_meant(row: Sequence[str]) -> list[str] | None:
    """A row of notes in German or sung names, in English names; None if it is neither.

    A number behind a name, its octave, is kept. Beside an H a German B is Bb.
    """
    german = any(re.fullmatch(r"[Hh]\d?", word) for word in row)
    meant = [_note_of_row(word, german) for word in row]
    return [word for word in meant if word] if all(meant) else None


def _note_of_row(word: str, german: bool) -> str | None:
    if german and re.fullmatch(r"B\d?", word):
        return f"Bb{word[1:]}"
    if re.fullmatch(r"[A-G][b#]?\d?", word):
        return word
    return note_meant(word)


def song_key_meant(text: str) -> str | None:
    """The key of a song that words mean: "B minor" for "h-moll"; None if there is none."""
    words = re.sub(r"[-\s]+", " ", plain_signs(text).casefold()).split()
    minor = any(word in _MINOR_WORDS for word in words)
    key = key_meant(" ".join(word for word in words if word not in (*_MINOR_WORDS, *_MAJOR_WORDS)))
    return key and (f"{key} minor" if minor else key)
