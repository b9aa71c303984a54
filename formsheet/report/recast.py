"""Recast licks with a report on each, as text to paste and as data.

The report is written as comments, so that the whole text can be pasted into a lesson.
"""

from __future__ import annotations

import textwrap
from collections.abc import Iterator, Sequence
from typing import Any

from formsheet.arrange.choices import Choice, reach
from formsheet.judge.words import move_words
from formsheet.lesson.model import Lesson
from formsheet.listing import listed
from formsheet.music.tab import Shape
from formsheet.recast.naming import chord_words
from formsheet.recast.target import Wanted
from formsheet.recast.trial import Tried
from formsheet.report.retab import place_words, steps_words

_WIDTH = 98


def recast_lines(tried: Tried, number: int, text: str, lesson: Lesson) -> list[str]:
    """One recast: comments, then the lick."""
    first, *others = said(tried, lesson)
    return [*comments([f"{number}. {first}", *others]), *text.splitlines()]


def comments(lines: Sequence[str]) -> list[str]:
    """Lines as comments of a lesson, all but the first indented."""
    return [
        part
        for at, line in enumerate(lines)
        for part in textwrap.wrap(
            line, _WIDTH, initial_indent="#    " if at else "# ", subsequent_indent="#      ",
            break_long_words=False, break_on_hyphens=False,
        )
    ]  # fmt: skip


def said(tried: Tried, lesson: Lesson) -> Iterator[str]:
    """The report on a recast, line by line."""
    placement, recast = tried.placement, tried.recast
    chords = " | ".join(
        " ".join(f"{chord} ({chord.name(lesson.key.tonic)})" for chord in bar)
        for bar in dict.fromkeys(recast.chords)
    )
    where = steps_words(recast.shift) if recast.shift else "where it was"
    yield f"{chords}, {where}: {placement.verdict}"
    contour = ", not quite its contour" if recast.contour or recast.torn else ""
    yield (f"fit {round(placement.score * 100)}%, {_bends(recast.bends)}{contour}")
    yield from _replaced(tried, lesson)
    for problem in tried.problems:
        yield f"{problem.severity.word}: {problem.message()}"
    yield from _moves(tried)


def _bends(count: int) -> str:
    return "no bends" if not count else "a bend" if count == 1 else f"{count} bends"


# ---- Replaced sounds -----------------------------------------------------------------------


def _replaced(tried: Tried, lesson: Lesson) -> Iterator[str]:
    """Each replacement once, where it is first used, and why."""
    reported = set()
    for wanted, choice in tried.recast.replaced:
        if (wanted.midi, choice.tab) not in reported:
            reported.add((wanted.midi, choice.tab))
            place = place_words(wanted.sound.bar, wanted.sound.onset, lesson.facts.meter)
            sounding = _named(choice.midi, wanted, lesson)
            yield f"{place}: {choice.tab}, {sounding}, {_why(wanted, choice, lesson)}"


def _why(wanted: Wanted, choice: Choice, lesson: Lesson) -> str:
    """What a choice replaces, and why."""
    asked, harp = _named(wanted.midi, wanted, lesson), lesson.facts.harp
    tabs = reach(harp, False).get(wanted.midi)
    if len(wanted.midi) > 1:
        if choice.tab.shape is Shape.BLOCK:
            kind = "another block of the chord"
        elif len({midi % 12 for midi in choice.midi}) == 1:
            kind = "the root doubled" if choice.tab.shape is Shape.SPLIT else "the root alone"
        else:
            kind = "two notes of the chord"
        missing = f"{tabs[0]} would be the block" if tabs else f"no block here sounds {asked}"
        return f"is {kind}: {missing}"
    if tabs:
        return f"replaces {asked}, which is {listed([str(tab) for tab in tabs], 'or')}"
    overbent = reach(harp, True).get(wanted.midi)
    if overbent:
        return f"replaces {asked}, which needs an overbend: {overbent[0]}"
    return f"replaces {asked}, which is not on this harp"


def _named(midi: Sequence[int], wanted: Wanted, lesson: Lesson) -> str:
    """Pitches with their degrees over the chord: "F#5 (3)", "D4 F#4 A4 (R 3 5)"."""
    key = lesson.key
    root = key.pitch_class + wanted.new.root
    names = " ".join(key.spell_octave(each, wanted.new) for each in midi)
    degrees = " ".join(wanted.new.degree((each - root) % 12) for each in midi)
    return f"{names} ({degrees})"


# ---- Moves ---------------------------------------------------------------------------------


def _moves(tried: Tried) -> Iterator[str]:
    """The moves that a student cannot make at full tempo, or a line that there are none."""
    target = float(tried.tune.lesson.facts.tempo)
    hard = []
    if tried.inner and tried.inner[3] < target:
        first, second, moves, tempo = tried.inner
        hard.append(("hardest move", first.tab, second.tab, moves, tempo))
    if tried.loop and tried.loop.easy_tempo < target:
        loop = tried.loop
        hard.append(("round again", loop.last.tab, loop.first.tab, loop.move, loop.easy_tempo))
    for what, last, here, move, tempo in hard:
        yield f"{what}: {last} to {here}, {move_words(move)}; easy at {tempo:.0f}"
    if not hard:
        yield "every move is easy at full tempo"


# ---- As data -------------------------------------------------------------------------------


def recast_data(tried: Tried, text: str, lesson: Lesson) -> dict[str, Any]:
    """The contents of `recast_lines` as data."""
    placement, recast = tried.placement, tried.recast
    return {
        "lick": recast.lick.name,
        "on": chord_words(recast.chords),
        "text": text,
        "half_steps": recast.shift,
        "tab": [str(choice.tab) for choice in recast.choices],
        "verdict": placement.verdict,
        "fit": str(placement.score),
        "bends": recast.bends,
        "same_contour": not recast.contour,
        "replaced": list(_replaced(tried, lesson)),
        "problems": [
            {"code": each.code, "severity": each.severity.word, "message": each.message()}
            for each in tried.problems
        ],
        "inner_easy_at": round(tried.inner[3], 1) if tried.inner else None,
        "loop_easy_at": round(tried.loop.easy_tempo, 1) if tried.loop else None,
        "against": round(tried.against, 2),
    }
