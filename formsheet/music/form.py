"""Forms: the chords of a chorus, bar by bar.

Twelve-bar forms: Wikipedia, "Twelve-bar blues". Eight-bar forms: Wikipedia, "Eight-bar blues".
Sixteen bars: Wikipedia, "Sixteen-bar blues". The `long home` eight-bar and how the last bar
goes (`ending I`, `ending V`) are common practice, no source.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction
from functools import cached_property

from formsheet.music.chord import Chord, parse_chord

BARS_A_LINE = 4  # as players count a blues

FormBar = tuple[Chord, ...]  # one chord, or two that share the bar halfway
ChordPlaces = tuple[tuple[Fraction, Chord], ...]  # from where in the bar each sounds


def chord_places(bar: FormBar, length: Fraction) -> ChordPlaces:
    """From where in a bar of this length each of its chords sounds: they share it evenly."""
    return tuple((place * length / len(bar), chord) for place, chord in enumerate(bar))


def chord_at(chords: ChordPlaces, onset: Fraction) -> Chord:
    """The chord that sounds at a place in the bar."""
    return [chord for start, chord in chords if start <= onset][-1]


@dataclass(frozen=True)
class Form:
    """A chorus: its chords bar by bar, in lines as players count them."""

    name: str
    lines: tuple[tuple[FormBar, ...], ...]

    @cached_property
    def bars(self) -> tuple[FormBar, ...]:
        """All bars in order."""
        return tuple(bar for line in self.lines for bar in line)

    @property
    def plain_name(self) -> str:
        """Its name without its ending."""
        return self.name.partition(" ending ")[0]

    @property
    def chords(self) -> tuple[Chord, ...]:
        """The different chords, in order of appearance."""
        return tuple(dict.fromkeys(chord for bar in self.bars for chord in bar))

    @property
    def minor(self) -> bool:
        """Whether the song is in a minor key: the chords on I have a minor third."""
        home = [chord for chord in self.chords if chord.root == 0]
        return bool(home) and home[0].minor_third


def parse_form(name: str, text: str) -> Form:
    """Read a form written as lines of bars: `I7 | IV7 | I7 | I7`."""
    lines = tuple(
        tuple(tuple(parse_chord(word) for word in bar.split()) for bar in line.split("|"))
        for line in text.strip().splitlines()
    )
    return Form(name, lines)


# The last bar of each is the turnaround to the top; `ending I` stays at home instead.
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


def built_in_form(name: str) -> Form | None:
    """A built-in form by its name, in capitals or not, however it is spaced; None if unknown."""
    return FORMS.get(" ".join(name.casefold().split()))


def named_form(name: str) -> Form | None:
    """A built-in form, perhaps with its ending: "8-bar ending I"; None if unknown."""
    *words, before, last = ["", "", *name.split()]
    if before.casefold() != "ending":
        return built_in_form(name)
    form = built_in_form(" ".join(words))
    try:
        ending = parse_chord(last)
    except ValueError:
        return None
    return with_ending(form, ending) if form and is_ending(ending) else None


def is_ending(chord: Chord) -> bool:
    """Whether a form can be told to end on this chord: on I or on V."""
    return chord.numeral.upper() in ("I", "V")


def with_ending(form: Form, ending: Chord) -> Form:
    """The form with its last bar on the degree of `ending` (I or V).

    The bar takes the seventh, or the minor seventh where the form has that degree minor.
    """
    same_degree = [chord for chord in form.chords if chord.root == ending.root]
    last = same_degree[0] if same_degree else parse_chord(f"{ending.numeral}7")
    *lines, last_line = form.lines
    name = f"{form.plain_name} ending {ending}"
    return replace(form, name=name, lines=(*lines, (*last_line[:-1], (last,))))
