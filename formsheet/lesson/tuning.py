"""Read a tuning: notes on a C harp to reeds."""

from __future__ import annotations

import re

from formsheet.language.tree import ReedLine, TuningBlock, Word
from formsheet.music import pitch
from formsheet.music.tunings import HOLES, Tuning
from formsheet.problems import kinds
from formsheet.problems.problem import Problem, Related
from formsheet.vocabulary.facts import Said
from formsheet.vocabulary.facts import tuning as read_name
from formsheet.vocabulary.lines import USAGE

_NOTE = r"([A-G](?:bb?|##?)?)(\d)?"  # a text: few lessons have a tuning of their own
LOWEST_C = 60  # hole 1 blow of a C harp is middle C
_WIDEST = 60  # semitones above hole 1 blow: no reed of a harp is higher


def read_tuning(block: TuningBlock) -> tuple[Tuning | None, list[Problem]]:
    """A built-in tuning by name, or the one defined by reed lines; None with problems."""
    name = block.line.name
    if not block.reeds:
        tuning = read_name(Said("tuning", (name,)))
        return (None, [tuning]) if isinstance(tuning, Problem) else (tuning, [])
    problems: list[Problem] = []
    rows: dict[str, ReedLine] = {}
    for line in block.reeds:
        row = line.keyword.text
        if row in rows:
            first = Related(rows[row].keyword.span, "first here")
            problems.append(kinds.TuningRowTwice(line.keyword.span, (first,), row=row))
        rows.setdefault(row, line)
    problems += [
        kinds.TuningRowMissing(name.span, name=name.text, row=row)
        for row in ("blow", "draw")
        if row not in rows
    ]
    if problems:
        return None, problems
    blow, problems = _read_row(rows["blow"], LOWEST_C)
    draw, more = _read_row(rows["draw"], blow[0] if blow else LOWEST_C)
    if problems or more or not blow:
        return None, problems + more
    return Tuning(
        name.text,
        tuple(midi - LOWEST_C for midi in blow),
        tuple(midi - LOWEST_C for midi in draw),
    ), []


def _read_row(line: ReedLine, floor: int) -> tuple[list[int], list[Problem]]:
    """MIDI numbers of a row on a C harp, each note the nearest at or above the one before."""
    row: list[int] = []
    problems: list[Problem] = []
    if other := _other_names(line):
        return [], [other]
    for word in line.notes:
        midi = _read_note(word, row[-1] if row else floor)
        if midi is None:
            from formsheet.vocabulary.misnamed import note_meant

            near = note_meant(word.text)
            problems.append(kinds.TuningNote(word.span, found=word.text, near=near))
        elif not 0 <= midi - LOWEST_C <= _WIDEST:
            problems.append(kinds.TuningRange(word.span, found=word.text))
        else:
            row.append(midi)
    if not problems and len(row) != HOLES:
        span = line.notes[0].span.to(line.notes[-1].span)
        problems.append(
            kinds.TuningHoles(span, row=line.keyword.text, count=len(row), holes=HOLES,
                  usage=USAGE[line.keyword.text])
        )  # fmt: skip
    return row, problems


def _other_names(line: ReedLine) -> Problem | None:
    """The problem of a row with several names of notes in another language, all of it at once."""
    wrong = [word.text for word in line.notes if _read_note(word, LOWEST_C) is None]
    if len(wrong) < 2:
        return None
    from formsheet.vocabulary.misnamed import row_meant  # most tunings are in English

    meant = row_meant([pitch.plain_signs(word.text) for word in line.notes])
    if not meant:
        return None
    span = line.notes[0].span.to(line.notes[-1].span)
    return kinds.TuningNames(
        span,
        found=list(dict.fromkeys(wrong)),
        row=" ".join(meant),
        certain=not any(word.text.rstrip("0123456789") == "B" for word in line.notes),
    )


def _read_note(word: Word, floor: int) -> int | None:
    found = re.fullmatch(_NOTE, pitch.plain_signs(word.text))
    if not found:
        return None
    name, octave = found.groups()
    pitch_class = pitch.pitch_class(name)
    if octave:
        _, alteration = pitch.split_name(name)
        return 12 * (int(octave) + 1) + pitch.pitch_class(name[0]) + alteration
    return floor + (pitch_class - floor) % 12
