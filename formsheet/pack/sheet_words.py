"""The words that are printed on every sheet. Other languages would begin here."""

from __future__ import annotations

from fractions import Fraction

from formsheet.music.rhythm import Meter
from formsheet.music.swing import Feel

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


def feel_words(feel: Feel, meter: Meter) -> str:
    """The feel in a line at the top of the sheet."""
    if meter.compound:
        return f"{meter.text}: {_NUMBERS[meter.beats]} beats in a bar, three eighths to each"
    if not feel.swings:
        return "Straight: all eighths are even"
    if feel.ratio == 2:
        return "Swing: the first of two eighths is twice as long as the second"
    share = f"{float(feel.share * 100):.3g}"
    return f"Light swing: the first of two eighths takes {share} per cent of the beat"


_NUMBERS = ("no", "one", "two", "three", "four")


def tempo_words(tempo: Fraction, meter: Meter) -> str:
    """The tempo: "104 beats a minute"."""
    number = f"{float(tempo):g}"
    return f"{number} dotted quarters a minute" if meter.compound else f"{number} beats a minute"


def times_words(times: int) -> str:
    """How often a chorus is played."""
    return "" if times == 1 else "play twice" if times == 2 else f"play {times} times"


def bars_words(numbers: list[int]) -> str:
    """Bar numbers in runs: "bars 1-4, 7 and 8"."""
    runs: list[list[int]] = []
    for number in numbers:
        if runs and runs[-1][-1] == number - 1:
            runs[-1].append(number)
        else:
            runs.append([number])
    parts = [
        part
        for run in runs
        for part in ([f"{run[0]}-{run[-1]}"] if len(run) > 2 else list(map(str, run)))
    ]
    listed = parts[0] if len(parts) == 1 else f"{', '.join(parts[:-1])} and {parts[-1]}"
    return f"{'bar' if len(numbers) == 1 else 'bars'} {listed}"
