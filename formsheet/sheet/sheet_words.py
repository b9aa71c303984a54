"""Texts of the sheet that are the same for all lessons: key, log, cautions, footer."""

from __future__ import annotations

from textwrap import shorten

from formsheet.music.rhythm import Meter
from formsheet.music.steps import step_words
from formsheet.sheet.mark_styles import BREATH_LINE, MarkStyle

LANGUAGE = "en"
_FOOT_TITLE = 48  # most letters of the title in the footer

CAUTIONS = (
    "Playing should not hurt. Rest when lips, jaw or breath get tired, and stop when hard "
    "breathing makes you dizzy. If you have a condition of the heart or lungs, or breathing "
    "troubles you, ask a doctor first."
)

#: Explains the small signs under the notes of a card.
DEGREES = "Under each note, small: its degree in the chord. R is the root, b3 the flat third."
#: Explains how the table of chords names holes.
HOLES = "In the table, 123b is holes 1, 2 and 3 blow; d is draw; a tick is a half step down."

#: Lines of the practice log.
LOG_LICKS = "The licks"
LOG_JOINS = "The hard moves and joins, hardest first"
LOG_ALL = "The whole tune, from the top"
REST = "rest"  # a bar of the lick map in which nothing is played

#: The text of each sign, in the order of the key. Only signs that occur are printed.
KEY = {
    "blow": "",  # the first three have the words of the style of marks
    "draw": "",
    "turn": "",
    "bend": "",  # one entry for each depth that occurs, from bend_words
    "overblow": "overblow: the note pops up above the draw note",
    "overdraw": "overdraw: the note pops up above the blow note",
    "block": "stacked holes: play them together",
    "split": "split: outer holes sound, the tongue blocks those between",
    "hold": "the line runs on: hold the note, do not strike it again",
    "landing": "bold: a landing, a note of the chord on a strong beat",
    "whole": "whole note: four beats",
    "half": "half note: two beats",
    "quarter": "quarter note: one beat",
    "eighths": "eighths: two to a quarter",
    "sixteenths": "sixteenths: four to a quarter",
    "dot": "a dot makes a note half as long again",
    "triplet": "triplet: three in the time of two",
    "rests": "rests: be silent, and breathe",
    "technique": "",  # one entry for each that occurs, from TECHNIQUES
    "syllable": "an upright word below: say it while you play",
    "pickup": "a pick-up: it leads into the next bar",
    "pickup-once": "a pick-up played once: over the count-in, into bar 1",
    "round": "which time round this lick is",
    "feel": "the feel changes here",
    "repeat": "two dots at a heavy bar line: go back, and play this part again",
    "again": "the same again: play what stands in the bar it names",
}

_COUNTS = ("no", "one", "two", "three", "four", "five", "six")  # larger ones in figures

#: How a technique is done, in a line. Common practice, no source.
TECHNIQUES = {
    "wah": "wah: open the cupped hands on the note",
    "shake": "shake: to and fro between this hole and the next, quickly",
    "dip": "dip: bend a little as you begin, and let go at once",
    "scoop": "scoop: begin bent, and rise into the note",
    "vibrato": "vibrato: let the note pulse, evenly",
    "flutter": "flutter: open and close the cupped hands, quickly",
    "slap": "slap: all holes for a moment, then the tongue comes down",
    "pull": "pull: the tongue comes off, and the chord bursts out",
    "accent": "accent: stronger than its neighbours",
    "short": "short: let go of the note early",
}


def key_words(sign: str, meter: Meter, marks: MarkStyle = BREATH_LINE) -> str:
    """The text of a sign in the key, for a meter and a style of marks."""
    breath = {"blow": marks.blow_words, "draw": marks.draw_words, "turn": marks.turn_words}
    if sign in breath:
        return breath[sign]
    if meter.compound:
        return {
            "quarter": "quarter note: two eighths",
            "half": "half note: four eighths",
            "eighths": "eighths: three to a beat",
            "sixteenths": "sixteenths: two to an eighth",
        }.get(sign, KEY[sign])
    return KEY[sign]


def bend_words(depth: int) -> str:
    """The text for the ticks of a bend; `depth` in half steps, at least 1."""
    ticks = "tick" if depth == 1 else "ticks"
    count = _COUNTS[depth] if depth < len(_COUNTS) else str(depth)
    return f"{count} {ticks}: bend {step_words(depth)} down"


def foot_words(title: str, harp: str, position: str, file_name: str) -> str:
    """The left part of every page's footer, so that loose pages can be sorted."""
    short = shorten(title, _FOOT_TITLE, placeholder=" …")
    return f"{short} · {harp} harp, {position} · {file_name}"


def again_words(bar: int) -> str:
    """The text in a bar that repeats an earlier one."""
    return f"same again, as bar {bar}"


def more_words(number: int, easy: bool) -> str:
    """The text of the practice log about what it leaves out: all of it joins where it is easy."""
    if easy:
        what = "1 more join is" if number == 1 else f"{number} more joins are"
        return f"{what} easy at full tempo."
    what = "1 more move or join is" if number == 1 else f"{number} more moves and joins are"
    return f"{what} not listed."
