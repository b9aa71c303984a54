"""The words that are printed on every sheet. Other languages would begin here."""

from __future__ import annotations

from fractions import Fraction

from formsheet.music.rhythm import Meter
from formsheet.music.swing import Feel
from formsheet.pack.options import MarkStyle

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
REST = "rest"  # a bar of the road map in which nothing is played

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
    "technique": "",  # one entry for each that occurs, from TECHNIQUES
    "syllable": "an upright word below: say it while you play",
    "pickup": "a pick-up: it leads into the next bar",
    "round": "which time round this lick is",
    "feel": "the feel changes here",
    "again": "the same again: play what stands in the bar it names",
}

#: How a technique is done, in a line. Common practice, no source.
TECHNIQUES = {
    "wah": "wah: open the cupped hands on the note",
    "shake": "shake: to and fro between this hole and the next, quickly",
    "dip": "dip: bend a little as you begin, and let go at once",
    "scoop": "scoop: begin bent, and rise into the note",
    "vibrato": "vibrato: let the note pulse, evenly",
    "flutter": "flutter: tongue on and off the holes, quickly",
    "slap": "slap: all holes for a moment, then the tongue comes down",
    "pull": "pull: the tongue comes off, and the chord bursts out",
    "accent": "accent: stronger than its neighbours",
    "short": "short: let go of the note early",
}

#: Blow and draw where the breath line carries no path: by style of marks.
_BREATHS: dict[MarkStyle, tuple[str, str]] = {
    "arrows": ("arrow up, above the line: blow, breath out",
               "arrow down, below the line: draw, breath in"),
    "signs": ("plus, above the line: blow, breath out",
              "minus, below the line: draw, breath in"),
    "letters": ("b, above the line: blow, breath out",
                "d, below the line: draw, breath in"),
}  # fmt: skip


def key_words(sign: str, meter: Meter, marks: MarkStyle = "breath-line") -> str:
    """How a mark of the key reads in a meter, with a style of marks for blow and draw."""
    if marks in _BREATHS and sign in ("blow", "draw"):
        return _BREATHS[marks][sign == "draw"]
    if marks in _BREATHS and sign == "turn":
        return "the numbers cross the line: the breath turns"
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


def chorus_words(first: int, last: int) -> str:
    """Choruses by number: "Chorus 2", "Choruses 1 to 3"."""
    return f"Chorus {first}" if first == last else f"Choruses {first} to {last}"


def last_time_words(title: str, bars: list[int]) -> str:
    """The title of a last time, or of those of its bars that are printed."""
    words = f"{title}, last time" if title else "Last time"
    return f"{words}, {bars_words(bars)}" if bars else words


def own_bars_words(times: str, bars: list[int]) -> str:
    """How often a chorus is played whose last time has some bars of its own."""
    return f"{times}, the last time with its own {bars_words(bars)}"


def again_words(bar: int) -> str:
    """What stands in a bar that repeats an earlier one."""
    return f"same again, as bar {bar}"


def more_joins_words(number: int, easy: bool) -> str:
    """What the practice log says of the joins that it leaves out."""
    what = "1 more join is" if number == 1 else f"{number} more joins are"
    return f"{what} easy at full tempo." if easy else f"{what} easier than these."


def bars_run(first: int, last: int) -> str:
    """Bars side by side: "3", "1-4"."""
    return str(first) if first == last else f"{first}-{last}"


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
