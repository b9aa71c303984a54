"""`formsheet tab`: a melody from a file or in words, as a lick on the best harp and position."""

from __future__ import annotations

import argparse
import re
import sys
from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path

from formsheet.arrange.melody import melody_facts, melody_lesson, melody_lick, melody_line
from formsheet.arrange.octaves import MOST_OCTAVES, OCTAVE
from formsheet.arrange.rank import Layout, harps_for, ranked
from formsheet.arrange.shelf import shelf_text
from formsheet.arrange.sounds import moved
from formsheet.commands.declared import Argument, Command, Option
from formsheet.commands.files import ERRORS, FINE, UsageError
from formsheet.commands.named import (
    fact_option,
    named_harp,
    named_key,
    named_octaves,
    named_position,
    named_tuning,
    new_lick_name,
    setup_options,
)
from formsheet.commands.output import OUTPUT, deliver, output_path
from formsheet.lesson.facts import MOST_FORM_BARS
from formsheet.lesson.writing import lesson_text
from formsheet.music.harp import Harp
from formsheet.music.key import Key, position_of, song_key
from formsheet.music.tunings import RICHTER
from formsheet.notes.keyfinding import found_key
from formsheet.notes.melody import Melody, NotesError, Reading
from formsheet.notes.midi import read_midi
from formsheet.notes.names import read_names
from formsheet.notes.quantise import quantised
from formsheet.notes.score import SUFFIXES, read_score
from formsheet.report.tab import tab_report
from formsheet.vocabulary.facts import METER

_MIDI = (".mid", ".midi")


def run(arguments: argparse.Namespace) -> int:
    """Write the lick; say how it was read, what is not there, and what else there is."""
    out = output_path(arguments)
    new_lick_name(arguments.name)
    try:
        melody = quantised(_reading(arguments))
        if arguments.bars:
            melody = melody.part(*_bars(arguments.bars))
        if arguments.lesson and melody.bars > MOST_FORM_BARS:
            raise NotesError(
                f"it has {melody.bars} bars, and a form {MOST_FORM_BARS} at most: "
                "take a part with --bars"
            )
    except NotesError as caught:
        raise UsageError(str(caught)) from None
    key, how = _key(arguments, melody)
    harps = _harps(arguments, key)
    position, harp = harps[0]
    new_key = song_key(harp.key, position, key.minor)
    half_steps = (new_key.pitch_class - key.pitch_class + 5) % OCTAVE - 5
    found = _ranked(arguments, melody, harps, half_steps)
    deliver(_text(arguments, melody, found[0], new_key), out)
    print("\n".join(tab_report(melody, new_key, how, found, half_steps)), file=sys.stderr)
    return ERRORS if found[0].arranged.missing else FINE


def _reading(arguments: argparse.Namespace) -> Reading:
    suffix = Path(arguments.melody).suffix.casefold()
    if suffix not in (*_MIDI, *SUFFIXES):
        return read_names(arguments.melody, arguments.meter or "4/4")
    path = Path(arguments.melody)
    if not path.is_file():
        raise UsageError(f"there is no file called {path}")
    reading = read_midi(path) if suffix in _MIDI else read_score(path)
    return replace(reading, meter=arguments.meter) if arguments.meter else reading


def _bars(text: str) -> tuple[int, int]:
    found = re.fullmatch(r"(\d{1,4})(?:[-–](\d{1,4}))?", text)
    first, last = (int(found[1]), int(found[2] or found[1])) if found else (0, 0)
    if not 1 <= first <= last:
        raise UsageError(f"{text} is no range of bars; write 1-8")
    return first, last


def _key(arguments: argparse.Namespace, melody: Melody) -> tuple[Key, str]:
    """The key, and where it is from."""
    if arguments.key:
        return named_key(arguments.key), "as asked"
    if melody.key:
        return melody.key, "as the file says"
    key = found_key(melody.tones, melody.signature)
    signed = ", of the two that its signature leaves" if melody.signature is not None else ""
    return key, f"found from the notes{signed}; --key says otherwise"


def _harps(arguments: argparse.Namespace, key: Key) -> Sequence[tuple[int, Harp]]:
    """The harps to try, each with its position."""
    tuning = named_tuning(arguments.tuning) if arguments.tuning else RICHTER
    position = named_position(arguments.position) if arguments.position else None
    if arguments.harp:
        harp = named_harp(arguments.harp, tuning)
        return [(position or position_of(harp.key, key.tonic), harp)]
    harps = harps_for(key.tonic, tuning=tuning)
    return [each for each in harps if position in (None, each[0])]


def _ranked(
    arguments: argparse.Namespace,
    melody: Melody,
    harps: Sequence[tuple[int, Harp]],
    half_steps: int,
) -> list[Layout]:
    octaves: Sequence[int] = range(-MOST_OCTAVES, MOST_OCTAVES + 1)
    if arguments.octave:
        octaves = (named_octaves(arguments.octave),)
    line = moved(melody_line(melody), half_steps)
    return ranked([line], harps, overbends=arguments.overbends, octaves=octaves)


def _text(arguments: argparse.Namespace, melody: Melody, layout: Layout, key: Key) -> str:
    if arguments.lesson:
        return lesson_text(melody_lesson(melody, layout, key, arguments.name))
    lick = melody_lick(melody, layout.arranged.laid[0], key, arguments.name)
    return shelf_text(melody_facts(melody, layout), [lick])


COMMAND = Command(
    "tab",
    "write a melody (MIDI, MusicXML or note names) as a lick",
    run,
    arguments=(
        Argument("melody", "FILE|NOTES", 'a file, or notes: "q G4 B4 e D5 E5 q D5 | h B4 G4"'),
    ),
    options=(
        *setup_options(harp="; else the best", position="; else the best"),
        Option("--key", "such as G or `G minor`; else the file's", value="KEY"),
        Option("--overbends", "overblows and overdraws too"),
        Option("--octave", "so many octaves up or down; else the best", value="N"),
        fact_option(METER, "of notes in words (default: 4/4)"),
        Option("--bars", "these bars alone", value="A-B"),
        Option("--name", "of the lick", value="NAME", default="melody"),
        Option("--lesson", "a whole lesson, not a lick alone"),
        *OUTPUT,
    ),
    examples=(
        'formsheet tab "q G4 B4 e D5 E5 q D5 | h B4 G4" --harp C',
        "formsheet tab tune.mid --position 2nd --lesson --out lessons/tune.lesson",
    ),
)
