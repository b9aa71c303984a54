"""Findings about joins in words, shared by the report and the sheet."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction

from formsheet.judge.effort import Move
from formsheet.judge.joins import PlayedMove
from formsheet.judge.ladder import on_metronome
from formsheet.music.steps import step_words

NO_TAB = "none"


def move_words(move: Move) -> str:
    """What moves in a join: "2 holes, breath turns, bend a half step"; "nothing moves"."""
    parts = []
    if move.holes:
        parts.append(f"{move.holes} hole{'s' if move.holes > 1 else ''}")
    if move.turn:
        parts.append("breath turns")
    if move.bend:
        parts.append(f"bend {step_words(move.bend)}")
    if move.overbend:
        parts.append("overbend")
    if move.new_shape:
        parts.append("new mouth shape")
    return ", ".join(parts) or "nothing moves"


def easy_words(join: PlayedMove, target: Fraction) -> str:
    """The tempo up to which a join is easy: "63", or "full tempo" if that reaches the target."""
    return "full tempo" if join.easy_tempo >= target else str(on_metronome(join.easy_tempo))


def join_names(join: PlayedMove) -> str:
    """The two licks of a join: "Porch -> Creek", "Porch again"."""
    if join.loops:
        return f"{join.first_lick.title} again"
    return f"{join.first_lick.title} -> {join.second_lick.title}"


def tabs_words(tabs: Iterable[object]) -> str:
    """Tab one after another: "2d, 3b"; "none" where there is none."""
    return ", ".join(map(str, tabs)) or NO_TAB
