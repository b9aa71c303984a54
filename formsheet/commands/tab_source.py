"""What `formsheet tab` is given: a score, a MIDI file, old tab, or notes in words."""

from __future__ import annotations

import argparse
import re
from dataclasses import dataclass, replace
from pathlib import Path

from formsheet.commands.files import UsageError
from formsheet.commands.named import named_meter
from formsheet.music import pitch
from formsheet.music.rhythm import METERS, Meter
from formsheet.notes.bars import doubled, in_bars
from formsheet.notes.melody import Melody, NotesError
from formsheet.notes.midi import read_midi
from formsheet.notes.names import midi_of, read_names, with_plain_names
from formsheet.notes.oldtab.layout import MOST_CHARACTERS
from formsheet.notes.oldtab.reading import OldTab, read_old_tab
from formsheet.notes.quantise import quantised
from formsheet.notes.score import SUFFIXES, read_score

MIDI = (".mid", ".midi", ".kar", ".smf")
TEXT = (".txt", ".tab", ".text")
_LONGEST_CHARACTER = 4  # bytes, in UTF-8


@dataclass(frozen=True)
class Brought:
    """What was read: a melody, or old tab, which has no rhythm yet."""

    melody: Melody | None = None
    old: OldTab | None = None
    meter: Meter = METERS["4/4"]
    title: str = ""


def brought(arguments: argparse.Namespace) -> Brought:
    """Read what the command names; NotesError or UsageError where it cannot be."""
    wanted = named_bars(arguments.bars) if arguments.bars else None
    text = arguments.melody
    path = _path(text)
    if path is None:
        return _words(arguments, wanted)
    if path.suffix.casefold() in (*MIDI, *SUFFIXES):
        return _score(arguments, path, wanted)
    _only_for_scores(arguments)
    words = _text_of(path)
    if not (arguments.shorthand or arguments.rhythm) and _is_names(words):
        return Brought(_named(arguments, words, wanted))
    old = read_old_tab(words, arguments.shorthand, _columns(arguments))
    return Brought(old=old, meter=_meter(arguments), title=path.stem)


def _path(text: str) -> Path | None:
    """The file that is meant; None where the words are the notes themselves."""
    path = Path(text)
    try:
        there = path.is_file()
    except (OSError, ValueError):  # too long for a name
        there = False
    suffix = path.suffix.casefold()
    if there:
        return path
    if suffix in (*MIDI, *SUFFIXES, *TEXT):
        raise UsageError(f"file not found: {path}")
    return None


def _score(arguments: argparse.Namespace, path: Path, wanted: tuple[int, int] | None) -> Brought:
    read = read_midi if path.suffix.casefold() in MIDI else read_score
    if arguments.shorthand or arguments.rhythm or arguments.columns:
        raise UsageError("--shorthand, --columns and --in are for old tab; a score has its rhythm")
    reading = in_bars(read(path, arguments.part), wanted)
    if arguments.meter and arguments.meter != reading.meter:
        reading = replace(reading, meter=arguments.meter)
    if arguments.double:
        reading = doubled(reading)
    return Brought(quantised(reading))


def _words(arguments: argparse.Namespace, wanted: tuple[int, int] | None) -> Brought:
    _only_for_scores(arguments)
    text = arguments.melody
    if not arguments.shorthand and re.fullmatch(r"[\s|]*[BD]\d[\sBD\d|]*", text):
        raise NotesError(
            f'"{text[:40]}": is this blow and draw, or the notes B and D? Write --shorthand '
            'letters-first for the first, a value before them for the others: "q B4 D5"'
        )
    if not (arguments.shorthand or arguments.rhythm):
        try:
            return Brought(_named(arguments, text, wanted))
        except NotesError:
            if not re.search(r"\d", text) or _names_in(text) > 0:
                raise
    old = read_old_tab(text, arguments.shorthand, _columns(arguments))
    return Brought(old=old, meter=_meter(arguments))


def _named(arguments: argparse.Namespace, text: str, wanted: tuple[int, int] | None) -> Melody:
    reading = read_names(text, arguments.meter or "4/4")
    melody = quantised(doubled(reading) if arguments.double else reading)
    return melody.part(*wanted) if wanted else melody


def _is_names(text: str) -> bool:
    """Whether a text is notes in words: read without a mistake, and not draw and blow alone."""
    try:
        read_names(text)
    except NotesError:
        return False
    return not re.fullmatch(r"[\sBD\d|+-]*", text)


def _names_in(text: str) -> int:
    """How many of its words are names of notes, in any language, that cannot be draw or blow."""
    found = int(with_plain_names(text) != pitch.plain_signs(text))
    for word in re.split(r"[\s+|]+", text):
        try:
            midi_of(word)
        except ValueError:
            found += bool(re.fullmatch(r"[acefgACEFGHh][b#]?\d", word))
        else:
            found += word[0] not in "BD"
    return found


def _only_for_scores(arguments: argparse.Namespace) -> None:
    if arguments.part:
        raise UsageError("--part is for MIDI and MusicXML files; this has one part")


def _columns(arguments: argparse.Namespace) -> int | None:
    if arguments.columns is None:
        return None
    if not re.fullmatch(r"[1-9]", arguments.columns):
        raise UsageError(f'"{arguments.columns}" is not a number of columns; write 1, 2 or 3')
    return int(arguments.columns)


def _meter(arguments: argparse.Namespace) -> Meter:
    return named_meter(arguments.meter) if arguments.meter else METERS["4/4"]


def _text_of(path: Path) -> str:
    """The text of a file, in the encodings that word processors write."""
    size = path.stat().st_size
    if size > _LONGEST_CHARACTER * MOST_CHARACTERS:
        raise NotesError(
            f"{path} has {size // 1000} kB; old tab is read up to {MOST_CHARACTERS} characters: "
            "put each tune into a file of its own"
        )
    data = path.read_bytes()
    if b"\0" in data and not data.startswith((b"\xff\xfe", b"\xfe\xff")):
        raise NotesError(f"{path} is not a text; give tab as plain text, or MIDI or MusicXML")
    if data.startswith((b"\xff\xfe", b"\xfe\xff")):
        return data.decode("utf-16", "replace")
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError:
        return data.decode("cp1252", "replace")


def named_bars(text: str) -> tuple[int, int]:
    """The range of bars of `--bars`, first and last; UsageError if it is none."""
    found = re.fullmatch(r"(\d{1,4})(?:[-–](\d{1,4}))?", text)
    first, last = (int(found[1]), int(found[2] or found[1])) if found else (0, 0)
    if not found or first > last or (last == 0):
        raise UsageError(f'"{text}" is not a range of bars; write 1-8')
    return first, last
