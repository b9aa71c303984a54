"""The chords of a score as a form: its chorus, how often it comes, and how each ends.

A chord symbol is read in the key of the melody. A bar of a form has one chord, or two of half a bar
each; a change elsewhere goes to the nearest half.
"""

from __future__ import annotations

from collections.abc import Sequence
from contextlib import suppress
from dataclasses import dataclass
from fractions import Fraction

from formsheet.lesson.facts import MOST_FORM_BARS
from formsheet.music import pitch
from formsheet.music.chord import Chord, parse_chord
from formsheet.music.form import BARS_A_LINE, FORMS, Bars, Form, FormBar, named_form
from formsheet.music.key import Key
from formsheet.notes.melody import Melody, NotesError, Said, Symbol

#: Numerals by half steps above the key note, as players call them. Common practice, no source.
_NUMERALS = ("I", "bII", "II", "bIII", "III", "IV", "bV", "V", "bVI", "VI", "bVII", "VII")
#: How many of the last bars of a chorus may be an ending of its own. Our own choice.
_LONGEST_ENDING = 2
#: Shortest chorus that is looked for, and the name of a form without one.
_SHORTEST_CHORUS = 8
AS_WRITTEN = "As written"


@dataclass(frozen=True)
class Choruses:
    """A form, and the ending of each chorus; () where it ends as the form does."""

    form: Form
    endings: tuple[Bars, ...]
    said: tuple[Said, ...] = ()


def chord_of(symbol: Symbol, key: Key) -> Chord:
    """A chord symbol as a numeral in a key."""
    numeral = _NUMERALS[(pitch.pitch_class(symbol.root) - key.pitch_class) % 12]
    sign = numeral.rstrip("IV")
    roman = numeral[len(sign) :]
    return parse_chord(f"{sign}{roman.lower() if symbol.minor else roman}{symbol.quality}")


def chord_bars(melody: Melody, key: Key) -> tuple[list[FormBar], list[Said]]:
    """The chords of each bar, () where there are no symbols at all; with remarks."""
    if not melody.chords:
        return [], []
    bar = melody.meter.bar
    half = bar / 2
    halves: dict[int, Chord] = {}  # by number of the half bar
    places: dict[int, Fraction] = {}
    moved = lost = 0
    for at, symbol in melody.chords:
        number = int((max(at, Fraction(0)) + half / 2) // half)
        moved += at > 0 and number * half != at
        lost += number in halves and chord_of(symbol, key) != halves[number]
        if number not in halves or abs(number * half - at) < abs(number * half - places[number]):
            halves[number], places[number] = chord_of(symbol, key), at
    now = halves[min(halves)]
    found: list[FormBar] = []
    for index in range(melody.bars):
        first = now = halves.get(2 * index, now)
        second = now = halves.get(2 * index + 1, now)
        found.append((first,) if first == second else (first, second))
    said = [Said("chords-moved", {"count": moved})] if moved else []
    return found, said + ([Said("chords-lost", {"count": lost})] if lost else [])


def choruses_of(bars: Sequence[FormBar], name: str = "") -> Choruses:
    """The form that the chords of a tune are; `name` is what the source calls it.

    NotesError if they are longer than a form may be, and no chorus comes again.
    """
    for form in _built_in(name):
        if endings := _endings(bars, form):
            return Choruses(form, endings)
    for length in range(_SHORTEST_CHORUS, len(bars) // 2 + 1):
        if len(bars) % length == 0:
            form = own_form(name or AS_WRITTEN, bars[:length])
            if endings := _endings(bars, form):
                return Choruses(form, endings)
    return Choruses(whole_form(bars, name or AS_WRITTEN), ((),))


def whole_form(bars: Sequence[FormBar], name: str = AS_WRITTEN) -> Form:
    """All bars as one form; NotesError if they are more than a form may have."""
    if len(bars) > MOST_FORM_BARS:
        raise NotesError(
            f"the melody has {len(bars)} bars, and a form has {MOST_FORM_BARS} at most: "
            "take a part with --bars"
        )
    return own_form(name, bars)


def laid_over(form: Form, bars: int) -> Choruses:
    """A form that is given, over as many choruses as the melody takes; the last is filled up."""
    length = len(form.bars)
    count = -(-bars // length)
    over = count * length - bars
    said = (Said("bars-filled", {"count": over, "form": form.full_name}),) if over else ()
    return Choruses(form, ((),) * count, said)


def own_form(name: str, bars: Sequence[FormBar]) -> Form:
    """A form of its own, in lines as players count them."""
    rows = tuple(tuple(bars[at : at + BARS_A_LINE]) for at in range(0, len(bars), BARS_A_LINE))
    return Form(name, rows)


def _built_in(name: str) -> list[Form]:
    """The built-in forms with their own endings and at home; the one that is named first."""
    named = None
    with suppress(ValueError):
        named = named_form(name) if name else None
    return [*([named] if named else []), *FORMS.values()]


def _endings(bars: Sequence[FormBar], form: Form) -> tuple[Bars, ...]:
    """The ending of each chorus, if the chords are those of the form in all other bars."""
    length = len(form.bars)
    if not bars or len(bars) % length:
        return ()
    found: list[Bars] = []
    for begin in range(0, len(bars), length):
        chorus = bars[begin : begin + length]
        differ = [at for at in range(length) if chorus[at] != form.bars[at]]
        if differ and differ[0] < length - _LONGEST_ENDING:
            return ()
        found.append(tuple(chorus[differ[0] :]) if differ else ())
    return tuple(found)
