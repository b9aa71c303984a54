"""Texts of the sheet that are the same for all lessons: legend, practice, cautions, footer."""

from __future__ import annotations

from collections.abc import Sequence
from textwrap import shorten

LANGUAGE = "en"
_FOOT_TITLE = 48  # most letters of the title in the footer

CAUTIONS = (
    "Playing should not hurt. Rest when lips, jaw or breath get tired; stop when hard breathing "
    "makes you dizzy. With a heart or lung condition, or trouble in breathing, ask a doctor first."
)

#: Groups of rows to tick off.
LOG_LICKS = "each lick"
LOG_JOINS = "moves and joins, hardest first"
LOG_ALL = "the whole tune"

#: The words of each sign, in the order of the legend. Only signs that occur are printed.
KEY = {
    "blow": "",  # the words of the style of marks
    "draw": "",
    "length": "as long as the note",
    "bend": "bend, a half step a tick",
    "overblow": "overblow",
    "overdraw": "overdraw",
    "overbend": "overblow, overdraw",
    "block": "a hole between sounds too",
    "split": "tongue on a hole between",
    "landing": "lands on a note of the chord",
    "torn": "held on in the next line",
}

#: The words of the techniques in the legend.
SIGN_WORDS = {
    "accent": "accent",
    "short": "short",
    "slap": "slap",
    "pull": "pull",
    "wah": "wah",
    "scoop": "scoop",
    "dip": "dip",
    "shake": "shake",
    "vibrato": "vibrato",
    "flutter": "flutter",
}

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


def foot_words(title: str, harp: str, position: str, by: Sequence[str]) -> str:
    """Every page's footer, so that loose pages can be sorted; `by`: teacher, rights, date."""
    short = shorten(title, _FOOT_TITLE, placeholder=" …")
    return " · ".join([short, f"{harp} harp, {position} position", *by])
