"""Forms: the chords of a chorus, bar by bar.

Twelve-bar forms: Wikipedia, "Twelve-bar blues". Eight-bar forms: Wikipedia, "Eight-bar blues".
Sixteen bars: Wikipedia, "Sixteen-bar blues". The `long home` eight-bar and how the last bars go
(`ending I`, `ending I IV | I V`) are common practice, no source.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from fractions import Fraction
from functools import cached_property
from itertools import islice
from typing import NamedTuple, Self

from formsheet.music.chord import Chord, parse_chord

BARS_A_LINE = 4  # as players count a blues. Common practice, no source

MOST_CHORDS = 2  # in a bar; each has half of it

FormBar = tuple[Chord, ...]  # one chord, or two of half a bar each
Bars = tuple[FormBar, ...]
FormLines = tuple[Bars, ...]
ChordPlaces = tuple[tuple[Fraction, Chord], ...]  # start of each chord in the bar, in quarters

_HOME, _FIFTH = 0, 7  # degrees, in semitones above the key note
_MINOR_SEVENTH = 10  # semitones above a chord's root


def chord_places(bar: FormBar, length: Fraction) -> ChordPlaces:
    """The chords of a bar with their starts, in quarters; `length` is that of the bar."""
    return tuple((place * length / len(bar), chord) for place, chord in enumerate(bar))


def chord_at(chords: ChordPlaces, onset: Fraction) -> Chord:
    """The chord that sounds at a place in the bar, in quarters."""
    return [chord for start, chord in chords if start <= onset][-1]


class _Laid(NamedTuple):
    """The fields of a `Form`."""

    name: str  # without the ending
    own_lines: FormLines  # without the ending
    ending: Bars = ()


class Form(_Laid):
    """A chorus: its chords bar by bar, in lines as players count them.

    `ending` replaces as many of the last bars as it has, and is kept as written; `lines` has its
    chords as they are played. ValueError if it is longer than the form.
    """

    def __new__(cls, name: str, own_lines: FormLines, ending: Bars = ()) -> Self:
        """Make a form whose ending is no longer than itself."""
        if len(ending) > (have := sum(map(len, own_lines))):
            raise ValueError(f"the ending names {len(ending)} bars; the form has {have}")
        return super().__new__(cls, name, own_lines, ending)

    @cached_property
    def lines(self) -> FormLines:
        """The bars as played, the ending included, in lines."""
        if not self.ending:
            return self.own_lines
        bars = iter((*self._own_bars[: -len(self.ending)], *self._played_ending()))
        return tuple(tuple(islice(bars, len(line))) for line in self.own_lines)

    @cached_property
    def bars(self) -> Bars:
        """All bars in order, the ending included."""
        return tuple(bar for line in self.lines for bar in line)

    @property
    def full_name(self) -> str:
        """Name and ending as in a lesson: "8-bar ending I IV | I V"."""
        return f"{self.name} ending {ending_text(self.ending)}" if self.ending else self.name

    @property
    def chords(self) -> tuple[Chord, ...]:
        """The different chords, in order of appearance."""
        return _different(self.bars)

    @property
    def minor(self) -> bool:
        """Whether the song is in a minor key: the chords on I have a minor third."""
        home = [chord for chord in self.chords if chord.root == 0]
        return bool(home) and home[0].minor_third

    @property
    def _own_bars(self) -> Bars:
        return tuple(bar for line in self.own_lines for bar in line)

    def _played_ending(self) -> Bars:
        own = _different(self._own_bars)
        if chord := _home_or_fifth(self.ending):
            same_degree = [each for each in own if each.root == chord.root]
            return ((same_degree[0] if same_degree else _played(chord, own),),)
        return tuple(tuple(_played(chord, own) for chord in bar) for bar in self.ending)


def _different(bars: Bars) -> tuple[Chord, ...]:
    return tuple(dict.fromkeys(chord for bar in bars for chord in bar))


def _home_or_fifth(ending: Bars) -> Chord | None:
    """The chord of `ending I` or `ending V`, for which the form's own I or V is played."""
    chord = ending[0][0]
    alone = len(ending) == len(ending[0]) == 1 and not chord.quality
    return chord if alone and chord.root in (_HOME, _FIFTH) else None


def _played(chord: Chord, own: Sequence[Chord]) -> Chord:
    """A chord of an ending as it is played in a form with the chords `own`.

    With a quality it is played as written. Without one it is the form's chord on that degree, even
    if that is minor and the numeral upper-case: it names the degree. If the form has no chord on
    that degree, it has a seventh if the form's I has one. Common practice, no source.
    """
    if chord.quality:
        return chord
    there = [each for each in own if each.root == chord.root]
    alike = [each for each in there if each.minor_third == chord.minor]
    if alike or (there and not chord.minor):
        return (alike or there)[0]
    home = next((each for each in own if each.root == _HOME), own[0])
    return parse_chord(f"{chord.numeral}7") if _MINOR_SEVENTH in home.tones else chord


def parse_form(name: str, text: str) -> Form:
    """Parse a form written as lines of bars: `I7 | IV7 | I7 | I7`; ValueError for a bad chord."""
    lines = tuple(
        tuple(tuple(parse_chord(word) for word in bar.split()) for bar in line.split("|"))
        for line in text.strip().splitlines()
    )
    return Form(name, lines)


# The last bar of each leads back to the top; `ending I` stays on I instead.
_WRITTEN = {
    "12-bar standard": """
        I7  | I7  | I7 | I7
        IV7 | IV7 | I7 | I7
        V7  | IV7 | I7 | V7""",
    "12-bar quick-change": """
        I7  | IV7 | I7 | I7
        IV7 | IV7 | I7 | I7
        V7  | IV7 | I7 | V7""",
    "12-bar long five": """
        I7  | I7  | I7 | I7
        IV7 | IV7 | I7 | I7
        V7  | V7  | I7 | V7""",
    "12-bar minor": """
        i7    | i7  | i7 | i7
        iv7   | iv7 | i7 | i7
        bVI7  | V7  | i7 | V7""",
    "8-bar": """
        I7 | V7 | IV7 | IV7
        I7 | V7 | I7  | V7""",
    "8-bar late change": """
        I7 | I7 | IV7 | IV7
        I7 | V7 | I7  | V7""",
    "8-bar long home": """
        I7  | I7 | I7 | I7
        IV7 | V7 | I7 | V7""",
    "16-bar": """
        I7  | I7  | I7 | I7
        I7  | I7  | I7 | I7
        IV7 | IV7 | I7 | I7
        V7  | IV7 | I7 | V7""",
}

FORMS = {name: parse_form(name, text) for name, text in _WRITTEN.items()}

#: Hyphens and dashes that a word processor inserts for the hyphen of the keyboard.
_HYPHENS = str.maketrans(dict.fromkeys("\u2010\u2011\u2012\u2013\u2212", "-"))


def _folded(name: str) -> str:
    """A name normalised for look-up: case-folded, single spaces, plain hyphens."""
    return " ".join(name.translate(_HYPHENS).casefold().split())


def folded_forms(forms: Iterable[Form]) -> dict[str, Form]:
    """The forms by their normalised names."""
    return {_folded(form.name): form for form in forms}


_FOLDED = folded_forms(FORMS.values())


def built_in_form(name: str) -> Form | None:
    """A built-in form by its name, ignoring case and spacing; None if unknown."""
    return _FOLDED.get(_folded(name))


def named_form(name: str) -> Form | None:
    """A built-in form, optionally with an ending: "8-bar ending I IV | I V"; None if unknown.

    ValueError with a message for the teacher if the ending is wrong.
    """
    found = re.fullmatch(r"(?P<name>.*?)\sending\s(?P<ending>.+)", name, re.DOTALL | re.IGNORECASE)
    if not found:
        return built_in_form(name)
    form = built_in_form(found["name"])
    return form and with_ending(form, parse_ending(found["ending"]))


def parse_ending(text: str) -> Bars:
    """Parse the bars of an ending: "I IV | I V"; ValueError with a message for the teacher."""
    bars = tuple(tuple(map(_ending_chord, bar.split())) for bar in text.strip(" |").split("|"))
    for bar in bars:
        if not 1 <= len(bar) <= MOST_CHORDS:
            raise ValueError(f"a bar has a chord or two; in `{text.strip()}` one has {len(bar)}")
    return bars


def _ending_chord(word: str) -> Chord:
    try:
        return parse_chord(word)
    except ValueError:
        raise ValueError(f"`{word}` is not a chord; write I, IV, V7, bVI7 or ii") from None


def ending_text(ending: Bars) -> str:
    """The bars of an ending as in a lesson: "I IV | I V"."""
    return " | ".join(" ".join(map(str, bar)) for bar in ending)


def with_ending(form: Form, ending: Bars) -> Form:
    """The form with its last bars replaced by these.

    If the form already has a longer ending, the bars before the new one are kept. ValueError if
    the ending is longer than the form.
    """
    if not ending:
        return form
    kept = form.ending[: max(0, len(form.ending) - len(ending))]
    return Form(form.name, form.own_lines, (*kept, *ending))
