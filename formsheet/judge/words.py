"""Moves, joins and tab in words, shared by the report and the sheet."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from fractions import Fraction

from formsheet.judge.effort import Move
from formsheet.judge.joins import PlayedMove
from formsheet.judge.ladder import on_metronome, slowest_mark
from formsheet.lesson.model import Lick
from formsheet.music.steps import step_words

NO_TAB = "none"
FULL_TEMPO = "full tempo"


def move_words(move: Move) -> str:
    """What moves: "2 holes, breath turns, bend a half step"; "nothing moves"."""
    on_one_reed = move.bend and move.release and not move.holes and not move.turn
    parts = []
    if move.release and not on_one_reed:
        parts.append("let go of the bend")
    if move.let_go:
        parts.append("let go of the overbend")
    if move.holes:
        parts.append(f"{move.holes} hole{'s' if move.holes > 1 else ''}")
    if move.turn:
        parts.append("breath turns")
    if on_one_reed:
        parts.append(f"let the bend up to {step_words(move.bend)}")
    elif move.bend:
        parts.append(f"bend {step_words(move.bend)}")
    if move.overbend:
        parts.append("overbend")
    if move.new_shape:
        parts.append("new mouth shape")
    if move.top:
        parts.append("top hole")
    return ", ".join(parts) or "nothing moves"


def easy_words(each: PlayedMove, target: Fraction) -> str:
    """The tempo up to which a move is easy, see `easy_tempo_words`."""
    return easy_tempo_words(each.easy_tempo, target)


def easy_tempo_words(easy_tempo: float, target: Fraction) -> str:
    """The tempo up to which something is easy: "63", "full tempo" or "under 40"."""
    if easy_tempo >= target:
        return FULL_TEMPO
    slowest = slowest_mark(target)
    return f"under {slowest:g}" if easy_tempo < slowest else str(on_metronome(easy_tempo))


def lick_title(lick: Lick) -> str:
    """The name of a lick in words: its title."""
    return lick.title


def join_names(each: PlayedMove, named: Callable[[Lick], str] = lick_title) -> str:
    """Where a move is: "Porch -> Creek", "Porch again", "inside Porch"; `named`: each lick."""
    if not each.joins:
        return f"inside {named(each.first_lick)}"
    if each.loops:
        return f"{named(each.first_lick)} again"
    return f"{named(each.first_lick)} -> {named(each.second_lick)}"


def tabs_words(tabs: Iterable[object]) -> str:
    """Tab one after another: "2d, 3b"; "none" where there is none."""
    return ", ".join(map(str, tabs)) or NO_TAB
