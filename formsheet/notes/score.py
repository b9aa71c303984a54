"""Read a score file (MusicXML): the melody at its sounding pitch, with chords, swing and bars."""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import replace
from fractions import Fraction
from pathlib import Path
from statistics import fmean
from typing import TYPE_CHECKING

from formsheet.music import pitch
from formsheet.music.harp import Harp
from formsheet.music.key import Key, key_of_signature
from formsheet.music.tab import Breath, Tab
from formsheet.music.tunings import HOLES, RICHTER, TUNINGS, Tuning
from formsheet.notes.melody import NotesError, Reading, Said, Tone
from formsheet.notes.midi import names_a_harmonica
from formsheet.notes.scores.numbers import number, text_of
from formsheet.notes.scores.part_reader import RawNote, RawPart, Voice, read_part
from formsheet.notes.scores.score_file import SUFFIXES, score_root
from formsheet.notes.voices import Part, chosen_part, top_line

if TYPE_CHECKING:
    from xml.etree.ElementTree import Element

__all__ = ("SUFFIXES", "read_score")

#: Modes with a minor third above the key note.
_MINOR_MODES = ("minor", "dorian", "phrygian", "aeolian", "locrian")
#: Fifths from the major key of a signature to the key note of a mode.
_MODES = {"major": 0, "ionian": 0, "minor": 0, "aeolian": 0, "mixolydian": 1, "dorian": -1,
          "lydian": -1, "phrygian": 1, "locrian": 2}  # fmt: skip
_HARMONICA = "23"  # General MIDI 1, counted from 1
#: The share of the bars of the fullest voice that a voice must fill to be the melody.
_FULL = 0.5
_TAB = re.compile(r"(?P<holes>(?:10|[1-9](?!0))+)(?P<over>o?)(?P<breath>[bd])(?P<bend>'{0,3})")

#: What is counted in a part, and is a remark.
COUNTED = ("graces", "cues", "unpitched", "no-pitch", "quarter-tones", "lyrics", "chords-unread",
            "chords-plain")  # fmt: skip


def read_score(path: Path, part: str | None = None) -> Reading:
    """The melody of a MusicXML file; NotesError if it is unreadable or has no melody.

    `part` names the part to take.
    """
    root = score_root(path)
    listed = {each.get("id", ""): each for each in root.findall("part-list/score-part")}
    raw: list[tuple[Part, RawPart]] = []
    for place, (name, measures) in enumerate(_parts(root)):
        found = read_part(measures, str(path))
        if found.notes:
            score_part = listed.get(name)
            tones, said = _line(found)
            title = text_of(score_part, "part-name") or text_of(
                score_part, "score-instrument/instrument-name"
            )
            found.counts.update(said)
            raw.append(
                (Part(title, tuple(tones), _harmonica(score_part, title), (place, 0)), found)
            )
    if not raw:
        raise NotesError(f"{path} has no notes: export it with a melody")
    chosen, remarks = chosen_part([each for each, _ in raw], part)
    found = next(found for each, found in raw if each is chosen)
    chords = found.chords or next((other.chords for _, other in raw if other.chords), [])
    feels = found.feels or raw[0][1].feels
    tempos = found.tempos or [tempo for _, other in raw for tempo in other.tempos]
    line, dropped = top_line(chosen.tones)
    key, signature = _key(found)
    harp, position = _own_harp(root) if all(tone.tab for tone in line) else (None, None)
    if harp:
        remarks.append(Said("own-score"))
    else:
        line, more = _without_techniques(line)
        dropped += more
    return Reading(
        tones=tuple(line),
        meter=found.bars[0].meter,
        title=_title(root) or path.stem,
        key=key,
        signature=signature,
        tempo=tempos[0] if tempos else None,
        said=(*remarks, *dropped, *_said(found, tempos)),
        bars=tuple(found.bars),
        chords=tuple(sorted(chords, key=lambda each: each[0])),
        feels=tuple(feels),
        sections=tuple(found.sections) if harp else (),
        harp=harp,
        position=position,
        form=_field(root, "form") if harp else "",
    )


def _parts(root: Element) -> Iterator[tuple[str, Sequence[Element]]]:
    """The parts with their measures, however the file is arranged."""
    if root.tag == "score-partwise":
        for part in root.findall("part"):
            yield part.get("id", ""), part.findall("measure")
        return
    parts: dict[str, list[Element]] = defaultdict(list)
    for measure in root.findall("measure"):
        for part in measure.findall("part"):
            part.tag = "measure"
            name = part.get("id", "")
            part.attrib = dict(measure.attrib)
            parts[name].append(part)
    yield from parts.items()


def _harmonica(part: Element | None, name: str) -> bool:
    if part is None:
        return False
    sounds = [text_of(each, "instrument-sound") for each in part.findall("score-instrument")]
    names = [text_of(each, "instrument-name") for each in part.findall("score-instrument")]
    program = text_of(part, "midi-instrument/midi-program")
    if "pluck.harp" in sounds or program == "47":
        return False
    return (
        "wind.reed.harmonica" in sounds
        or program == _HARMONICA
        or any(map(names_a_harmonica, (name, *names)))
    )


# ---- Notes ---------------------------------------------------------------------------------


def _line(part: RawPart) -> tuple[list[Tone], dict[str, int]]:
    """The notes of the part's melody voice, chords together and ties joined."""
    voices: dict[Voice, list[RawNote]] = defaultdict(list)
    for note in part.notes:
        voices[note.voice].append(note)
    chosen = _melody_voice(voices)
    counts = {}
    if len(voices) > 1:
        counts["voices"] = len(voices)
        counts["other-voices"] = len(part.notes) - len(voices[chosen])
    tones: list[Tone] = []
    for note in voices[chosen]:
        if note.chord and tones and tones[-1].start <= note.start < tones[-1].end:
            last = tones[-1]
            tones[-1] = replace(last, midi=tuple(sorted({*last.midi, note.midi})))
        else:
            tab = _tab(note.tab)
            tones.append(
                Tone((note.midi,), note.start, note.end, tab, note.technique, note.syllable)
            )
    ties = {(note.midi, note.start) for note in voices[chosen] if note.tied}
    return _joined(tones, ties), counts


def _melody_voice(voices: dict[Voice, list[RawNote]]) -> Voice:
    """The highest of the voices that sound through at least half of the part; it is followed."""
    times = {
        voice: sum(note.end - note.start for note in notes if not note.chord)
        for voice, notes in voices.items()
    }
    most = max(times.values())
    full = [voice for voice in voices if times[voice] >= most * Fraction(_FULL)]
    return max(full, key=lambda voice: fmean(note.midi for note in voices[voice]))


def _joined(tones: Sequence[Tone], ties: set[tuple[int, Fraction]]) -> list[Tone]:
    joined: list[Tone] = []
    for tone in tones:
        last = joined[-1] if joined else None
        tied = any((midi, tone.start) in ties for midi in tone.midi)
        if last and tied and last.midi == tone.midi and last.end == tone.start:
            joined[-1] = replace(last, end=tone.end)
        else:
            joined.append(tone)
    return joined


def _without_techniques(tones: Sequence[Tone]) -> tuple[list[Tone], list[Said]]:
    """The notes without articulations, which say how another instrument plays them."""
    count = sum(bool(tone.technique) for tone in tones)
    plain = [replace(tone, technique="", syllable="") for tone in tones]
    return plain, [Said("articulations", {"count": count})] if count else []


def _tab(text: str) -> Tab | None:
    found = _TAB.fullmatch(text)
    if not found:
        return None
    holes = tuple(int(each) for each in re.findall(r"10|[1-9]", found["holes"]))
    return Tab(holes, Breath(found["breath"]), len(found["bend"]), bool(found["over"]))


# ---- Facts ---------------------------------------------------------------------------------


def _key(part: RawPart) -> tuple[Key | None, int | None]:
    """The sounding key if the score names it, else the sharps of the sounding signature."""
    if not part.keys:
        return None, None
    sharps, mode = part.keys[0]
    sounding = pitch.pitch_class(pitch.name_at_fifths(sharps)) + part.steps
    sharps = sharps if not part.steps % 12 else (sounding * 7 + 5) % 12 - 5
    if mode not in _MODES:
        return None, sharps
    minor = mode in _MINOR_MODES
    if mode in ("major", "minor", "ionian", "aeolian"):
        return key_of_signature(sharps, minor), None
    steps = {"dorian": 2, "phrygian": 4, "lydian": -1, "mixolydian": 1, "locrian": 5}
    return Key(pitch.name_at_fifths(sharps + steps[mode]), minor), None


def _title(root: Element) -> str:
    return " ".join((text_of(root, "work/work-title") or text_of(root, "movement-title")).split())


def _field(root: Element, name: str) -> str:
    for each in root.findall("identification/miscellaneous/miscellaneous-field"):
        if each.get("name") == name:
            return (each.text or "").strip()
    return ""


def _own_harp(root: Element) -> tuple[Harp | None, int | None]:
    """Harp and position of a score that was written by formsheet, and has its tab."""
    from formsheet.vocabulary.facts import HARP, POSITION
    from formsheet.vocabulary.option import value_of

    tuning = _tuning(_field(root, "tuning") or RICHTER.name, _field(root, "reeds"))
    harp = value_of(HARP, _field(root, "harp"))
    position = value_of(POSITION, _field(root, "position"))
    if not isinstance(harp, Harp) or not isinstance(position, int) or tuning is None:
        return None, None
    return Harp(harp.key, harp.register, tuning), position


def _tuning(name: str, reeds: str) -> Tuning | None:
    rows = [[number(word) for word in row.split()] for row in reeds.split("/")]
    if reeds and all(len(row) == HOLES and None not in row for row in rows) and len(rows) == 2:
        blow, draw = (tuple(int(reed or 0) for reed in row) for row in rows)
        return Tuning(name, blow, draw)
    return TUNINGS.get(name)


def _said(part: RawPart, tempos: Sequence[Fraction]) -> Iterator[Said]:
    if part.steps:
        yield Said("transposed", {"steps": part.steps, "several": part.several_steps})
    if "voices" in part.counts:
        yield Said("voices", {"count": part.counts["voices"], "notes": part.counts["other-voices"]})
    for kind in COUNTED:
        if count := part.counts.get(kind):
            yield Said(kind, {"count": count})
    if "repeats" in part.counts or "endings" in part.counts:
        yield Said("repeats")
    if len(set(tempos)) > 1:
        yield Said("tempos", {"count": len(set(tempos))})
    names = dict.fromkeys(part.keys)
    if len(names) > 1:
        yield Said("keys", {"names": [key_of_signature(each, mode == "minor").name
                                      for each, mode in names]})  # fmt: skip
