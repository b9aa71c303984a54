"""The words that are printed on every sheet. Other languages would begin here."""

from __future__ import annotations

from formsheet.music.rhythm import Meter

LANGUAGE = "en"

CAUTIONS = (
    "Playing should not hurt. Rest when lips, jaw or breath get tired, and stop when hard "
    "breathing makes you dizzy. If you have a condition of the heart or lungs, or breathing "
    "troubles you, ask a doctor first."
)

#: Lines of the practice log.
LOG_LICKS = "The licks"
LOG_JOINS = "The joins, hardest first"
LOG_ALL = "The whole tune, from the top"

#: How each mark reads, in the order of the key. Only those that occur are printed.
KEY = {
    "blow": "above the line: blow, breath out",
    "draw": "below the line: draw, breath in",
    "turn": "the line steps up or down: the breath turns",
    "bend1": "one tick: bend a half step down",
    "bend2": "two ticks: bend a whole step down",
    "bend3": "three ticks: bend a step and a half down",
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
    "eighth": "a single eighth",
    "sixteenths": "sixteenths: four to a quarter",
    "dot": "a dot makes a note half as long again",
    "triplet": "triplet: three in the time of two",
    "rests": "rests: be silent, and breathe",
    "technique": "a word in slanted type: how to play the note",
    "syllable": "a word below: say it while you play",
    "pickup": "a pick-up: it leads into the next bar",
    "round": "which time round this lick is",
    "feel": "the feel changes here",
}


def key_words(sign: str, meter: Meter) -> str:
    """How a mark of the key reads in a meter."""
    if meter.compound:
        return {
            "quarter": "quarter note: two eighths",
            "half": "half note: four eighths",
            "eighths": "eighths: three to a beat",
            "sixteenths": "sixteenths: two to an eighth",
        }.get(sign, KEY[sign])
    return KEY[sign]
