"""Recast licks with a report on each, as text to paste and as data.

The report is written as comments, so that the whole text can be pasted into a lesson.
"""

from __future__ import annotations

import textwrap
from collections.abc import Iterable, Iterator, Sequence
from typing import Any, NamedTuple

from formsheet.arrange.choices import Choice, reach
from formsheet.judge.findings import Reported, fit_findings
from formsheet.judge.words import move_words
from formsheet.lesson.asked import asked_entries, asked_words
from formsheet.lesson.model import AskedBar, Lesson
from formsheet.listing import listed
from formsheet.music.form import FormBar
from formsheet.music.tab import Shape
from formsheet.problems.kinds.fit import IN_WORDS
from formsheet.problems.problem import Problem, Severity
from formsheet.recast.naming import chord_words
from formsheet.recast.offered import AsItIs, Offers
from formsheet.recast.target import Wanted, asked_bars
from formsheet.recast.trial import Tried
from formsheet.report.retab import place_words, steps_words

_WIDTH = 98


#: Most notes that are named where a lick cannot stay.
_MOST_NAMED = 2


class Way(NamedTuple):
    """A way that is offered, with its text in the language."""

    way: AsItIs | Tried
    text: str


def offers_lines(found: Offers, ways: Sequence[Way], lesson: Lesson) -> list[str]:
    """All that is said of a lick on some chords; a blank line after each way."""
    lines = comments_apart(_before(found, lesson))
    for number, (way, text) in enumerate(ways, start=1):
        if isinstance(way, AsItIs):
            first, *others = _as_it_is(way, lesson)
        else:
            first, *others = said(way, lesson)
        lines += comments([f"{number}. {first}", *others])
        if isinstance(way, Tried):
            lines += text.splitlines()
        lines.append("")
    return lines


def _before(found: Offers, lesson: Lesson) -> Iterator[str]:
    """Why the lick does not stay, and that no recast is good."""
    why = why_not(found.as_it_is, lesson)
    if why:
        yield why
    if not found.good and found.recasts:
        best = found.recasts[0]
        tabs = " ".join(str(choice.tab) for choice in best.recast.choices)
        why = "" if best in found.shown() else ", but " + "; ".join(_against(best, lesson))
        yield f"no recast is good; the best is {tabs}{why}"


def _against(tried: Tried, lesson: Lesson) -> Iterator[str]:
    """What speaks against a recast."""
    yield from reasons(tried, lesson)
    warnings = (each for each in tried.problems if each.severity > Severity.REMARK)
    yield from dict.fromkeys(each.message() for each in warnings)


def why_not(way: AsItIs, lesson: Lesson) -> str | None:
    """Why a lick cannot be left as it is, or hardly: which note is to be avoided."""
    chords, placement = _chords(way.chords, lesson), way.played.placement
    if way.clashes:
        said = f"{way.lick.name} cannot stay as it is on {chords}"
    elif way.hardly:
        share = round(placement.score * 100)
        said = f"{way.lick.name} as it is on {chords}: no warning, but only {share}% fits"
    else:
        return None
    notes = dict.fromkeys(_note_words(each, lesson) for each in way.clashes or placement.remarks)
    more = len(notes) - _MOST_NAMED
    some = listed([*notes][:_MOST_NAMED], "and") + (f", {more} more" if more > 0 else "")
    return f"{said}: {some}" if notes else said


def _note_words(each: Reported, lesson: Lesson) -> str:
    chord = each.stretch.chord.name(lesson.key.tonic)
    degrees = list(dict.fromkeys(each.fit.names[each.at]))
    (degree, *others) = degrees
    named = " ".join(degrees) if others else f"the {IN_WORDS.get(degree, degree)}"
    return f"`{each.fit.note.tab}` is {named} of {chord}"


def _as_it_is(way: AsItIs, lesson: Lesson) -> Iterator[str]:
    """The report on a lick left as it is, line by line."""
    placement = way.played.placement
    yield f"{_chords(way.chords, lesson)}, as it is: {placement.verdict}"
    yield f"fit {round(placement.score * 100)}%; {_to_write(way)}"
    for problem in fit_findings(way.played.tune, way.played.fits):
        yield f"{problem.severity.word}: {problem.message()}"


def _to_write(way: AsItIs) -> str:
    if way.written:
        return "its `on` allows it already"
    if way.on is None:
        return f"write it once more, `on {_on_words(asked_bars(way.chords))}`"
    return f"write `on {_on_words(way.on)}` in its first line"


def _on_words(on: Sequence[AskedBar]) -> str:
    return " | ".join(map(asked_words, asked_entries(on)))


def reasons(tried: Tried, lesson: Lesson) -> Iterator[str]:
    """Why a recast is not good, beside the warnings that it draws."""
    home = tried.home
    if home.breath and tried.breath_lost:
        kind = "breath pattern" if home.breath.turns else "one breath"
        yield f"the {kind} of the lick is lost: {home.breath.words}"
    if home.made_by and tried.note_lost:
        what = "named for" if home.made_by.named else "made by"
        at = tried.note_lost[0]
        wanted, choice = tried.recast.wanted[at], tried.recast.choices[at]
        place = place_words(wanted.sound.bar, wanted.sound.onset, lesson.facts.meter)
        yield (
            f"the {home.made_by.degree} that the lick is {what} is lost: "
            f"{place} has {choice.tab}, {_named(choice.midi, wanted, lesson)}"
        )
    yield from tried.objections


def _chords(chords: Sequence[FormBar], lesson: Lesson) -> str:
    """Chords with their letters: "IV7 (C7)", "V7 (D7) | IV7 (C7)"."""
    bars = chords[:1] if len(set(chords)) == 1 else chords
    return " | ".join(
        " ".join(f"{chord} ({chord.name(lesson.key.tonic)})" for chord in bar) for bar in bars
    )


def comments_apart(lines: Iterable[str]) -> list[str]:
    """Lines as comments of a lesson, none indented."""
    return [part for line in lines for part in comments([line])]


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
    where = steps_words(recast.shift) if recast.shift else "where it was"
    yield f"{_chords(recast.chords, lesson)}, {where}: {placement.verdict}"
    contour = ", not quite its contour" if recast.contour or recast.torn else ""
    yield (f"fit {round(placement.score * 100)}%, {_bends(recast.bends)}{contour}")
    yield from (f"poor: {reason}" for reason in reasons(tried, lesson))
    if tried.swapped:
        yield "draw and blow change places"
    yield from _replaced(tried, lesson)
    yield from dict.fromkeys(
        f"{problem.severity.word}: {problem.message()}" for problem in tried.problems
    )
    yield from _moves(tried)


def _bends(count: int) -> str:
    return "no bends" if not count else "a bend" if count == 1 else f"{count} bends"


# ---- Replaced sounds -----------------------------------------------------------------------


def _replaced(tried: Tried, lesson: Lesson) -> Iterator[str]:
    """Each replacement once, where it is first used, and why."""
    reported = set()
    made_by = tried.home.made_by
    for at, wanted, choice in tried.recast.replaced:
        if (wanted.midi, choice.tab) not in reported:
            reported.add((wanted.midi, choice.tab))
            place = place_words(wanted.sound.bar, wanted.sound.onset, lesson.facts.meter)
            why = _why(wanted, choice, lesson)
            if made_by and at in made_by.places and choice.midi == wanted.sound.midi:
                why = f"stays at its pitch, where {_named(wanted.midi, wanted, lesson)} would go"
            yield f"{place}: {choice.tab}, {_named(choice.midi, wanted, lesson)}, {why}"


def _why(wanted: Wanted, choice: Choice, lesson: Lesson) -> str:
    """What a choice replaces, and why."""
    asked, harp = _named(wanted.midi, wanted, lesson), lesson.facts.harp
    key = lesson.key
    tabs = reach(harp, False).get(wanted.midi)
    if len(wanted.midi) > 1:
        if choice.tab.shape is Shape.BLOCK:
            whole = all(key.above_root(m, wanted.new) in wanted.new.tones for m in choice.midi)
            kind = "another block of the chord" if whole else "another block"
        elif len({midi % 12 for midi in choice.midi}) == 1:
            degree = key.degree(choice.midi[0], wanted.new)
            name = "root" if degree == "R" else degree
            kind = f"the {name} {'doubled' if len(choice.midi) > 1 else 'alone'}"
        else:
            kind = "two notes of the chord"
        shape = "split" if wanted.mark.tab and wanted.mark.tab.shape is Shape.SPLIT else "block"
        missing = f"{tabs[0]} would be the {shape}" if tabs else f"no {shape} here sounds {asked}"
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
    names = " ".join(key.spell_octave(each, wanted.new) for each in midi)
    degrees = " ".join(key.degree(each, wanted.new) for each in midi)
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


def offers_data(found: Offers, ways: Sequence[Way], lesson: Lesson) -> dict[str, Any]:
    """The contents of `offers_lines` as data."""
    way = found.as_it_is
    return {
        "chords": [[str(chord) for chord in bar] for bar in way.chords],
        "stays": "no" if way.clashes else "hardly" if way.hardly else "yes",
        "why_not": why_not(way, lesson),
        "good": len(found.good),
        "ways": [_way_data(each, text, lesson) for each, text in ways],
    }


def _way_data(way: AsItIs | Tried, text: str, lesson: Lesson) -> dict[str, Any]:
    if isinstance(way, Tried):
        return recast_data(way, text, lesson)
    placement = way.played.placement
    lick = way.lick
    marks = [mark for bar in (lick.pickup, *lick.bars) for mark in bar if mark.tab]
    problems = fit_findings(way.played.tune, way.played.fits)
    return {
        "as_it_is": True,
        "lick": lick.name,
        "on": _on_words(lick.on if way.written else way.on or asked_bars(way.chords)),
        "text": text,
        "half_steps": 0,
        "tab": [str(mark.tab) for mark in marks],
        "verdict": placement.verdict,
        "fit": str(placement.score),
        "bends": sum(bool(mark.tab and (mark.tab.bend or mark.tab.overbend)) for mark in marks),
        "same_contour": True,
        "replaced": [],
        "poor": [],
        "problems": [_problem_data(each) for each in problems],
        "inner_easy_at": None,
        "loop_easy_at": None,
        "against": 0,
    }


def _problem_data(problem: Problem) -> dict[str, str]:
    return {
        "code": problem.code,
        "severity": problem.severity.word,
        "message": problem.message(),
    }


def recast_data(tried: Tried, text: str, lesson: Lesson) -> dict[str, Any]:
    """The report on a recast as data."""
    placement, recast = tried.placement, tried.recast
    return {
        "as_it_is": False,
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
        "poor": list(reasons(tried, lesson)),
        "problems": [_problem_data(each) for each in tried.problems],
        "inner_easy_at": round(tried.inner[3], 1) if tried.inner else None,
        "loop_easy_at": round(tried.loop.easy_tempo, 1) if tried.loop else None,
        "against": round(tried.against, 2),
    }
