"""Open melodies, and one of them through the whole way: score, search, lick as text, read again.

The melodies are those of a tune book printed in Boston in 1883, whose text is in the public
domain, as the corpus of the music21 package carries them (folder ryansMammoth).
"""

from __future__ import annotations

import time
from dataclasses import dataclass
from fractions import Fraction
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

from formsheet.arrange.melody import melody_facts, melody_lick, melody_line
from formsheet.arrange.rank import Layout, harps_for, ranked
from formsheet.arrange.shelf import shelf_text
from formsheet.arrange.sounds import lick_line
from formsheet.lesson.model import Kind, Lick
from formsheet.lesson.shelves import Shelves
from formsheet.music.rhythm import Meter
from formsheet.notes.keyfinding import found_key
from formsheet.notes.melody import Melody, NotesError, Reading
from formsheet.notes.quantise import quantised
from formsheet.notes.score import read_score
from formsheet.source import Source
from formsheet.stages import examine_any
from tests.arrange.brute import playable

#: Hole 1 blow of the twelve harps, G to F# (Wikipedia, "Richter-tuned harmonica").
_HARPS = range(55, 67)

Notes = list[tuple[int, Fraction, Fraction]]  # pitch, onset, end


def paths() -> list[Path]:
    """The files of the book, a melody each."""
    from music21 import corpus

    return sorted(Path(each) for each in corpus.getComposer("ryansMammoth"))


@dataclass
class Tried:
    """What became of one melody."""

    name: str
    skipped: str = ""  # why it cannot be written
    wrong: str = ""  # what went against the check
    notes: int = 0
    missing: int = 0
    rounded: bool = False  # its rhythm is not checked then, its pitches are
    shortened: bool = False  # notes shorter than the language's were left out: pitches neither
    seconds: float = 0.0  # of the search over twelve harps and seven octaves
    layout: Layout | None = None
    key_found: bool | None = None  # whether the key found from the notes is the one written


def score_notes(score: Any) -> Notes:
    """The notes of a score, ties joined, as the library itself tells them."""
    found = score.parts[0].flatten().stripTies().notes
    return [
        (
            max(pitch.midi for pitch in note.pitches),
            Fraction(note.offset).limit_denominator(960),
            Fraction(note.offset + note.quarterLength).limit_denominator(960),
        )
        for note in found
        if not note.duration.isGrace and "Harmony" not in note.classes
    ]


def lick_notes(lick: Lick, meter: Meter, pitches: list[int]) -> Notes:
    """The notes of a lick with these pitches, in quarters from its first bar line."""
    notes: list[list[Any]] = []
    marks = [(mark, mark.onset - lick.pickup_length) for mark in lick.pickup]
    for number, bar in enumerate(lick.bars):
        marks += [(mark, number * meter.bar + mark.onset) for mark in bar]
    for mark, at in marks:
        if mark.kind is Kind.NOTE:
            notes.append([pitches[len(notes)], at, at + mark.value.length])
        elif mark.kind is Kind.HOLD:
            notes[-1][2] = at + mark.value.length
    return [(pitch, start, end) for pitch, start, end in notes]


def written(tune: Path) -> tuple[Reading, Any]:
    """A tune as MusicXML, read by formsheet and by the library, which fills bars as it writes."""
    from music21 import converter

    score: Any = converter.parse(tune)
    with TemporaryDirectory() as folder:
        path = Path(folder) / "tune.musicxml"
        score.write("musicxml", path)
        return read_score(path), converter.parse(path, forceSource=True)


def tried(path: Path) -> Tried:
    """One melody, checked note by note against the library's own reading of it."""
    result = Tried(path.stem)
    try:
        reading, score = written(path)
        melody = quantised(reading)
    except NotesError as caught:
        result.skipped = str(caught)
        return result
    key = melody.key or found_key(melody.tones)
    result.key_found = found_key(melody.tones) == key
    began = time.perf_counter()
    layout = ranked([melody_line(melody)], harps_for(key.tonic))[0]
    result.seconds = time.perf_counter() - began
    result.layout = layout
    laid = layout.arranged.laid[0]
    result.notes, result.missing = len(laid.line), len(laid.missing)
    text = shelf_text(melody_facts(melody, layout), [melody_lick(melody, laid, key, "melody")])
    examined = examine_any(Source("melody.licks", text), Shelves(path.parent))
    lick = examined.shelf.licks["melody"] if examined.shelf else None
    if examined.problems or not isinstance(lick, Lick):
        result.wrong = f"the lick does not check: {examined.problems}"
        return result
    result.rounded = any(each.kind in ("onsets", "lengths", "too-short") for each in melody.said)
    result.shortened = any(each.kind == "too-short" for each in melody.said)
    result.wrong = _wrong(score, melody, layout, lick)
    return result


def _wrong(score: Any, melody: Melody, layout: Layout, lick: Lick) -> str:
    """What in the lick that was read again is not as the score has it; "" where all is."""
    octaves = layout.arranged.octaves
    harp = layout.harp
    sounding = [each.midi[-1] for each in lick_line(lick, harp, melody.meter.bar)]
    found = lick_notes(lick, melody.meter, sounding)
    wanted = [(midi + 12 * octaves, start, end) for midi, start, end in score_notes(score)]
    shift = wanted[0][1] - found[0][1]
    if not any(each.kind in ("onsets", "lengths", "too-short") for each in melody.said):
        times = [(start + shift, end + shift) for _, start, end in found]
        if times != [each[1:] for each in wanted]:
            return "the rhythm is another"
    elif any(each.kind == "too-short" for each in melody.said):
        kept = {tone.start for tone in melody.tones}
        return "" if len(found) == len(kept) else "notes are lost"
    if len(found) != len(wanted):
        return f"{len(found)} notes of {len(wanted)}"
    able = playable(harp.lowest)
    for got, asked in zip(found, wanted, strict=True):
        if (got[0] == asked[0]) is not (asked[0] in able):
            return f"{asked[0]} sounds as {got[0]}"
    if layout.arranged.missing and _played_elsewhere({midi for midi, *_ in wanted}):
        return "another harp or octave plays it all"
    return ""


def _played_elsewhere(pitches: set[int]) -> bool:
    """Whether any of the twelve harps, in any octave, has all of these pitches."""
    shifted = [{midi + 12 * octave for midi in pitches} for octave in range(-5, 6)]
    return any(each <= playable(lowest) for lowest in _HARPS for each in shifted)
