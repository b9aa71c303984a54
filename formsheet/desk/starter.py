"""A lesson to start from: each bar of the form filled with chord tones, to be replaced."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from itertools import groupby

from formsheet.judge.harmony import ChordOnHarp, chord_on_harp
from formsheet.language.tidy import tidied
from formsheet.language.written import rest_of_line
from formsheet.lesson.lengths import value_of
from formsheet.music.chord import Chord
from formsheet.music.form import Form, FormBar
from formsheet.music.harp import Harp
from formsheet.music.key import Key, position_name, song_key
from formsheet.music.rhythm import Meter
from formsheet.music.tab import Tab
from formsheet.report.chords import chords_table
from formsheet.source import Source
from formsheet.vocabulary.facts import tempo_text


@dataclass(frozen=True, slots=True)
class Start:
    """The choices of the teacher."""

    title: str
    harp: Harp
    position: int
    form: Form  # a built-in one
    meter: Meter
    feel: str  # as the lesson writes it
    tempo: Fraction  # beats a minute

    @property
    def key(self) -> Key:
        """The song's key."""
        return song_key(self.harp.key, self.position, self.form.minor)


def starter_text(start: Start) -> str:
    """The text of the lesson, in the layout of `tidy`; free of errors for every choice."""
    blocks = [_facts(start), _chords(start), *_licks(start), _play(start)]
    text, problems = tidied(Source("new", "\n".join("\n".join(block) + "\n" for block in blocks)))
    if text is None:
        raise AssertionError(f"a lesson to start from cannot be read: {problems}")
    return text


def _facts(start: Start) -> Iterator[str]:
    yield f"title {rest_of_line(start.title)}"
    yield f"harp {start.harp.name}"
    if start.harp.other_tuning:
        yield f"tuning {start.harp.other_tuning}"
    yield f"position {position_name(start.position)}"
    yield f"form {start.form.full_name}"
    yield f"meter {start.meter.text}"
    yield f"tempo {tempo_text(start.tempo)}"
    yield f"feel {start.feel}"
    yield "# say     A word to the student."


def _chords(start: Start) -> Iterator[str]:
    yield f"# The song is in {start.key.name}. The chords on this harp:"
    found = [chord_on_harp(chord, start.key, start.harp) for chord in start.form.chords]
    yield from (f"#   {line}" for line in chords_table(found, start.harp, start.key))


# ---- Licks ---------------------------------------------------------------------------------


def _licks(start: Start) -> Iterator[Iterator[str]]:
    for bar, name in _names(start.form).items():
        yield _lick(bar, name, start)


def _lick(bar: FormBar, name: str, start: Start) -> Iterator[str]:
    asked = " ".join(_asked(chord, start.form) for chord in bar)
    yield f"lick {name} on {asked}"
    length = start.meter.bar / len(bar)
    yield "  " + " ".join(_music(chord, length, start) for chord in bar)


def _asked(chord: Chord, form: Form) -> str:
    """The bare numeral if the form has only one chord on that degree."""
    alone = len([each for each in form.chords if each.root == chord.root]) == 1
    return chord.numeral.removesuffix(chord.quality) if alone and chord.quality else str(chord)


def _music(chord: Chord, length: Fraction, start: Start) -> str:
    """A chord tone and a rest by turns, a beat each; one long note if beats do not fill the bar."""
    tab = _tone(chord_on_harp(chord, start.key, start.harp))
    beat = start.meter.beat
    if length % beat:
        return f"{value_of(length)} {tab}"
    marks = [str(tab), "-"] * int(length / beat)
    return f"{value_of(beat)} " + " ".join(marks[: int(length / beat)])


def _tone(found: ChordOnHarp) -> Tab:
    """The lowest natural note on the root, or on the next chord tone that has one."""
    natural = next((tone.natural for tone in found.tones if tone.natural), found.roots)
    return min(natural, key=lambda tab: (tab.bend, tab.holes))


def _names(form: Form) -> dict[FormBar, str]:
    """Names for the licks, by chords of the bar: "one", "flat-six", "one-four"."""
    names: dict[FormBar, str] = {}
    for bar in form.bars:
        if bar not in names:
            plain = "-".join(chord.word for chord in bar)
            taken = sum(name.split("_")[0] == plain for name in names.values())
            names[bar] = plain if not taken else f"{plain}_{taken + 1}"
    return names


# ---- Play ----------------------------------------------------------------------------------


def _play(start: Start) -> Iterator[str]:
    """The lines of the play block: runs of bars, each with its chords as a comment."""
    yield "play"
    names = _names(start.form)
    number = 1
    for line in start.form.lines:
        for bar, run in groupby(line):
            last = number + len(list(run)) - 1
            where = f"bar {number}" if number == last else f"bars {number}-{last}"
            letters = " ".join(chord.name(start.key.tonic) for chord in bar)
            yield f"  {where} {names[bar]}  # {' '.join(map(str, bar))}, {letters}"
            number = last + 1
