"""A known lick found in a recording: when each note sounds, and where playing and tab differ.

Heard and written notes are paired by edit distance, with time as a cost; the tempo of the take is
fitted to the pairs, and they are paired again. A difference is sure only if the recording itself
speaks against what is written; a note struck again or an octave is never more than "perhaps".
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from enum import Enum
from typing import NamedTuple

import numpy as np

from formsheet.hearing.actions import Action, actions_of
from formsheet.hearing.clicks import CountIn, after_count, found_count_in
from formsheet.hearing.notes import Doubt, Heard, HeardNote, Listening, listen, weighed
from formsheet.hearing.spectra import Samples
from formsheet.music.harp import Harp
from formsheet.music.rhythm import Meter
from formsheet.music.tab import Tab

_OCTAVE = 12
_ROUNDS = 4
_OFF_S = 0.2  # seconds by which a note may be off before it is another one
_SKIPPED, _SAID_AGAIN, _OTHER, _FAR = 1.0, 0.45, 1.25, 4.0  # costs of a pair, or of none
_AN_OCTAVE = 0.5
_CLEARLY = 0.08  # mean cost by which what is heard must be better than what is written
_ABSENT = 0.6  # mean cost of a note that is not there
_SHORT_S = 0.1  # a shorter note may be none
_DIP_S = 0.12  # seconds from its expected place in which a repeat is looked for


class Expected(NamedTuple):
    """A written note: places in seconds from the first bar line, swing included."""

    tab: Tab
    start: float
    end: float


class AlignedNote(NamedTuple):
    """A written note in the recording, in seconds from its start."""

    start: float
    end: float
    heard: HeardNote | None  # None: its place is reckoned from its neighbours
    cents: float | None  # above its pitch, the recording's tuning left out


class Kind(Enum):
    """How playing and tab differ."""

    OTHER = "other"  # another pitch is played
    LEFT_OUT = "left out"
    EXTRA = "extra"
    AGAIN = "again"  # struck again where it is held
    HELD = "held"  # held where it is struck again
    OCTAVE = "octave"


class Difference(NamedTuple):
    """One place in which playing and tab differ."""

    kind: Kind
    sure: bool
    written: int | None  # index of the written note
    heard: HeardNote | None
    at: float  # seconds from the start of the recording


@dataclass(frozen=True)
class Alignment:
    """A take held against its tab."""

    notes: tuple[AlignedNote, ...]  # one for each written note
    differences: tuple[Difference, ...]
    tuning: float  # cents above A4 = 440 Hz
    zero: float  # seconds to the first bar line
    stretch: float  # seconds in the take for a second as written: 1.1 is slower
    count_in: CountIn | None


def align(
    samples: Samples, rate: int, harp: Harp, notes: Sequence[Expected], *,
    tempo: float | None = None, meter: Meter | None = None,
) -> Alignment:  # fmt: skip
    """Mono samples (from -1 to 1, `rate` a second) held against written notes, in order.

    `tempo` is that of the written times, in beats a minute; the take may have another.
    """
    return aligned(listen(samples, rate), harp, notes, tempo=tempo, meter=meter)


def aligned(
    heard: Listening, harp: Harp, notes: Sequence[Expected], *,
    tempo: float | None = None, meter: Meter | None = None,
) -> Alignment:  # fmt: skip
    """As `align`, of a recording that has been listened to."""
    written = [(harp.pitches(note.tab), note.start, note.end) for note in notes]
    count_in = found_count_in(heard.samples, None, meter)
    actions = _actions(harp, {midi for midi, _, _ in written})
    found = weighed(heard, actions, ignore=count_in.covered if count_in else ())
    played = after_count(found.notes, count_in) if count_in else list(found.notes)
    zero, stretch = _begun(written, played, count_in, tempo)
    pairs: list[tuple[int | None, int | None]] = []
    for _ in range(_ROUNDS):
        again = _paired(written, played, zero, stretch)
        if again == pairs:
            break
        pairs = again
        zero, stretch = _fitted(written, played, pairs, zero, stretch, count_in is not None)
    return Alignment(
        notes=tuple(_placed(written, played, pairs, zero, stretch)),
        differences=tuple(_differences(written, played, pairs, found, zero, stretch)),
        tuning=heard.tuning,
        zero=zero,
        stretch=stretch,
        count_in=count_in,
    )


_Written = Sequence[tuple[tuple[int, ...], float, float]]
_Pairs = Sequence[tuple[int | None, int | None]]


def _actions(harp: Harp, wanted: set[tuple[int, ...]]) -> tuple[Action, ...]:
    """All single notes, and those chords that are written."""
    return tuple(
        action for action in actions_of(harp, True) if action.single or action.midi in wanted
    )


def _begun(
    written: _Written, played: Sequence[HeardNote], count_in: CountIn | None, tempo: float | None
) -> tuple[float, float]:
    """A first guess at the first bar line and the stretch."""
    if count_in:
        return count_in.end, count_in.beat * tempo / 60 if tempo else 1.0
    if not played or not written:
        return 0.0, 1.0
    own = written[-1][1] - written[0][1]
    taken = played[-1].start - played[0].start
    stretch = min(max(taken / own, 0.4), 2.5) if own > 0 and taken > 0 else 1.0
    return played[0].start - written[0][1] * stretch, stretch


def _paired(
    written: _Written, played: Sequence[HeardNote], zero: float, stretch: float
) -> list[tuple[int | None, int | None]]:
    """Written and heard notes, paired at the least cost; None where there is no other."""
    rows, columns = len(written), len(played)
    skip_written = [
        _SAID_AGAIN if at and written[at - 1][0] == midi else _SKIPPED
        for at, (midi, _, _) in enumerate(written)
    ]
    skip_played = [
        _SAID_AGAIN if at and played[at - 1].midi == note.midi else _SKIPPED
        for at, note in enumerate(played)
    ]
    cost = np.zeros((rows + 1, columns + 1))
    cost[1:, 0], cost[0, 1:] = np.cumsum(skip_written), np.cumsum(skip_played)
    both = np.array(
        [
            [_pair(midi, zero + start * stretch, note) for note in played]
            for midi, start, _ in written
        ]
    ).reshape(rows, columns)
    for a in range(1, rows + 1):
        for b in range(1, columns + 1):
            cost[a, b] = min(
                cost[a - 1, b - 1] + both[a - 1, b - 1],
                cost[a - 1, b] + skip_written[a - 1],
                cost[a, b - 1] + skip_played[b - 1],
            )
    pairs: list[tuple[int | None, int | None]] = []
    a, b = rows, columns
    while a or b:
        if a and b and np.isclose(cost[a, b], cost[a - 1, b - 1] + both[a - 1, b - 1]):
            a, b = a - 1, b - 1
            pairs.append((a, b))
        elif a and np.isclose(cost[a, b], cost[a - 1, b] + skip_written[a - 1]):
            a -= 1
            pairs.append((a, None))
        else:
            b -= 1
            pairs.append((None, b))
    return pairs[::-1]


def _pair(midi: tuple[int, ...], at: float, note: HeardNote) -> float:
    off = abs(note.start - at) / _OFF_S
    late = min(0.5 * off * off, _FAR)
    if note.midi == midi or (note.shake and note.shake.midi == midi):
        return min(late, 1.5)
    return late + (_AN_OCTAVE if _octave(midi, note.midi) else _OTHER)


def _octave(midi: Sequence[int], other: Sequence[int]) -> bool:
    """Whether two sounds are an octave apart, or one is an octave split on the other."""
    classes = {pitch % _OCTAVE for pitch in midi}
    return classes == {pitch % _OCTAVE for pitch in other}


def _fitted(
    written: _Written, played: Sequence[HeardNote], pairs: _Pairs, zero: float, stretch: float,
    counted: bool,
) -> tuple[float, float]:  # fmt: skip
    """Zero and stretch through the pairs of the same pitch, held near what they were."""
    same = [
        (written[a][1], played[b].start)
        for a, b in pairs
        if a is not None and b is not None and written[a][0] == played[b].midi
    ]
    if not same:
        return zero, stretch
    places, times = np.array(same).T
    design = np.stack([np.ones_like(places), places], axis=1)
    held = np.diag([20.0 if counted else 1.0, 20.0 if counted else 1.0])
    left = np.concatenate([design * 30, held])
    right = np.concatenate([times * 30, held @ np.array([zero, stretch])])
    found = np.linalg.lstsq(left, right, rcond=None)[0]
    return float(found[0]), float(min(max(found[1], 0.3), 3.0))


def _placed(
    written: _Written, played: Sequence[HeardNote], pairs: _Pairs, zero: float, stretch: float
) -> list[AlignedNote]:
    """Each written note in the recording; where it was not heard, between its neighbours."""
    mine = {a: played[b] for a, b in pairs if a is not None and b is not None}
    known = sorted(mine)
    found: list[AlignedNote] = []
    for at, (midi, start, end) in enumerate(written):
        if at in mine:
            note = mine[at]
            cents = note.cents if note.midi == midi and len(midi) == 1 else None
            found.append(AlignedNote(note.start, note.end, note, cents))
            continue
        expected = _between(written, mine, known, start, zero, stretch)
        before = found[-1].heard if found else None
        if before and before.midi == midi:
            near = [d for d in before.dips if abs(d.at - expected) < _DIP_S]
            expected = max(near, key=lambda dip: dip.depth).at if near else expected
        last = expected + (end - start) * stretch
        found.append(AlignedNote(expected, max(last, expected), None, None))
    return found


def _between(
    written: _Written, mine: dict[int, HeardNote], known: Sequence[int], place: float,
    zero: float, stretch: float,
) -> float:  # fmt: skip
    """When a place sounds, by the notes around it that were heard."""
    before = [at for at in known if written[at][1] < place]
    after = [at for at in known if written[at][1] > place]
    if before and after:
        low, high = before[-1], after[0]
        share = (place - written[low][1]) / (written[high][1] - written[low][1])
        return mine[low].start + share * (mine[high].start - mine[low].start)
    if before or after:
        at = before[-1] if before else after[0]
        return mine[at].start + (place - written[at][1]) * stretch
    return zero + place * stretch


def _differences(
    written: _Written, played: Sequence[HeardNote], pairs: _Pairs, found: Heard, zero: float,
    stretch: float,
) -> list[Difference]:  # fmt: skip
    said = []
    placed = _placed(written, played, pairs, zero, stretch)
    for at, (a, b) in enumerate(pairs):
        note = played[b] if b is not None else None
        if a is None:
            assert b is not None
            said.append(_extra(played, b, pairs, at, found, placed, written))
        elif note is None:
            said.append(_left_out(written, a, placed[a], found))
        elif note.midi != written[a][0] and not (note.shake and note.shake.midi == written[a][0]):
            octave = _octave(written[a][0], note.midi)
            worse = found.cost(written[a][0], note.start, note.end) - found.cost(
                note.midi, note.start, note.end
            )
            sure = (
                not octave
                and worse > _CLEARLY
                and note.end - note.start > _SHORT_S
                and Doubt.PITCH not in note.doubts
            )
            said.append(
                Difference(Kind.OCTAVE if octave else Kind.OTHER, sure, a, note, note.start)
            )
    return said


def _extra(
    played: Sequence[HeardNote], b: int, pairs: _Pairs, at: int, found: Heard,
    placed: Sequence[AlignedNote], written: _Written,
) -> Difference:  # fmt: skip
    note = played[b]
    beside = {played[other].midi for other in (b - 1, b + 1) if 0 <= other < len(played)}
    if note.midi in beside:
        return Difference(Kind.AGAIN, False, None, note, note.start)
    neighbours = [a for a, _ in pairs[max(0, at - 2) : at + 3] if a is not None]
    covered = min(
        (found.cost(written[a][0], note.start, note.end) for a in neighbours), default=1.0
    )
    clear = covered - found.cost(note.midi, note.start, note.end) > _CLEARLY
    sure = clear and note.end - note.start > _SHORT_S and Doubt.PITCH not in note.doubts
    return Difference(Kind.EXTRA, sure, None, note, note.start)


def _left_out(written: _Written, a: int, placed: AlignedNote, found: Heard) -> Difference:
    midi = written[a][0]
    beside = {written[other][0] for other in (a - 1, a + 1) if 0 <= other < len(written)}
    if midi in beside:
        return Difference(Kind.HELD, False, a, None, placed.start)
    length = placed.end - placed.start
    there = found.cost(midi, placed.start + 0.25 * length, placed.end - 0.25 * length)
    sure = there > _ABSENT and length > _SHORT_S
    return Difference(Kind.LEFT_OUT, sure, a, None, placed.start)
