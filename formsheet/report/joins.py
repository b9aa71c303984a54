"""Moves, joins, tempo ladder, breath and practice plan, as tables and as data."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

from formsheet.judge.breath import BreathFit
from formsheet.judge.joins import PlayedMove
from formsheet.judge.ladder import own_ladder
from formsheet.judge.practice import LickPractice, Practice
from formsheet.judge.practice_words import breath_words, plan_words, slow_words, start_words
from formsheet.judge.words import easy_tempo_words, easy_words, join_names, move_words
from formsheet.listing import listed, run_words
from formsheet.report.table import aligned

#: Most moves in the table: a page that is read at a glance. Data has all of them.
MOST_ROWS = 24


def joins_table(practice: Practice) -> list[str]:
    """All parts of the report, a blank line between them."""
    parts = [_moves(practice), _licks(practice), _breath(practice), _plan(practice)]
    lines = [line for part in parts if part for line in ("", *part)]
    return lines[1:]


def shown_moves(practice: Practice) -> list[PlayedMove]:
    """The moves of the table, hardest first.

    Every join, the hardest move inside each lick, and what else inside a lick is not easy at the
    tempo of the tune; where these are more than `MOST_ROWS`, the hardest in this order.
    """
    moves = practice.moves
    hardest = [each.hardest for each in practice.licks if each.hardest]
    first = [each for each in moves if each.joins or each in hardest]
    others = [
        each
        for each in moves
        if not each.joins and each.easy_tempo < practice.target and each not in first
    ]
    shown = [*first, *others][:MOST_ROWS]
    return [each for each in moves if each in shown]


def _moves(practice: Practice) -> list[str]:
    shown = shown_moves(practice)
    lines = [*_rows(practice, shown), *_left_out(practice, shown)]
    slow = slow_words(practice)
    return [*lines, start_words(practice), *([slow] if slow else [])]


def _rows(practice: Practice, shown: Sequence[PlayedMove]) -> list[str]:
    if not shown:
        return ["Nothing moves in this tune."]
    rows = [("", "where", "bars", "from", "to", "easy at", "what moves")]
    rows += [
        (
            f"{rank}.",
            join_names(each),
            _numbers(each.bars),
            str(each.last.tab),
            str(each.first.tab),
            easy_words(each, practice.target),
            move_words(each.move),
        )
        for rank, each in enumerate(shown, start=1)
    ]
    return aligned(rows, right=(0, 5))


def _left_out(practice: Practice, shown: Sequence[PlayedMove]) -> Iterator[str]:
    """How many moves are not in the table."""
    left = [each for each in practice.moves if each not in shown]
    joins = sum(each.joins for each in left)
    counts = [(joins, "easier join"), (len(left) - joins, "easier move")]
    words = [f"{count} {word}{'s' if count > 1 else ''}" for count, word in counts if count]
    if words:
        yield f"Not listed: {listed(words, 'and')}{' inside these licks' if not joins else ''}."


def _licks(practice: Practice) -> list[str]:
    target = practice.target
    rows = [("each lick by itself", "bars", "start at")]
    rows += [
        (
            each.lick.title,
            _numbers(each.bars),
            easy_tempo_words(each.easy_tempo(float(target)), target),
        )
        for each in practice.licks
    ]
    return aligned(rows, right=(2,))


def _breath(practice: Practice) -> list[str]:
    return [f"Breath: {line}" if not at else line for at, line in enumerate(breath_words(practice))]


def _plan(practice: Practice) -> list[str]:
    lines = plan_words(practice)
    return ["To practise:", *(f"{at}. {line}" for at, line in enumerate(lines, start=1))]


def _numbers(bars: Sequence[int]) -> str:
    """Bar numbers without a word: "1-4, 7 and 8"."""
    return listed(run_words(bars), "and")


# ---- Data ----------------------------------------------------------------------------------


def joins_data(practice: Practice) -> dict[str, Any]:
    """All of it as data; tempos in beats a minute, times in seconds."""
    shown = shown_moves(practice)
    easy = [practice.moves[0].easy_tempo] if practice.moves else []
    return {
        "start": float(practice.ladder[0]),
        "ladder": [float(step) for step in practice.ladder],
        "easy_tempo": round(min([float(practice.target), *easy]), 1),
        "moves": [
            {"rank": rank, "shown": each in shown} | _move_data(practice, each)
            for rank, each in enumerate(practice.moves, start=1)
        ],
        "licks": [_lick_data(practice, each) for each in practice.licks],
        "breath": _breath_data(practice),
        "plan": list(plan_words(practice)),
    }


def _move_data(practice: Practice, each: PlayedMove) -> dict[str, Any]:
    kind = ("loop" if each.loops else "join") if each.joins else "inside"
    return {
        "kind": kind,
        "from": each.first_lick.name,
        "to": each.second_lick.name,
        "last": str(each.last.tab),
        "first": str(each.first.tab),
        "holes": each.move.holes,
        "breath_turns": each.move.turn,
        "bend": each.move.bend,
        "release": each.move.release,
        "overbend": each.move.overbend,
        "overbend_release": each.move.let_go,
        "new_shape": each.move.new_shape,
        "top_hole": each.move.top,
        "bits": round(each.move.bits, 3),
        "needs_s": round(each.move.seconds, 3),
        "beats": round(each.beats, 4),
        "easy_tempo": round(each.easy_tempo, 1),
        "ladder": [float(step) for step in own_ladder([each], practice.tune.lesson.facts)],
        "bars": list(each.bars),
    }


def _lick_data(practice: Practice, each: LickPractice) -> dict[str, Any]:
    return {
        "name": each.lick.name,
        "title": each.lick.title,
        "bars": list(each.bars),
        "fills": each.fills,
        "easy_tempo": round(each.easy_tempo(float(practice.target)), 1),
        "ladder": [float(step) for step in each.ladder],
    }


def _breath_data(practice: Practice) -> dict[str, Any]:
    relief = practice.relief
    share = practice.breath[0].drawn_share
    return {
        "drawn_share": None if share is None else round(share, 4),
        "air_s": practice.air,
        "at": [_air_data(practice, fit) for fit in practice.breath],
        "rests": [_bar(practice, rest.bar) for rest in practice.rests],
        "relief": _bar(practice, relief.bar) if relief else None,
    }


def _air_data(practice: Practice, fit: BreathFit) -> dict[str, Any]:
    notes = practice.tune.notes
    return {
        "tempo": fit.tempo,
        "drawn_s": round(fit.drawn, 2),
        "blown_s": round(fit.blown, 2),
        "most_s": round(fit.peak, 2),
        "most": None if fit.peak_note is None else _bar(practice, notes[fit.peak_note].bar)
        | {"full": practice.is_full(fit)},
        "runs_out": [
            _bar(practice, notes[each.note].bar)
            | {"full": each.full, "since": _bar(practice, notes[each.since].home)}
            for each in fit.airless
        ],
    }  # fmt: skip


def _bar(practice: Practice, index: int) -> dict[str, Any]:
    bar = practice.tune.bars[index]
    return {"bar": bar.number, "chorus": bar.chorus}
