"""Read a score file (MusicXML) with a general music library.

The library is an optional dependency: it is imported only here, and only when a score is read.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from pathlib import Path
from typing import Any

from formsheet.music.key import Key
from formsheet.notes.melody import NotesError, Reading, Said, Tone
from formsheet.notes.voices import Part, melody_part, top_line

SUFFIXES = (".musicxml", ".xml", ".mxl")

#: Modes with a minor third above the key note.
_MINOR_MODES = ("minor", "dorian", "phrygian", "aeolian", "locrian")
_WITHOUT = "reading MusicXML needs the extra `notes`: pip install 'formsheet[notes]'"


def read_score(path: Path) -> Reading:
    """The melody of a MusicXML file; NotesError if it is unreadable or has no melody."""
    try:
        from music21 import converter
    except ImportError:
        raise NotesError(_WITHOUT) from None
    try:
        score = converter.parse(path, format="musicxml", forceSource=True)
    except Exception as caught:  # its parsers raise exceptions of many types
        raise NotesError(f"{path} is not readable as MusicXML ({caught})") from None
    return score_reading(score, path.stem)


def score_reading(score: Any, name: str) -> Reading:
    """The melody of a score object of the library."""
    streams = list(score.parts) or [score]
    by_part = {}
    for stream in streams:
        tones, said = _tones(stream)
        if tones:
            part = Part(str(stream.partName or ""), tuple(tones), _harmonica(stream))
            by_part[part] = (stream, said)
    if not by_part:
        raise NotesError(f"{name} has no notes")
    part, said = melody_part(list(by_part))
    stream, more = by_part[part]
    tones, dropped = top_line(part.tones)
    meter = _meter(stream, name)
    key, signature = _key(stream)
    said += more + dropped
    said += [Said("no-meter")] if meter is None else []
    bar_line = _first_bar_line(stream)
    return Reading(
        tones=tuple(Tone(t.midi, t.start - bar_line, t.end - bar_line) for t in tones),
        meter=meter or "4/4",
        title=_title(score) or name,
        key=key,
        signature=signature,
        tempo=_tempo(score),
        said=tuple(said),
    )


def _tones(stream: Any) -> tuple[list[Tone], list[Said]]:
    """The notes of a part's highest voice, ties joined, in quarters from its start."""
    tones: list[Tone] = []
    graces = voices = 0
    for measure in list(stream.getElementsByClass("Measure")) or [stream]:
        found = list(measure.voices)
        voices = max(voices, len(found))
        chosen = max(found, key=_height) if found else measure
        begin = _exact(0 if measure is stream else measure.offset)
        begin += _exact(chosen.offset) if found else 0
        for note in chosen.notes:
            if "Harmony" in note.classes:  # a chord symbol, not notes
                continue
            if note.duration.isGrace or not note.pitches:
                graces += 1
                continue
            _add(tones, note, begin)
    return tones, list(_said(stream, graces, voices))


def _add(tones: list[Tone], note: Any, begin: Fraction) -> None:
    """Add a note; a tied one extends the last."""
    start = begin + _exact(note.offset)
    end = start + _exact(note.duration.quarterLength)
    midi = tuple(sorted({pitch.midi for pitch in note.pitches}))
    if _tied(note) and tones and tones[-1].midi == midi and tones[-1].end == start:
        start = tones.pop().start
    tones.append(Tone(midi, start, end))


def _said(stream: Any, graces: int, voices: int) -> Iterator[Said]:
    if voices > 1:
        yield Said("voices", {"count": voices})
    if graces:
        yield Said("graces", {"count": graces})
    if list(stream.recurse().getElementsByClass("Repeat")):
        yield Said("repeats")


def _height(voice: Any) -> float:
    pitches = [note.pitches[-1].midi for note in voice.notes if note.pitches]
    return sum(pitches) / len(pitches) if pitches else -1.0


def _tied(note: Any) -> bool:
    """Whether a note, or the first note of a chord, is tied to the note before."""
    tie = note.tie or next((each.tie for each in getattr(note, "notes", ()) if each.tie), None)
    return tie is not None and tie.type in ("stop", "continue")


def _exact(number: Any) -> Fraction:
    return Fraction(number).limit_denominator(960)


def _harmonica(stream: Any) -> bool:
    instrument = stream.getInstrument(returnDefault=False)
    names = [stream.partName, instrument and instrument.instrumentName]
    return any("harmonica" in str(name).casefold() for name in names if name)


def _meter(stream: Any, name: str) -> str | None:
    found = [each.ratioString for each in stream.recurse().getElementsByClass("TimeSignature")]
    if len(set(found)) > 1:
        raise NotesError(f"the meter of {name} changes ({', '.join(dict.fromkeys(found))})")
    return str(found[0]) if found else None


def _first_bar_line(stream: Any) -> Fraction:
    """The start of the first full bar in quarters: after the pick-up, if there is one."""
    measures = list(stream.getElementsByClass("Measure"))
    if len(measures) > 1 and measures[0].highestTime < measures[0].barDuration.quarterLength:
        return _exact(measures[1].offset)
    return Fraction(0)


def _key(stream: Any) -> tuple[Key | None, int | None]:
    """The key if the score names it, else the sharps of the signature."""
    for found in stream.recurse().getElementsByClass("KeySignature"):
        mode = getattr(found, "mode", None)
        if mode is None:
            return None, int(found.sharps)
        return Key(found.tonic.name.replace("-", "b"), mode in _MINOR_MODES), None
    return None, None


def _title(score: Any) -> str:
    data = score.metadata
    return str((data and (data.title or data.movementName)) or "").strip()


def _tempo(score: Any) -> Fraction | None:
    for mark in score.recurse().getElementsByClass("MetronomeMark"):
        if quarters := mark.getQuarterBPM():
            return Fraction(quarters).limit_denominator(100)
    return None
