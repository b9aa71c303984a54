"""Remarks on how a melody was read (`notes.melody.Said`), in words: what was changed or lost."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from fractions import Fraction
from typing import Any

from formsheet.listing import bars_words, listed, run_words
from formsheet.notes.melody import Said
from formsheet.report.retab import steps_words
from formsheet.vocabulary.facts import feel_text

Facts = Mapping[str, Any]


def _many(count: int, one: str, many: str | None = None) -> str:
    return f"{count} {one if count == 1 else many or one + 's'}"


def _left_out(one: str, many: str | None = None) -> Callable[[Facts], str]:
    return lambda f: f"{_many(f['count'], one, many)} left out"


#: The remarks by kind.
SAID: dict[str, Callable[[Facts], str]] = {
    # Meter and bars
    "meter": lambda f: _meter(f),
    "no-meter": lambda f: "the file has no meter; 4/4 is used",
    "short-bars": lambda f: f"{_bars(f['numbers'])} short: filled up with rest",
    "empty-bars": lambda f: f"{_many(f['count'], 'empty bar')} at the start left out",
    "bars-filled": lambda f: (
        f"{_many(f['count'], 'bar')} of rest added, to the end of {f['form']}"
    ),
    "repeats": lambda f: "repeats are not played out: each bar is written once",
    "doubled": lambda f: "in doubled values: a bar of the source is two bars",
    "feel-lost": lambda f: "in doubled values nothing swings",
    # Parts and voices
    "harmonica-part": lambda f: f"of {f['count']} parts the harmonica's is used{_named(f)}",
    "named-part": lambda f: f"of {f['count']} parts that of the melody is used{_named(f)}",
    "highest-part": lambda f: f"of {f['count']} parts the highest is used{_named(f)}",
    "voices": lambda f: (
        f"of {f['count']} voices one is followed; "
        f"{_many(f['notes'], 'note')} of the others left out"
    ),
    "lower-notes": lambda f: f"{_many(f['count'], 'note')} below the melody left out",
    # Notes
    "transposed": lambda f: (
        f"the part is for a transposing instrument: read as it sounds, {_step(f['steps'])} "
        f"from what is written{'; it changes instrument' if f['several'] else ''}"
    ),
    "graces": _left_out("grace note"),
    "cues": _left_out("cue note"),
    "unpitched": _left_out("note without pitch", "notes without pitch"),
    "no-pitch": _left_out("note that no instrument has", "notes that no instrument has"),
    "quarter-tones": lambda f: f"{_many(f['count'], 'quarter-tone')} taken as the note below",
    "lyrics": _left_out("syllable of lyrics", "syllables of lyrics"),
    "articulations": _left_out("sign of articulation", "signs of articulation"),
    "own-score": lambda f: (
        "a score of formsheet: tab, harp, form and licks are as they were; tips, texts and `!` "
        "are not in it"
    ),
    "bends": lambda f: f"{_many(f['count'], 'note')} bent by the file: read as they sound",
    "bends-lost": lambda f: (
        f"{_many(f['count'], 'pitch bend')} inside a note left out; write them as techniques"
    ),
    "cut-off": lambda f: "the file is cut off: what it has up to there is read",
    # Rhythm
    "swing": lambda f: (
        f"off-beats come late in {_many(f['beats'], 'beat')}: read as feel {feel_text(f['feel'])}"
    ),
    "onsets": lambda f: (
        f"{f['count']} of {_many(f['of'], 'onset')} rounded, "
        f"by {_part(f['most'])} of a quarter at most"
    ),
    "lengths": lambda f: (
        f"{_many(f['count'], 'note length')} rounded, by {_part(f['most'])} of a quarter at most"
    ),
    "too-short": lambda f: (
        f"{_many(f['count'], 'note')} too short for the language left out; --double keeps "
        "thirty-seconds"
    ),
    "triplets": lambda f: f"triplets in {_many(f['count'], 'quarter')}",
    "tempos": lambda f: f"the file has {f['count']} tempos; the first is used",
    "keys": lambda f: f"the key changes ({', '.join(f['names'])}); the first is used",
    # Chords
    "chords-unread": _left_out("chord symbol without a chord", "chord symbols without a chord"),
    "chords-plain": lambda f: (
        f"{_many(f['count'], 'chord symbol')} made plainer: bass notes and rare tensions left out"
    ),
    "chords-moved": lambda f: (
        f"{_many(f['count'], 'change')} of chord moved to the bar line or the half bar"
    ),
    "chords-lost": lambda f: f"{_many(f['count'], 'chord')} left out: a bar has two at most",
    # Old tab
    "shorthand": lambda f: (
        f"read as `{f['name']}` ({f['signs']}"
        f"{'; turned round, as its legend says' if f['turned'] else ''}); "
        "--shorthand says otherwise"
    ),
    "columns": lambda f: f"{f['count']} columns, read one after another; --columns 1 reads across",
    "words": lambda f: f"left out as words: {_lines(f['lines'])}",
    "signs-left-out": lambda f: f"left out: {_signs(f['signs'])}",
    "bracket-runs": lambda f: (
        f"{_lines(f['lines'])}: notes in one bracket are played one after another; (45) is a chord"
    ),
    "lines-again": lambda f: f"{_lines(f['lines'])} written out as often as it says",
    "bar-lines": lambda f: "its bar lines are left out: the rhythm has other bars",
    "no-rhythm": lambda f: (
        "old tab has no rhythm: each note is a beat, and each "
        f"{'bar' if f['barred'] else 'line'} of it begins a bar; --in \"q x e x x\" gives a rhythm"
    ),
    "old-tab-harp": lambda f: _harp(f),
}  # fmt: skip


def _meter(facts: Facts) -> str:
    more = {
        "9/8": ", its eighths as triplets",
        "2/4": ", two bars as one",
        "4/8": ", two bars as one",
        "3/8": ", two bars as one",
        "6/4": ", a bar as two",
        "4/2": ", in half the values",
        "3/2": ", in half the values",
        "4/1": ", in a quarter of the values",
        "3/1": ", in a quarter of the values",
    }
    return f"{facts['found']} is written as {facts['meter']}{more.get(facts['found'], '')}"


def _harp(facts: Facts) -> str:
    if facts["whence"] == "usual":
        return "the tab names no harp: C is used; --harp says otherwise"
    if facts["whence"] == "named":
        return f"for the {facts['harp']} harp, as the tab says; --harp says otherwise"
    return f"for the {facts['harp']} harp, as asked"


def _named(facts: Facts) -> str:
    name = f" ({facts['name']})" if facts["name"] else ""
    return f"{name}; --part takes {facts['names']}" if facts.get("names") else name


def _step(half_steps: int) -> str:
    octaves, rest = divmod(abs(half_steps), 12)
    way = "up" if half_steps > 0 else "down"
    words = [f"{octaves} octaves" if octaves > 1 else "an octave"] if octaves else []
    words += [steps_words(rest if half_steps > 0 else -rest).rsplit(" ", 1)[0]] if rest else []
    return f"{' and '.join(words)} {way}"


def _part(part: Fraction) -> str:
    return f"{float(part):.2f}"


def _bars(numbers: Sequence[str]) -> str:
    if all(number.isdecimal() for number in numbers):
        words = bars_words(sorted({int(number) for number in numbers}))
    else:
        words = f"bars {', '.join(numbers[:8])}"
    return f"{words} {'is' if len(numbers) == 1 else 'are'}"


def _lines(numbers: Sequence[int]) -> str:
    words = listed(run_words(sorted(set(numbers))), "and")
    return f"{'line' if len(set(numbers)) == 1 else 'lines'} {words}"


def _signs(signs: Mapping[str, int]) -> str:
    return ", ".join(f"{sign} ({count})" for sign, count in signs.items())


def said_words(said: Said) -> str:
    """A remark on a reading in words."""
    return SAID[said.kind](said.facts)
