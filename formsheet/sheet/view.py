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
    """A count in the comb: "1", "&", "e", "a", or a point."""

    onset: Fraction
    label: str
    beat: bool  # falls on a beat


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
    starts_lick: bool  # the lick did not sound in the bar before
    round: str  # "2 of 4", or "" if the lick is played once
    counts: tuple[Count, ...]
    marks: tuple[Mark, ...]
    feels: tuple[FeelMark, ...] = ()
    spoken: str = ""  # the bar in words, for a screen reader
    letter: str = ""  # of the lick: "A", "T2"; "" if the bar rests, and on the lick's own card
    first_time: bool = False  # the lick comes for the first time in the tune
    opens: bool = False  # the first bar of a lick, each time it is played


#: How a printed chorus ends: the tune ends, it is played again, other choruses follow, or (of
#: changed bars) the chorus goes on.
Ending = Literal["final", "repeat", "double", "line"]


@dataclass(frozen=True, slots=True)
class Chorus:
    """One printed chorus: the form once through, as lines of bars.

    Or the bars of a last time that differ from the chorus before it: then `places` says which.
    """

    #: "Chorus 1", "Second run"; "" when there is but one; of changed bars "Last time, instead of
    #: bars 11 and 12".
    title: str
    note: str  # "play 3 times", or ""
    lines: tuple[tuple[Bar, ...], ...]
    pickup: Bar | None = None  # bar 0, before the tune: only its pick-up is printed
    places: tuple[int, ...] = ()  # of changed bars: which bars of the chorus they replace, from 0
    times: str = ""  # when the bars are played that another time replaces: "1st and 2nd time"
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
    #: Onset in the bar, index of the bar (-1: the pick-up), "b3".
    degrees: tuple[tuple[Fraction, int, str], ...]
    tips: tuple[str, ...] = ()
    pickup: Bar | None = None
    name: str = ""  # name of the lick in the lesson, used for its files
    letter: str = ""  # "A", "T2"
    harp: str = ""  # "C harp · 2nd position"
    tempo: str = ""  # "from 66 to 96 a minute · swing"


@dataclass(frozen=True, slots=True)
class KeyEntry:
    """A line of "how to read this sheet": only for marks that occur."""

    sign: (
        str  # the name of the sign to draw: "blow", "draw", "bend1", "block", "split", "hold", ...
    )
    words: str
    text: str = ""  # text in the sign itself, for a technique: "wah"


@dataclass(frozen=True, slots=True)
class HoleNote:
    """One note of a hole on the harp map."""

    draw: bool
    name: str  # without octave: "C", "Bb"
    used: bool  # the tune plays it
    bend: int = 0  # half steps below the natural note
    overbend: bool = False


@dataclass(frozen=True, slots=True)
class HoleUse:
    """One hole of the harp map: its natural notes and all bends; overbends only if played."""

    hole: int
    notes: tuple[HoleNote, ...]  # for each breath from the comb outwards


@dataclass(frozen=True, slots=True)
class Fact:
    """A labelled fact of the heading: ("Harp", "C"), ("Song key", "G")."""

    label: str
    text: str


@dataclass(frozen=True, slots=True)
class PracticeRow:
    """A line to tick off: a lick, a move inside one, a join, or the whole tune."""

    name: str  # "Front porch", "Inside Front porch", "Front porch › Creek", "Creek again"
    where: str  # "bars 1-4", "bar 10"
    last: HoleMark | None = None  # of a move: its first note; of a join: the last of its lick
    first: HoleMark | None = None  # the note that it leads to
    moves: str = ""  # of a move or join: "3 holes, breath turns"
    tempo: str = ""  # up to which it is easy: "50", "full tempo"
    start: float = 0.0  # beats a minute from which it is practised
    letter: str = ""  # of a lick: "A"
    letters: tuple[str, ...] = ()  # of a join: of both licks, in order; of a move: of its lick


@dataclass(frozen=True, slots=True)
class PracticeGroup:
    """Lines to tick off that belong together."""

    title: str  # "Each lick"; "" of the whole tune
    rows: tuple[PracticeRow, ...]


@dataclass(frozen=True, slots=True)
class ChordRow:
    """How the harp plays one chord of the form, as printed words."""

    numeral: str
    letter: str
    #: Holes of which any neighbours sound together: "draw 1–5, 7–9"; else the root alone.
    blocks: str
    splits: str  # "draw 1·4, 2·5", "none"


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
    harp_facts: tuple[str, ...]  # "C harp", "2nd position", "key of G"
    tune_facts: tuple[str, ...]  # "12-bar, twice", "96 a minute, start at 66", "swing"
    says: tuple[str, ...]  # paragraphs for the student
    feel_words: str  # "Swing: the first of two eighths is twice as long as the second"
    # "swing" (draws the equation of notes), "straight", a ratio as "3:2", or "" (12/8: nothing)
    feel_sign: str
    key_entries: tuple[KeyEntry, ...]
    harp_map: tuple[HoleUse, ...]
    choruses: tuple[Chorus, ...]
    cards: tuple[Card, ...]
    cautions: str
    footer: tuple[str, ...]  # teacher, rights, date: those that are given
    file_name: str
    foot: str  # left part of every page's footer
    chords: tuple[ChordRow, ...] = ()
    ladder: tuple[str, ...] = ()  # tempos, from the start up to the target
    practice: tuple[PracticeGroup, ...] = ()  # rows to tick for each tempo of the ladder
    plan: tuple[str, ...] = ()  # what to practise in which order, a sentence each
    mind: tuple[str, ...] = ()  # what a colleague would say before it is played, a sentence each
    author: str = ""
    language: str = "en"
    links: tuple[Link, ...] = ()
