"""The views of what is practised: the plan, rows to tick off, chords on this harp."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from fractions import Fraction
from itertools import groupby

from formsheet.judge.harmony import chord_on_harp
from formsheet.judge.joins import PlayedMove, hardest
from formsheet.judge.ladder import start_tempo
from formsheet.judge.practice import LickPractice, Practice
from formsheet.judge.practice_words import breathe_words, order_words
from formsheet.judge.words import NO_TAB, easy_tempo_words, easy_words, join_names, move_words
from formsheet.lesson.model import Lesson
from formsheet.listing import bars_words
from formsheet.music.tab import Breath, Tab
from formsheet.sheet import view
from formsheet.sheet.sheet_words import LOG_ALL, LOG_JOINS, LOG_LICKS
from formsheet.sheet.tab_text import breath_text, holes_text, printed_tabs, with_dashes
from formsheet.sheet.view_bars import hole_mark
from formsheet.tune.lick_letters import LickLetters

MOST_JOINS = 8  # number of moves and joins to listen to, the hardest
TICKED_JOINS = 6  # number of them to tick off on paper, on every copy; own choice
_MOST_SPLITS = 3  # octaves first
_MOST_BLOCKS = 4
_MOST_ROOTS = 3
_OCTAVE = 12


def practice_groups(
    cards: Iterable[view.Card], practice: Practice
) -> tuple[view.PracticeGroup, ...]:
    """The rows to tick off: every lick, the hardest moves and joins, the whole tune."""
    target = practice.target
    own = {each.lick.name: each for each in practice.licks}
    letters = LickLetters(practice.tune)
    licks = tuple(_lick_row(card, own[card.name], target) for card in cards)
    printed = hardest(practice.moves, float(target), TICKED_JOINS)
    groups = (
        view.PracticeGroup(LOG_LICKS, licks),
        view.PracticeGroup(
            LOG_JOINS,
            tuple(move_row(each, target, letters) for each in printed),
        ),
        view.PracticeGroup("", (view.PracticeRow(LOG_ALL, "", start=float(practice.ladder[0])),)),
    )
    return tuple(group for group in groups if group.rows)


def plan_lines(practice: Practice) -> tuple[str, ...]:
    """In which order to practise, and where to breathe, a sentence each; licks by their letters."""
    letters = LickLetters(practice.tune)
    lines = [*order_words(practice, letters.of), breathe_words(practice)]
    return tuple(_printed(line) for line in lines if line)


def _lick_row(card: view.Card, own: LickPractice, target: Fraction) -> view.PracticeRow:
    return view.PracticeRow(
        card.title,
        card.played,
        tempo=easy_tempo_words(own.easy_tempo(float(target)), target),
        start=float(own.ladder[0]),
        letter=card.letter,
    )


def move_row(each: PlayedMove, target: Fraction, letters: LickLetters) -> view.PracticeRow:
    """A move or a join as a row: `target` is the tempo of the tune, in beats a minute."""
    name = _printed(join_names(each))
    licks = (each.first_lick, each.second_lick) if each.joins else (each.first_lick,)
    return view.PracticeRow(
        name=name if each.joins else name[:1].upper() + name[1:],
        where=bars_words(each.bars),
        last=hole_mark(each.last.tab),
        first=hole_mark(each.first.tab),
        moves=move_words(each.move),
        tempo=easy_words(each, target),
        start=float(start_tempo([each], target)),
        letters=tuple(map(letters.of, licks)),
    )


def _printed(words: str) -> str:
    return with_dashes(printed_tabs(words)).replace("->", "›")


def chord_rows(lesson: Lesson) -> Iterator[view.ChordRow]:
    """How each chord of the form and of the plays' endings is played on the harp."""
    for chord in lesson.chords:
        found = chord_on_harp(chord, lesson.key, lesson.facts.harp)
        blocks = _together(list(_merged(found.blocks))[:_MOST_BLOCKS])
        pitches = lesson.facts.harp.pitches
        splits = sorted(found.splits, key=lambda tab: pitches(tab)[1] - pitches(tab)[0] != _OCTAVE)
        natural = [tab for tab in found.roots if not tab.bend] or found.roots[:1]
        roots = _together(natural[:_MOST_ROOTS])
        yield view.ChordRow(
            numeral=chord.numeral,
            letter=chord.name(lesson.key.tonic),
            blocks=blocks or (f"{NO_TAB}; root: {roots}" if roots else NO_TAB),
            splits=_together(splits[:_MOST_SPLITS]) or NO_TAB,
        )


def _together(tabs: Sequence[Tab]) -> str:
    """Tabs with the breath said once for all of a kind: "blow 1–3; draw 1–5, 7–9"."""
    marks = sorted(map(hole_mark, tabs), key=lambda mark: (breath_text(mark), mark.holes))
    kinds = groupby(marks, breath_text)
    return "; ".join(f"{kind} {', '.join(map(holes_text, group))}" for kind, group in kinds)


def _merged(blocks: Sequence[Tab]) -> Iterator[Tab]:
    """Holes of which any neighbours sound together: blocks that overlap are one."""
    for breath in Breath:
        run: list[int] = []
        for tab in sorted((tab for tab in blocks if tab.breath is breath), key=lambda t: t.holes):
            if run and tab.holes[0] > run[-1]:
                yield Tab(tuple(run), breath)
                run = []
            run = sorted({*run, *tab.holes})
        if run:
            yield Tab(tuple(run), breath)
