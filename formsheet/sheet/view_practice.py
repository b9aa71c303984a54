"""The views of the practice page: plan, breath, log, chords on this harp."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from fractions import Fraction

from formsheet.judge.harmony import chord_on_harp
from formsheet.judge.joins import PlayedMove, hardest
from formsheet.judge.ladder import start_tempo
from formsheet.judge.practice import LickPractice, Practice
from formsheet.judge.practice_words import balance_words, plan_words, rests_words
from formsheet.judge.words import (
    NO_TAB,
    easy_tempo_words,
    easy_words,
    join_names,
    move_words,
    tabs_words,
)
from formsheet.lesson.model import Lesson
from formsheet.listing import bars_words
from formsheet.music.tab import Tab
from formsheet.sheet import view
from formsheet.sheet.sheet_words import LOG_ALL, LOG_JOINS, LOG_LICKS, more_words
from formsheet.sheet.view_bars import hole_mark

MOST_JOINS, LEAST_JOINS = 8, 4  # number of printed moves and joins, the hardest
PAGE_ROWS = 14  # licks, moves and joins on one page of the practice log
_MOST_SPLITS = 6
_MOST_BLOCKS = 6


def practice_groups(
    cards: Iterable[view.Card], practice: Practice
) -> tuple[view.PracticeGroup, ...]:
    """The rows of the practice log: every lick, the hardest moves and joins, the whole tune."""
    target = practice.target
    own = {each.lick.name: each for each in practice.licks}
    licks = tuple(_lick_row(card, own[card.name], target) for card in cards)
    most = max(LEAST_JOINS, min(MOST_JOINS, PAGE_ROWS - len(licks)))
    printed = hardest(practice.moves, float(target), most)
    left = [
        each
        for each in practice.moves
        if each not in printed and (each.joins or each.easy_tempo < target)
    ]
    all_easy = all(each.easy_tempo >= target for each in left)
    groups = (
        view.PracticeGroup(LOG_LICKS, licks),
        view.PracticeGroup(
            LOG_JOINS,
            tuple(move_row(each, target) for each in printed),
            more_words(len(left), all_easy) if left else "",
        ),
        view.PracticeGroup("", (view.PracticeRow(LOG_ALL, "", start=float(practice.ladder[0])),)),
    )
    return tuple(group for group in groups if group.rows)


def plan_lines(practice: Practice) -> tuple[str, ...]:
    """The plan, a sentence each."""
    return tuple(_printed(line) for line in plan_words(practice))


def breath_line(practice: Practice) -> str:
    """The balance of draw and blow, and where to breathe, in a line."""
    balance = balance_words(practice)
    return f"{balance} {rests_words(practice)}" if balance else ""


def _lick_row(card: view.Card, own: LickPractice, target: Fraction) -> view.PracticeRow:
    return view.PracticeRow(
        card.title,
        card.played,
        tempo=easy_tempo_words(own.easy_tempo(float(target)), target),
        start=float(own.ladder[0]),
    )


def move_row(each: PlayedMove, target: Fraction) -> view.PracticeRow:
    """A move or a join as a row: `target` is the tempo of the tune, in beats a minute."""
    name = _printed(join_names(each))
    return view.PracticeRow(
        name=name if each.joins else name[:1].upper() + name[1:],
        where=bars_words(each.bars),
        last=hole_mark(each.last.tab),
        first=hole_mark(each.first.tab),
        moves=move_words(each.move),
        tempo=easy_words(each, target),
        start=float(start_tempo([each], target)),
    )


def _printed(words: str) -> str:
    return words.replace("->", "›")


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
