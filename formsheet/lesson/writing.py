"""Write a lick or a whole lesson as lines of the language.

Parsing the text gives the same lesson, except for spans: licks in a rhythm are written with their
values, licks from shelves become the lesson's own.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from formsheet.language import tree as t
from formsheet.language.made import NOWHERE, word
from formsheet.language.writer import lines_text, music
from formsheet.lesson import model
from formsheet.lesson.asked import asked_entries
from formsheet.lesson.model import Kind, Lesson, Lick, LickBar, LickMark, default_title
from formsheet.lesson.writing_facts import chord_words, fact_lines

_BAR = t.Mark(t.Sign.BAR, "|", NOWHERE)
_SIGNS = {Kind.HOLD: t.Sign.HOLD, Kind.REST: t.Sign.REST}


def lick_text(lick: Lick) -> str:
    """A lick as in a lesson or on a shelf, from its first line to its last tip."""
    return lines_text(lick_lines(lick))


def lesson_text(lesson: Lesson) -> str:
    """A whole lesson: facts, own form and tuning, licks, choruses."""
    lines = fact_lines(lesson.facts)
    for name, lick in lesson.licks.items():  # the name under which the lesson plays it
        lines += lick_lines(lick._replace(name=name))
    for play in lesson.plays:
        lines += play_lines(play)
    return lines_text(lines)


# ---- Licks -----------------------------------------------------------------------------------


def lick_lines(lick: Lick) -> list[t.Line]:
    """The lines of a lick."""
    lines: list[t.Line] = [
        t.LickLine(
            keyword=word("turnaround" if lick.turnaround else "lick"),
            name=word(lick.name),
            title=None if lick.title == default_title(lick.name) else word(lick.title),
            on=tuple(map(_asked, asked_entries(lick.on))),
            on_span=NOWHERE,
            rhythm=None,
        )
    ]
    if lick.pickup:
        marks = tuple(bar_marks([lick.pickup]))
        lines.append(t.PickupLine(word("pickup"), marks, lick.pickup_once))
    lines += music(list(bar_marks(lick.bars)))
    lines += [t.TipLine(word("tip"), word(tip)) for tip in lick.tips]
    return lines


def bar_marks(bars: Sequence[LickBar]) -> Iterator[t.AnyMark]:
    """The marks of some bars, with values and swing marks where they change, and bar lines.

    ValueError if a mark returns to the feel of the lesson: the language has no mark for that.
    """
    value = swings = None
    for at, bar in enumerate(bars):
        if at:
            yield _BAR
        for mark in bar:
            if mark.swings is not swings:
                yield _switch(mark)
                swings = mark.swings
            if mark.value != value:
                yield t.Mark(t.Sign.VALUE, str(mark.value), NOWHERE)
                value = mark.value
            yield _mark(mark)


def _switch(mark: LickMark) -> t.Mark:
    if mark.swings is None:
        raise ValueError("a lick cannot return to the feel of its lesson")
    sign = t.Sign.SWING if mark.swings else t.Sign.STRAIGHT
    return t.Mark(sign, sign.value, NOWHERE)


def _mark(mark: LickMark) -> t.AnyMark:
    if mark.kind is not Kind.NOTE:
        return t.Mark(_SIGNS[mark.kind], "", NOWHERE)
    assert mark.tab, "a note of a lick has its tab"
    return t.NoteMark(
        holes=mark.tab.holes,
        breath=mark.tab.breath.value,
        over=mark.tab.overbend,
        ticks=mark.tab.bend,
        span=NOWHERE,
        deliberate=mark.deliberate,
        technique=word(mark.technique) if mark.technique else None,
        syllable=word(mark.syllable) if mark.syllable else None,
    )


def _asked(bar: model.AskedBar) -> t.AskedBar:
    return tuple(tuple(word(str(chord)) for chord in slot) for slot in bar)


# ---- Play ------------------------------------------------------------------------------------


def play_lines(play: model.Play) -> list[t.Line]:
    """The lines of a chorus."""
    title = word(play.title) if play.title else None
    lines: list[t.Line] = [t.PlayLine(word("play"), title, _count(play.times, 1))]
    lines += [
        t.EveryLine(word("every"), _asked(each.on), NOWHERE, _placed(each.placed))
        for each in play.every
    ]
    lines += map(_bars_line, play.bars)
    lines += [
        t.EndingLine(word("ending"), chord_words(ending), last_time)
        for ending, last_time in ((play.ending, False), (play.last_ending, True))
        if ending
    ]
    return lines


def _bars_line(bars: model.BarsPlaced) -> t.BarsLine:
    one = bars.first == bars.last
    return t.BarsLine(
        keyword=word("bar" if one else "bars"),
        range=word(str(bars.first) if one else f"{bars.first}-{bars.last}"),
        placed=_placed(bars.placed),
        last_time=bars.last_time,
    )


def _placed(placed: Sequence[model.Placed]) -> tuple[t.Placed, ...]:
    return tuple(
        t.Placed(word("rest" if each.rest else each.name), each.rest, _count(each.times, None))
        for each in placed
    )


def _count(count: int | None, plain: int | None) -> t.Word | None:
    """The count as a word; None if it is what a missing count means."""
    return None if count is None or count == plain else word(f"x{count}")
