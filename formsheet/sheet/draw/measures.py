"""The measures of the comb: one set for each density, in millimetres unless they say pt."""

from __future__ import annotations

from dataclasses import dataclass, fields, replace

from formsheet.sheet.draw.metrics import Font

LEAST_HOLE = 20.0  # pt: comfort at a music stand, 80 cm away (sheet.md); own choice
LEAST_LARGE = 30.0  # pt: the least figure of large print
CLEAR = 2.3  # from the ink of one system to the chord row of the next
INSET = 3.0  # from a bar line to the first onset


@dataclass(frozen=True, slots=True)
class Measures:
    """The sizes of everything in a system."""

    hole: float  # pt: the figure of a hole, at most
    box: float  # height of the box of a single hole
    stack: float  # pt: the figures of a chord or a split
    stack_box: float
    comb: float  # height between the two lines of the comb
    head: float  # height of the row of chords and licks
    sag: float  # how far the box of a bent note reaches further out
    tick: float  # height of a tick of a bend
    tick_pitch: float
    tick_stroke: float
    white: float  # between the box of a note and the next onset
    pad: float  # from the left edge of a long box to its figure
    count: float  # pt: the number of a beat
    part: float  # pt: `&`, `e`, `a`
    numeral: float  # pt
    letter: float  # pt: the letter name of a chord
    number: float  # pt: of a bar
    title: float  # pt: of a lick
    syllable: float  # pt
    beam: float  # thickness
    beam_step: float  # from one beam to the next
    circle: float  # diameter of the circle round the letter of a lick
    sign: float  # height of the row of technique signs
    square: float = 0.0  # least side of the squares of a chord
    three: float = 7.5  # pt: the 3 of a triplet
    crowded: float = 20.5  # pt: a figure is made no smaller for the white at its sides

    @property
    def syllables(self) -> float:
        """Height (mm) of a row of syllables."""
        return 1.3 * Font("regular", self.syllable).mm


WIDE = Measures(
    hole=26, box=9.6, stack=17, stack_box=13.2, comb=6.6, head=6.8, sag=3.1,
    tick=2.2, tick_pitch=1.8, tick_stroke=0.95, white=1.0, pad=1.0, count=13, part=11,
    numeral=15, letter=12.5, number=11, title=11, syllable=11, beam=0.8, beam_step=1.1, circle=5.4,
    sign=3.4,
    crowded=25.2,
)  # fmt: skip
MID = replace(
    WIDE, hole=22, box=8.0, stack=15, stack_box=11.9, comb=6.4, sag=2.9, tick=2.1, tick_pitch=1.65,
    tick_stroke=0.86, white=0.6, pad=0.5, count=12, part=10.5, numeral=14, letter=12,
    circle=5.2, sign=3.0,
    crowded=20.5,
)  # fmt: skip
DENSE = replace(
    MID, hole=21, box=6.4, stack=15, stack_box=11.7, comb=6.0, head=5.6, sag=2.7, tick=1.95,
    tick_pitch=1.55, tick_stroke=0.8, white=0.65, pad=0.75, count=10.5, part=9.5, numeral=12.5,
    letter=11, title=10, syllable=10, beam=0.62, beam_step=0.9, circle=4.6, sign=2.7,
)  # fmt: skip
CRAMPED = replace(
    DENSE, hole=20.5, box=5.9, stack=14, stack_box=10.4, comb=5.4, head=5.0, sag=2.5, tick=1.8,
    tick_pitch=1.5, tick_stroke=0.78,
    numeral=12, count=10, part=9, circle=4.4, sign=2.4, beam_step=0.85, beam=0.58,
)  # fmt: skip
LARGE = replace(
    WIDE, hole=42, box=14.2, stack=23, stack_box=18.0, comb=9.0, head=9.4, sag=4.8, tick=3.4,
    tick_pitch=2.8, tick_stroke=1.5, white=1.3, pad=1.5, count=18, part=15, numeral=20, letter=17,
    number=14, title=15, syllable=16, beam=1.1, beam_step=1.5, circle=7.2, sign=5.0,
    crowded=30.5,
)  # fmt: skip
LARGE_DENSE = replace(
    LARGE, hole=34, box=11.6, stack=22, stack_box=16.8, comb=8.4, head=8.6, sag=3.9, tick=2.8,
    tick_pitch=2.3, tick_stroke=1.25, white=1.0, pad=0.9, count=16.5, part=14, beam=0.9,
    beam_step=1.25, sign=4.2,
)  # fmt: skip
BACK = replace(
    WIDE, hole=15.5, box=5.0, stack=12.5, stack_box=8.8, square=1.3, three=9, comb=4.9, head=0.0,
    sag=2.1, tick=1.5,
    tick_pitch=1.15, tick_stroke=0.58, white=0.6, pad=0.5, count=9.5, part=9.5, numeral=11,
    letter=10, number=8, title=9, syllable=9, beam=0.5, beam_step=0.8, circle=4.6, sign=2.2,
    crowded=20.5,
)  # fmt: skip

#: Of a screen, drawn as a page (screen_layout.py): no word is smaller than 8.7 pt, 55 px there.
SCREEN = replace(WIDE, hole=26.7, number=9)
SCREEN_SMALL = replace(
    DENSE, hole=17, box=5.8, stack=11.5, stack_box=8.8, comb=5.7, sag=2.1, tick=1.5,
    tick_pitch=1.2, tick_stroke=0.63, white=0.6, pad=0.4, sign=2.6,
)  # fmt: skip


def between(small: Measures, big: Measures, share: float) -> Measures:
    """Measures between two sets; `share` 0 is the small one, 1 the big one."""
    return Measures(
        **{
            each.name: getattr(small, each.name)
            + share * (getattr(big, each.name) - getattr(small, each.name))
            for each in fields(Measures)
        }
    )


#: From roomy to dense: the sets that are tried for a page.
SIZES = (
    between(MID, WIDE, 2.0),
    between(MID, WIDE, 1.5),
    WIDE,
    between(MID, WIDE, 0.5),
    MID,
    between(DENSE, MID, 0.5),
    DENSE,
    between(CRAMPED, DENSE, 0.5),
    CRAMPED,
)
LARGE_SIZES = (LARGE, between(LARGE_DENSE, LARGE, 0.5), LARGE_DENSE)
SCREEN_SIZES = tuple(between(SCREEN_SMALL, SCREEN, share / 6) for share in range(6, -1, -1))
