"""The view of the sheet: everything to be drawn, decided but not yet drawn.

A view has only strings, fractions and flags. It is made from the assembled tune
(`sheet/make_view.py`), drawn by `sheet/draw/` and typeset with the templates. After this point no
music is computed.

Musical positions and lengths are exact fractions of a quarter note.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Literal


@dataclass(frozen=True, slots=True)
class HoleMark:
    """The tab of one note."""

    holes: tuple[int, ...]  # low to high; a split lists only its outer, sounding holes
    draw: bool  # True: draw (breath in); False: blow (breath out)
    bend: int = 0  # half steps below the natural note, 0 or more: one tick each
    overbend: bool = False  # an overblow (draw False) or overdraw (draw True)
    split: bool = False  # outer holes sound, the tongue blocks those between


@dataclass(frozen=True, slots=True)
class Mark:
    """One written mark: a note, a hold of the note before, or a rest."""

    onset: Fraction  # from its bar line
    length: Fraction  # in quarters, as written (a triplet eighth is 1/3)
    value: str  # "w" "h" "q" "e" "s": the written value
    dots: int = 0  # 0 to 2
    triplet: bool = False
    tab: HoleMark | None = None  # None: a rest
    hold: bool = False  # tied to the mark before; its tab is not printed again
    tied_on: bool = False  # the next mark (perhaps in the next bar) is a hold of this one
    landing: bool = False  # a chord tone on a strong beat: may be set in bold
    technique: str = ""  # "wah", "shake", "dip", ...
    syllable: str = ""  # to say, or a word to print under the note
    pickup: bool = False  # belongs to the pick-up of the next bar's lick
    once: bool = False  # of a pick-up: it is played only where the tune begins

    @property
    def is_rest(self) -> bool:
        """Whether it is a rest."""
        return self.tab is None and not self.hold


@dataclass(frozen=True, slots=True)
class ChordMark:
    """A chord name over the bar, from `onset` on."""

    onset: Fraction
    numeral: str  # "IV7", "bVI7", "ii7": plain text; accidentals are set by the drawing
    letter: str  # "F7", "Bbm7"


@dataclass(frozen=True, slots=True)
class Count:
    """A count under the bar: "1", "&", "e", "a", "trip", "let"."""

    onset: Fraction
    label: str
    beat: bool  # falls on a beat
    strong: bool  # falls on a strong beat


@dataclass(frozen=True, slots=True)
class FeelMark:
    """The feel changes here: "swing" or "straight"."""

    onset: Fraction
    feel: str


@dataclass(frozen=True, slots=True)
class Bar:
    """One bar of the sheet."""

    number: int  # 0 is the pick-up bar before the tune
    length: Fraction  # of the meter, in quarters
    beat: Fraction  # one beat, in quarters: 1, or 3/2 in 12/8 and 6/8
    chords: tuple[ChordMark, ...]
    lick: str  # printed title of the lick, "" if the bar rests
    starts_lick: bool  # the first played bar of the lick: its title is printed here
    round: str  # "2 of 4", or "" if the lick is played once
    counts: tuple[Count, ...]
    marks: tuple[Mark, ...]
    feels: tuple[FeelMark, ...] = ()
    spoken: str = ""  # the bar in words, for a screen reader
    again: str = ""  # "same again, as bar 1": printed in the bar instead of its marks


#: How a printed chorus ends: the tune ends, it is played again, or other choruses follow.
Ending = Literal["final", "repeat", "double"]


@dataclass(frozen=True, slots=True)
class Chorus:
    """One printed chorus: the form once through, as lines of bars."""

    title: str  # "Chorus 1", "Second chorus", "Chorus 3, last time"; "" when there is but one
    note: str  # "play 3 times", or ""
    lines: tuple[tuple[Bar, ...], ...]
    pickup: Bar | None = None  # bar 0, before the tune: only its pick-up is printed
    across: int = 0  # bars of a full line, if these lines are parts of lines; else 0
    stands_for: tuple[tuple[int, ...], ...] = ()  # for each bar, indices of the bars of the tune
    ending: Ending = "final"
    opens_repeat: bool = False  # a repeat goes back to its start, which must be marked


@dataclass(frozen=True, slots=True)
class Card:
    """A lick, once, large."""

    title: str
    role: str  # "lick" or "turnaround"
    on: str  # "on I", "on I | V"
    played: str  # "bars 1-4, 7 and 8"
    bars: tuple[Bar, ...]
    degrees: tuple[tuple[Fraction, int, str], ...]  # onset in the bar, bar index, "b3"
    tips: tuple[str, ...] = ()
    pickup: Bar | None = None
    name: str = ""  # name of the lick in the lesson, used for its files


@dataclass(frozen=True, slots=True)
class KeyEntry:
    """A line of "how to read this sheet": only for marks that occur."""

    sign: (
        str  # the name of the sign to draw: "blow", "draw", "bend1", "block", "split", "hold", ...
    )
    words: str
    text: str = ""  # text in the sign itself, for a technique: "wah"


@dataclass(frozen=True, slots=True)
class HoleUse:
    """One hole of the harp map."""

    hole: int
    blow: str  # pitch names without octave: "C"
    draw: str
    blow_used: bool
    draw_used: bool
    draw_bends: tuple[tuple[int, str], ...] = ()  # (half steps, pitch name) used by the tune
    blow_bends: tuple[tuple[int, str], ...] = ()
    over: str = ""  # pitch name of the overbend, when used


@dataclass(frozen=True, slots=True)
class Fact:
    """A labelled fact of the heading: ("Harp", "C"), ("Song key", "G")."""

    label: str
    text: str


@dataclass(frozen=True, slots=True)
class PracticeRow:
    """A line of the practice log: a lick, a move inside one, a join, or the whole tune."""

    name: str  # "Front porch", "Inside Front porch", "Front porch › Creek", "Creek again"
    where: str  # "bars 1-4", "bar 10"
    last: HoleMark | None = None  # of a move: its first note; of a join: the last of its lick
    first: HoleMark | None = None  # the note that it leads to
    moves: str = ""  # of a move or join: "3 holes, breath turns"
    tempo: str = ""  # up to which it is easy: "50", "full tempo"
    start: float = 0.0  # beats a minute from which it is practised


@dataclass(frozen=True, slots=True)
class PracticeGroup:
    """Lines of the practice log that belong together."""

    title: str  # "The licks", "The hard moves and joins, hardest first"
    rows: tuple[PracticeRow, ...]
    note: str = ""  # below its rows: "4 more joins are easy at full tempo."


@dataclass(frozen=True, slots=True)
class ChordRow:
    """How the harp plays one chord of the form, as printed words."""

    numeral: str
    letter: str
    roots: str
    blocks: str
    splits: str
    bent: str  # tones that only a bend sounds


@dataclass(frozen=True, slots=True)
class MapCell:
    """Bars of one lick on the lick map, side by side on a line of the form."""

    bars: str  # "1-4", "7"
    lick: str
    times: str  # "× 4", or "" if it is played once
    first: int  # number of bars before it on the line
    span: int  # number of its bars
    chords: str = ""  # "I7", "V7 IV7": each change once
    begins: tuple[int, ...] = (0,)  # which of its bars, from 0, start the lick
    changed: bool = False  # differs from the first chorus


MapRow = tuple[MapCell, ...]


@dataclass(frozen=True, slots=True)
class MapPart:
    """A chorus on the lick map; for a last time only the lines that differ."""

    title: str
    note: str
    rows: tuple[MapRow, ...]


@dataclass(frozen=True, slots=True)
class Link:
    """A link: what is shown, and the address in print and for the reader's software."""

    title: str  # "" where the address alone is shown
    address: str  # as the lesson writes it
    target: str  # the address in ASCII

    @property
    def printed(self) -> str:
        """The words on paper: "Watch the lesson: https://class.example/27"."""
        return f"{self.title}: {self.address}" if self.title else self.address


@dataclass(frozen=True, slots=True)
class Sheet:
    """The whole handout sheet."""

    title: str
    facts: tuple[Fact, ...]  # harp, position, song key, form, tempo, feel
    says: tuple[str, ...]  # paragraphs for the student
    feel_words: str  # "Swing: the first of two eighths is twice as long as the second"
    # "swing" (draws the equation of notes), "straight", a ratio as "3:2", or "" (12/8: nothing)
    feel_sign: str
    key_entries: tuple[KeyEntry, ...]
    harp_map: tuple[HoleUse, ...]
    form_rows: tuple[tuple[str, ...], ...]  # the form as lines of "I7", "I7 IV7"
    choruses: tuple[Chorus, ...]
    cards: tuple[Card, ...]
    cautions: str
    footer: tuple[str, ...]  # teacher, rights, date: those that are given
    file_name: str
    foot: str  # left part of every page's footer
    degrees: str = ""  # explains the degrees on the cards
    holes: str = ""  # explains the holes in the table of chords
    chords: tuple[ChordRow, ...] = ()
    ladder: tuple[str, ...] = ()  # tempos, from the start up to the target
    practice: tuple[PracticeGroup, ...] = ()  # rows to tick for each tempo of the ladder
    plan: tuple[str, ...] = ()  # what to practise in which order, a sentence each
    breath: str = ""  # balance of draw and blow, and where to breathe
    slow: str = ""  # where the hardest move is not easy at the start tempo; "" where it is
    lick_map: tuple[MapPart, ...] = ()
    author: str = ""
    language: str = "en"
    links: tuple[Link, ...] = ()
