"""Joins and the tempo ladder, as a table and as data."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from typing import Any

from formsheet.judge.joins import PlayedMove
from formsheet.judge.words import easy_words, join_names, move_words
from formsheet.listing import bars_words, listed
from formsheet.report.table import aligned


def joins_table(joins: Sequence[PlayedMove], steps: Sequence[Fraction]) -> list[str]:
    """The joins, hardest first; then the start tempo and the ladder up from it."""
    if not joins:
        return ["This tune has no joins: one lick is played once."]
    rows = [("", "join", "from", "to", "what moves", "into", "easy at")]
    rows += [
        (
            f"{rank}.",
            join_names(join),
            str(join.last.tab),
            str(join.first.tab),
            move_words(join.move),
            bars_words(join.bars),
            easy_words(join, steps[-1]),
        )
        for rank, join in enumerate(joins, start=1)
    ]
    start, *others = [f"{float(step):g}" for step in steps]
    then = f", then take {listed(others, 'and')}" if others else ": that is the tune's own tempo"
    return [*aligned(rows, right=(0, 6)), f"Start at {start} beats a minute{then}."]


def joins_data(joins: Sequence[PlayedMove], steps: Sequence[Fraction]) -> dict[str, Any]:
    """Joins and ladder as data; tempos in beats a minute, times in seconds."""
    return {
        "start": float(steps[0]),
        "ladder": [float(step) for step in steps],
        "joins": [
            {
                "rank": rank,
                "from": join.first_lick.name,
                "to": join.second_lick.name,
                "last": str(join.last.tab),
                "first": str(join.first.tab),
                "holes": join.move.holes,
                "breath_turns": join.move.turn,
                "bend": join.move.bend,
                "overbend": join.move.overbend,
                "new_shape": join.move.new_shape,
                "bits": round(join.move.bits, 3),
                "needs_s": round(join.move.seconds, 3),
                "beats": round(join.beats, 4),
                "easy_tempo": round(join.easy_tempo, 1),
                "bars": list(join.bars),
            }
            for rank, join in enumerate(joins, start=1)
        ],
    }
