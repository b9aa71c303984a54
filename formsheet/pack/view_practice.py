"""The views of the practice page: joins, tempo ladder, log, chords on this harp."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from fractions import Fraction

from formsheet.judge.harmony import chord_on_harp
from formsheet.judge.joins import PlayedMove, hardest
from formsheet.judge.words import NO_TAB, easy_words, join_names, move_words, tabs_words
from formsheet.lesson.model import Lesson
from formsheet.listing import bars_words
from formsheet.music.tab import Tab
from formsheet.pack import view
from formsheet.pack.sheet_words import LOG_ALL, LOG_JOINS, LOG_LICKS, more_joins_words
from formsheet.pack.view_bars import hole_mark

MOST_JOINS, LEAST_JOINS = 8, 4  # number of printed joins, the hardest
PAGE_ROWS = 16  # licks and joins on one page of the practice log
_MOST_SPLITS = 6
_MOST_BLOCKS = 6


def practice_groups(
    cards: Iterable[view.Card], joins: Sequence[PlayedMove], target: Fraction
) -> tuple[view.PracticeGroup, ...]:
    """The rows of the practice log: every lick, the hardest joins, the whole tune."""
    licks = tuple(view.PracticeRow(card.title, card.played) for card in cards)
    most = max(LEAST_JOINS, min(MOST_JOINS, PAGE_ROWS - len(licks)))
    printed = hardest(joins, float(target), most)
    left = [join for join in joins if join not in printed]
    all_easy = all(join.easy_tempo >= target for join in left)
    groups = (
        view.PracticeGroup(LOG_LICKS, licks),
        view.PracticeGroup(
            LOG_JOINS,
            tuple(join_row(join, target) for join in printed),
            more_joins_words(len(left), all_easy) if left else "",
        ),
        view.PracticeGroup("", (view.PracticeRow(LOG_ALL, ""),)),
    )
    return tuple(group for group in groups if group.rows)


def join_row(join: PlayedMove, target: Fraction) -> view.PracticeRow:
    """A join as a row: `target` is the tempo of the tune, in beats a minute."""
    return view.PracticeRow(
        name=join_names(join).replace("->", "›"),
        where=bars_words(join.bars),
        last=hole_mark(join.last.tab),
        first=hole_mark(join.first.tab),
        moves=move_words(join.move),
        tempo=easy_words(join, target),
    )


def chord_rows(lesson: Lesson) -> Iterator[view.ChordRow]:
    """How each chord of the form and of the plays' endings is played on the harp."""
    for chord in lesson.chords:
        found = chord_on_harp(chord, lesson.key, lesson.facts.harp)
        bent = [
            f"{tone.degree}: {tabs_words(tone.tabs)}" for tone in found.tones if not tone.natural
        ]
        yield view.ChordRow(
            numeral=chord.numeral,
            letter=chord.name(lesson.key.tonic),
            roots=tabs_words(found.roots),
            blocks=tabs_words(_largest(found.blocks)[:_MOST_BLOCKS]),
            splits=tabs_words(found.splits[:_MOST_SPLITS]),
            bent="; ".join(bent) or NO_TAB,
        )


def _largest(blocks: Sequence[Tab]) -> list[Tab]:
    """Blocks that are not part of a larger one."""
    return [
        tab
        for tab in blocks
        if not any(
            other.breath is tab.breath and set(tab.holes) < set(other.holes) for other in blocks
        )
    ]
