"""What the practice page shows: joins, the tempo ladder, the log, chords on this harp."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from fractions import Fraction

from formsheet.judge.harmony import chord_on_harp
from formsheet.judge.joins import Join
from formsheet.judge.ladder import ladder, start_tempo
from formsheet.judge.words import bars_into, easy_words, join_names, move_words
from formsheet.lesson.model import Lesson
from formsheet.music.tab import Tab
from formsheet.pack import view
from formsheet.pack.view_bars import hole_mark

MOST_JOINS = 8  # printed; the others are easier than these
_MOST_SPLITS = 6
_MOST_BLOCKS = 6
_NONE = "none"


def tempo_steps(joins: Sequence[Join], lesson: Lesson) -> tuple[Fraction, ...]:
    """The tempo ladder: from `learn`, or from the hardest join where that is not given."""
    facts = lesson.facts
    return ladder(float(facts.learn or start_tempo(joins, facts.tempo)), facts.tempo)


def join_rows(joins: Sequence[Join], target: Fraction) -> tuple[view.JoinRow, ...]:
    """The hardest joins."""
    return tuple(_join(rank, join, target) for rank, join in enumerate(joins[:MOST_JOINS], start=1))


def log_rows(names: Iterable[str], steps: Sequence[str]) -> tuple[view.LogRow, ...]:
    """A line of the log for each thing to practise."""
    return tuple(view.LogRow(name, tuple(steps)) for name in names)


def _join(rank: int, join: Join, target: Fraction) -> view.JoinRow:
    return view.JoinRow(
        rank=rank,
        names=join_names(join).replace("->", "→"),
        last=hole_mark(join.last.tab),
        first=hole_mark(join.first.tab),
        moves=move_words(join.move),
        where=bars_into(join.bars),
        tempo=easy_words(join, target),
    )


def chord_rows(lesson: Lesson) -> Iterator[view.ChordRow]:
    """How the harp plays each chord of the form."""
    for chord in lesson.form.chords:
        found = chord_on_harp(chord, lesson.key, lesson.facts.harp)
        bent = [f"{tone.degree} {_listed(tone.tabs)}" for tone in found.tones if not tone.natural]
        yield view.ChordRow(
            numeral=chord.numeral,
            letter=chord.name(lesson.key.tonic),
            roots=_listed(found.roots),
            blocks=_listed(_largest(found.blocks)[:_MOST_BLOCKS]),
            splits=_listed(found.splits[:_MOST_SPLITS]),
            bent="; ".join(bent) or _NONE,
        )


def _largest(blocks: Sequence[Tab]) -> list[Tab]:
    """Blocks that are no part of a larger one."""
    return [
        tab
        for tab in blocks
        if not any(
            other.breath is tab.breath and set(tab.holes) < set(other.holes) for other in blocks
        )
    ]


def _listed(items: Iterable[object]) -> str:
    return ", ".join(map(str, items)) or _NONE
