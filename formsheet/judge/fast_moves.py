"""Moves and rows of moves without enough time at the tempo of the tune, for its level.

One cause is reported once: of a lick or a join its hardest move; a row of turns or of changes of
the mouth only in a lick of which that is not said; and nothing of a note that is reported itself.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from formsheet.judge.beyond import beyond_level, level_words, too_short
from formsheet.judge.effort import NEW_NOTE, SLIDE_PER_BIT, Move, move
from formsheet.judge.joins import Pair, PlayedMove, find_moves
from formsheet.judge.ladder import on_metronome
from formsheet.judge.level import SOON, TURNS_IN_A_ROW, WIDE_SLIDE, Limits
from formsheet.judge.offers import singles_near
from formsheet.music.tab import Shape
from formsheet.problems import kinds
from formsheet.problems.edits import fact_set
from formsheet.problems.problem import Problem
from formsheet.tune.timeline import Note, Tune
from formsheet.vocabulary.techniques import SHAKE

_MILLISECONDS = 1000


def fast_moves(tune: Tune, limits: Limits, pairs: Sequence[Pair]) -> Iterator[Problem]:
    """Moves without enough time, one for each lick and each join: the hardest; then rows of them.

    A move is too fast if it is easy only under the level's share of the tune's tempo; a wide slide
    (`WIDE_SLIDE`) even if it is a little faster than at ease.
    """
    slowest = limits.easy_share * float(tune.lesson.facts.tempo)
    reported: set[tuple[str, str]] = set()
    most = 60 / slowest  # of the load of a pair
    if any(load > most or _too_wide(last, first, limits) for last, first, _, _, load in pairs):
        for each in find_moves(tune, pairs):
            licks = each.first_lick.name, each.second_lick.name if each.joins else ""
            too_fast = each.easy_tempo < slowest and not (
                beyond_level(each.last, limits) or beyond_level(each.first, limits)
            )
            too_wide = _too_wide(each.last, each.first, limits)
            if licks not in reported and (too_fast or too_wide):
                reported.add(licks)
                if too_fast:
                    yield _move_too_fast(tune, each, limits)
                else:
                    yield _slide_too_fast(tune, each)
    said = {first for first, second in reported if not second}
    yield from _fast_turns(tune, limits, pairs, said)
    yield from _mouth_changes(tune, limits, pairs, said)


def _move_too_fast(tune: Tune, each: PlayedMove, limits: Limits) -> Problem:
    from formsheet.judge.words import move_words  # most tunes have none

    facts = tune.lesson.facts
    fastest = each.easy_tempo / limits.easy_share
    if each.move.holes >= WIDE_SLIDE:
        fastest = min(fastest, 60 * each.beats / (_slide_seconds(each.move) * limits.slide_share))
    slower = on_metronome(fastest)
    can_be = slower <= fastest and (facts.learn is None or facts.learn <= slower)
    return kinds.MoveTooFast(
        each.first.mark.span,
        first=str(each.last.tab),
        tab=str(each.first.tab),
        moves=move_words(each.move),
        ms=_milliseconds(each),
        easy=int(each.easy_tempo),
        tempo=facts.tempo,
        joins=each.joins,
        bars=each.bars,
        slower=slower if can_be else None,
        slowed=fact_set(facts.places, "tempo", str(slower)),
    )


def _slide_too_fast(tune: Tune, each: PlayedMove) -> Problem:
    return kinds.SlideTooFast(
        each.first.mark.span,
        first=str(each.last.tab),
        tab=str(each.first.tab),
        holes=each.move.holes,
        ms=_milliseconds(each),
        needs=round(_slide_seconds(each.move) * _MILLISECONDS),
        bars=each.bars,
        offers=singles_near(each.last.tab, each.first, tune),
    )


def _milliseconds(each: PlayedMove) -> int:
    return round((each.first.start_s - each.last.start_s) * _MILLISECONDS)


def _slide_seconds(made: Move) -> float:
    """Seconds that the slide of a move takes at ease, by itself."""
    return NEW_NOTE + SLIDE_PER_BIT * made.bits


def _too_wide(last: Note, first: Note, limits: Limits) -> bool:
    """Whether a move is a wide slide without enough time."""
    if abs(last.tab.holes[0] - first.tab.holes[0]) < WIDE_SLIDE:
        return False  # most of them
    made = move(last.tab, first.tab)
    least = _slide_seconds(made) * limits.slide_share
    return made.holes >= WIDE_SLIDE and first.start_s - last.start_s < least


def _fast_turns(
    tune: Tune, limits: Limits, pairs: Sequence[Pair], said: set[str]
) -> Iterator[Problem]:
    """Rows of fast breath turns."""
    turns = [
        pair
        for pair in pairs
        if pair.first.start_s - pair.last.start_s < limits.fastest_turn
        and pair.last.tab.breath is not pair.first.tab.breath
    ]
    for row, bars in _rows(tune, turns, TURNS_IN_A_ROW):
        note = row[0].last
        lick = tune.lick_of(note)
        if lick not in said and not any(too_short(pair.first, limits) for pair in row):
            said.add(lick)
            slowest = max(pair.first.start_s - pair.last.start_s for pair in row)
            yield kinds.TurnsFast(
                note.mark.span,
                tab=str(note.tab),
                count=len(row),
                ms=round(slowest * _MILLISECONDS),
                bars=bars,
            )


def _mouth_changes(
    tune: Tune, limits: Limits, pairs: Sequence[Pair], said: set[str]
) -> Iterator[Problem]:
    """Rows of changes between octave or block, bend and shake, each with little time."""
    changes = [
        pair
        for pair in pairs
        if pair.first.start_s - pair.last.start_s < SOON and _mouth_changes_in(pair)
    ]
    for row, bars in _rows(tune, changes, limits.mouth_changes + 1):
        note = row[0].last
        if tune.lick_of(note) not in said:
            yield kinds.MouthChanges(
                note.mark.span,
                tab=str(note.tab),
                count=len(row),
                bars=bars,
                level=level_words(tune.lesson.facts.level),
            )


def _mouth_changes_in(pair: Pair) -> bool:
    """Whether the mouth is set for one thing and then for another."""
    last, first = _mouth(pair.last), _mouth(pair.first)
    return bool(last and first and last != first)


def _mouth(note: Note) -> str:
    """What the mouth is set for: "bend", "shake", "open" for a block or a split; "" else."""
    if note.tab.bend or note.tab.overbend:
        return "bend"
    if note.mark.technique == SHAKE:
        return "shake"
    return "" if note.tab.shape is Shape.SINGLE else "open"


def _rows(tune: Tune, wanted: Sequence[Pair], least: int) -> list[tuple[list[Pair], list[int]]]:
    """Rows of so many moves that follow each other, with the numbers of their bars.

    Each written row is there once. Any other move, and a note struck again, ends a row.
    """
    rows: list[list[Pair]] = []
    for pair in wanted:
        if rows and rows[-1][-1].first.played.number == pair.last.played.number:
            rows[-1].append(pair)
        else:
            rows.append([pair])
    found: dict[tuple[object, ...], tuple[list[Pair], set[int]]] = {}
    for row in rows:
        if len(row) >= least:
            note = row[0].last
            longest, bars = found.setdefault(note.mark.span.place, (row, set()))
            bars.add(tune.bars[note.bar].number)
            if len(row) > len(longest):
                found[note.mark.span.place] = row, bars
    return [(row, sorted(bars)) for row, bars in found.values()]
