"""Names and titles of recast licks: `porch` on IV is `porch-four`, "Front porch on IV"."""

from __future__ import annotations

from collections.abc import Container, Sequence

from formsheet.lesson.model import default_title
from formsheet.music.chord import Chord
from formsheet.music.form import FormBar

_WORDS = frozenset({"one", "two", "three", "four", "five", "six", "seven", "flat", "sharp"})


def recast_name(name: str, chords: Sequence[FormBar], taken: Container[str] = ()) -> str:
    """A name with the new chords in words; words for the old chords are removed."""
    plain = "-".join([stem(name), *(chord.word for chord in _in_turn(chords))])
    numbered = (f"{plain}-{number}" for number in range(2, 1000))
    return plain if plain not in taken else next(each for each in numbered if each not in taken)


def stem(name: str) -> str:
    """The name of a lick without words for its chord; `flat-five` is named for a note."""
    words = name.split("-")
    while words and words[-1] in _WORDS:
        words.pop()
    return "-".join(words) or name


def recast_title(name: str, title: str, chords: Sequence[FormBar], new_name: str) -> str:
    """A new title: "Front porch on IV"; the default one if the lick has no title of its own."""
    if title == default_title(name):
        return default_title(new_name)
    plain, on, numerals = title.rpartition(" on ")
    known = on and any(numeral in _WORDS for numeral in numerals.split())
    return f"{plain if known else title} on {chord_words(chords)}"


def chord_words(chords: Sequence[FormBar]) -> str:
    """Chords in words: "IV", "V, IV"."""
    return ", ".join(bare(chord) for chord in _in_turn(chords))


def bare(chord: Chord) -> str:
    """The numeral of a chord without its quality, as after `on`."""
    return chord.numeral.removesuffix(chord.quality) if chord.quality else chord.numeral


def _in_turn(chords: Sequence[FormBar]) -> list[Chord]:
    """The chords one after another, consecutive equal ones once."""
    found: list[Chord] = []
    for bar in chords:
        for chord in bar:
            if not found or bare(found[-1]) != bare(chord):
                found.append(chord)
    return found
