"""A hearing held against what was played."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Any

import numpy as np
from numpy.typing import NDArray

from formsheet.hearing.hear import Hearing, WrittenNote
from formsheet.music.pitch import hertz
from tests.hearing.made_licks import MadeLick, MadeNote
from tests.hearing.performed import PlayedNote

Array = NDArray[Any]


@dataclass
class Score:
    """Of one lick."""

    f: float  # mir_eval: onsets within 50 ms, pitches within 50 cents
    pitches: bool  # all right, in order
    attacks: bool  # and all in their places
    lengths: bool  # and as long as written
    wrong: int = 0  # notes that are wrong in any of these
    wrong_marked: int = 0  # of these: marked doubtful, or beside one that is
    marked: int = 0
    heard: int = 0
    chords: int = 0  # notes of two or more reeds, octave splits apart
    chords_right: int = 0
    splits: int = 0  # octave splits
    splits_right: int = 0
    off: list[float] = field(default_factory=list)  # seconds between struck and heard


def flat(notes: Sequence[tuple[float, float, Sequence[int]]]) -> tuple[Array, Array]:
    """Intervals and pitches in hertz, one for each reed."""
    rows = [
        (start, max(end, start + 0.01), hertz(midi)) for start, end, all_ in notes for midi in all_
    ]
    if not rows:
        return np.zeros((0, 2)), np.zeros(0)
    return np.array([row[:2] for row in rows]), np.array([row[2] for row in rows])


def score(lick: MadeLick, played: Sequence[PlayedNote], hearing: Hearing, before: float) -> Score:
    """`before`: seconds in the recording to the first bar line."""
    from mir_eval.transcription import precision_recall_f1_overlap

    truth = flat([(note.start + before, note.end + before, note.midi) for note in played])
    shaken = {at for at, note in enumerate(lick.notes) if note.technique}
    heard = flat([(n.heard.start, n.heard.end, n.heard.midi) for n in hearing.notes])
    if shaken:
        first = {note.written: note for note in reversed(played)}
        truth = flat([
            (first[at].start + before, first[at].end + before, note.midi)
            for at, note in enumerate(lick.notes)
        ])  # fmt: skip
    shift = 2 ** (hearing.tuning / 1200)
    _, _, f, _ = precision_recall_f1_overlap(
        truth[0], truth[1] * shift, heard[0], heard[1] * shift,
        onset_tolerance=0.05, pitch_tolerance=50.0, offset_ratio=None,
    )  # fmt: skip
    pairs = aligned(lick.notes, hearing.notes)
    found = Score(f, *_exact(lick.notes, hearing.notes))
    _count_doubts(found, pairs, lick.notes, hearing.notes)
    by_written = {note.written: note for note in reversed(played)}
    for here, note in pairs:
        if here is not None and len(lick.notes[here].midi) > 1:
            right = note is not None and hearing.notes[note].heard.midi == lick.notes[here].midi
            if len({midi % 12 for midi in lick.notes[here].midi}) == 1:
                found.splits, found.splits_right = found.splits + 1, found.splits_right + right
            else:
                found.chords, found.chords_right = found.chords + 1, found.chords_right + right
        if here is not None and note is not None:
            struck = by_written[here].start + before
            found.off.append(hearing.notes[note].heard.start - struck)
    return found


def _exact(truth: Sequence[MadeNote], heard: Sequence[WrittenNote]) -> tuple[bool, bool, bool]:
    pitches = [note.midi for note in truth] == [note.heard.midi for note in heard]
    attacks = pitches and [n.start for n in truth] == [n.start for n in heard]
    lengths = attacks and [n.end for n in truth] == [n.end for n in heard]
    return pitches, attacks, lengths


def _count_doubts(
    found: Score, pairs: Sequence[tuple[int | None, int | None]],
    truth: Sequence[MadeNote], heard: Sequence[WrittenNote],
) -> None:  # fmt: skip
    """A note that differs in pitch, place or length is wrong; one that is left out, too."""
    found.heard = len(heard)
    found.marked = sum(1 for note in heard if note.doubts)
    found.wrong = found.wrong_marked = 0
    last = 0
    for right, at in pairs:
        last = at if at is not None else last
        if right is not None and at is not None:
            same = (truth[right].start, truth[right].end) == (heard[at].start, heard[at].end)
            if same:
                continue
        found.wrong += 1
        near = heard[last : last + 2] if at is None else heard[at : at + 1]
        found.wrong_marked += any(note.doubts for note in near)


def aligned(
    truth: Sequence[MadeNote], heard: Sequence[WrittenNote]
) -> list[tuple[int | None, int | None]]:
    """Pairs of notes of the same pitch at nearly the same place, by edit distance; else None."""
    rows, columns = len(truth), len(heard)
    cost = np.zeros((rows + 1, columns + 1))
    cost[:, 0], cost[0, :] = np.arange(rows + 1), np.arange(columns + 1)
    for a in range(1, rows + 1):
        for b in range(1, columns + 1):
            same = _same(truth[a - 1], heard[b - 1])
            cost[a, b] = min(
                cost[a - 1, b - 1] + (0 if same else 2), cost[a - 1, b] + 1, cost[a, b - 1] + 1
            )
    pairs: list[tuple[int | None, int | None]] = []
    a, b = rows, columns
    while a or b:
        if a and b and _same(truth[a - 1], heard[b - 1]) and cost[a, b] == cost[a - 1, b - 1]:
            pairs.append((a - 1, b - 1))
            a, b = a - 1, b - 1
        elif b and cost[a, b] == cost[a, b - 1] + 1:
            pairs.append((None, b - 1))
            b -= 1
        else:
            pairs.append((a - 1, None))
            a -= 1
    return pairs[::-1]


def _same(right: MadeNote, heard: WrittenNote) -> bool:
    return right.midi == heard.heard.midi and abs(right.start - heard.start) < 1
