"""Old tab has no rhythm: its notes in quarters, or in a rhythm that is given.

Without a rhythm each note lasts a beat. Where the tab has bar lines each bar of it begins a bar
here, else each line does; what is left over is rest. A rhythm is written as in a lesson, an `x` for
each note, and comes again until the notes are used up.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from fractions import Fraction

from formsheet.music.harp import Harp
from formsheet.music.rhythm import Meter, parse_value
from formsheet.music.tab import Tab
from formsheet.notes.melody import MOST_NOTES, Melody, NotesError, Said, Tone
from formsheet.notes.oldtab.reading import OldTab

_VALUE = re.compile(r"[whqes](\.\.?|3)?")
_MOST_PLACES = 500  # marks of a rhythm; one of a chorus has some hundred. Our own choice


def tab_melody(
    found: OldTab, harp: Harp, meter: Meter, rhythm: str | None = None, title: str = ""
) -> Melody:
    """The notes of old tab as a melody on a harp; NotesError if the rhythm cannot be read."""
    phrases = [phrase for each in found.phrases for phrase in [each] * each.times]
    count = sum(len(phrase.tabs) for phrase in phrases)
    if count > MOST_NOTES:
        raise NotesError(
            f"the tab has {count} notes; {MOST_NOTES} at most are read: put each tune into a file "
            "of its own"
        )
    bars = [bar for phrase in phrases for bar in phrase.bars]
    said = list(found.said)
    if rhythm:
        tones = list(_in_rhythm([tab for bar in bars for tab in bar], rhythm, harp))
        if any(phrase.barred for phrase in phrases) and not _same_bars(tones, bars, meter):
            said.append(Said("bar-lines", {}))
    else:
        tones = list(_in_beats(bars, harp, meter))
        said.append(Said("no-rhythm", {"barred": any(phrase.barred for phrase in phrases)}))
    return Melody(tones=tuple(tones), meter=meter, title=title, said=tuple(said))


def _in_beats(bars: Sequence[Sequence[Tab]], harp: Harp, meter: Meter) -> Iterator[Tone]:
    at = Fraction(0)
    for bar in bars:
        for tab in bar:
            yield Tone(harp.pitches(tab), at, at + meter.beat, tab)
            at += meter.beat
        at = -(-at // meter.bar) * meter.bar


def _in_rhythm(tabs: Sequence[Tab], rhythm: str, harp: Harp) -> Iterator[Tone]:
    places = _places(rhythm)
    at = Fraction(0)
    notes = iter(tabs)
    last: Tone | None = None
    tab = next(notes, None)
    while tab is not None:
        for mark, length in places:
            if mark == "x":
                if last:
                    yield last
                if tab is None:
                    return
                last = Tone(harp.pitches(tab), at, at + length, tab)
                tab = next(notes, None)
            elif mark == "=" and last and last.end == at:
                last = Tone(last.midi, last.start, at + length, last.tab)
            at += length
    if last:
        yield last


def _places(rhythm: str) -> list[tuple[str, Fraction]]:
    """The marks of a rhythm with their lengths in quarters; NotesError for anything else."""
    length = Fraction(1)
    found: list[tuple[str, Fraction]] = []
    for word in rhythm.replace("|", " ").replace("–", "-").split():
        if _VALUE.fullmatch(word):
            length = parse_value(word).length
        elif word in ("x", "-", "="):
            found.append((word, length))
        else:
            raise NotesError(
                f'--in "{rhythm[:40]}": {word} is no mark of a rhythm; write values and an x for '
                "each note, such as q x e x x"
            )
    if len(found) > _MOST_PLACES:
        raise NotesError(f"--in has {len(found)} marks; {_MOST_PLACES} at most")
    if not any(mark == "x" for mark, _ in found):
        raise NotesError(f'--in "{rhythm[:40]}" has no x: write one for each note')
    return found


def _same_bars(tones: Sequence[Tone], bars: Sequence[Sequence[Tab]], meter: Meter) -> bool:
    """Whether the bars of the rhythm have as many notes as those of the tab."""
    counts: dict[int, int] = {}
    for tone in tones:
        number = int(tone.start // meter.bar)
        counts[number] = counts.get(number, 0) + 1
    return [counts[number] for number in sorted(counts)] == [len(bar) for bar in bars]
