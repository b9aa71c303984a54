"""Licks and rhythms of one file, from marks to bars."""

from __future__ import annotations

from collections.abc import Sequence

from formsheet.language import tree as t
from formsheet.lesson.brackets import written_out
from formsheet.lesson.chords import asked_bars
from formsheet.lesson.lost import Lost
from formsheet.lesson.model import Lick, LickBar, default_title
from formsheet.lesson.timing import timed_bars, timed_pickup
from formsheet.music.rhythm import Meter
from formsheet.problems.nearest import Names
from formsheet.problems.problem import Problem, Related, error, has_errors

#: Rhythm name -> its marks with brackets written out; None where it is broken.
Rhythms = dict[str, list[t.AnyMark] | None]
#: Lick name -> the lick; None where it is broken, so that its users are not blamed.
Licks = dict[str, Lick | None]


def read_rhythms(
    blocks: Sequence[t.RhythmBlock], meter: Meter | None
) -> tuple[Rhythms, list[Problem]]:
    """The rhythms of a file by name. Without a meter their bars are not measured."""
    rhythms: Rhythms = {}
    problems: list[Problem] = []
    first: dict[str, t.Word] = {}
    for block in blocks:
        name = block.name.text
        if name in first:
            problems.append(_twice("rhythm-twice", block.name, first[name]))
            continue
        first[name] = block.name
        marks, found = written_out(block.marks)
        if not block.broken:
            found += [
                error("rhythm-note", mark.span, found=mark.span.text)
                for mark in marks
                if isinstance(mark, t.NoteMark)
            ]
            if not _takes_time(marks):
                found.append(error("rhythm-without-music", block.name.span, name=name))
            elif meter:
                found += timed_bars(marks, meter, name)[1]
        rhythms[name] = None if block.broken or has_errors(found) else marks
        problems += found
    return rhythms, problems


def read_licks(
    blocks: Sequence[t.LickBlock], rhythms: Rhythms, meter: Meter | None, lost: Lost
) -> tuple[Licks, list[Lick], list[Problem]]:
    """The licks of a file by name, and those that are broken by their bars alone.

    Of the latter what is played can still be judged.
    """
    licks: Licks = {}
    unfilled: list[Lick] = []
    problems: list[Problem] = []
    first: dict[str, t.Word] = {}
    names = Names(rhythms)
    for block in blocks:
        name = block.name.text
        if block.line is None:  # its name is a guess
            licks.setdefault(name, None)
            problems += written_out(block.marks)[1]
            continue
        if name in first:
            problems.append(_twice("lick-twice", block.name, first[name]))
            continue
        first[name] = block.name
        if name == "rest":
            problems.append(error("lick-named-rest", block.name.span))
        lick, found = _read_lick(block, rhythms, names, meter, lost)
        licks[name] = None if has_errors(found) else lick
        if lick and licks[name] is None:
            unfilled.append(lick)
        problems += found
    return licks, unfilled, problems


def _twice(slug: str, word: t.Word, first: t.Word) -> Problem:
    return error(slug, word.span, Related(first.span, "first here"), name=word.text)


def _read_lick(
    block: t.LickBlock, rhythms: Rhythms, names: Names, meter: Meter | None, lost: Lost
) -> tuple[Lick | None, list[Problem]]:
    line, name = block.line, block.name.text
    marks, problems = written_out(block.marks)
    if line is None:
        return None, problems
    on, found = asked_bars(line.on)
    problems += found
    pickup: LickBar = ()
    if block.pickups and meter:
        written, found = written_out(block.pickups[0].marks)
        problems += found
        pickup, found = timed_pickup(written, meter, name)
        problems += found
    problems += [
        error("pickup-twice", extra.keyword.span,
              Related(block.pickups[0].keyword.span, "first here"), lick=name)
        for extra in block.pickups[1:]
    ]  # fmt: skip
    if not block.broken:
        if not (_takes_time(marks) or (line.rhythm and marks)):
            problems.append(error("lick-without-music", block.name.span, lick=name))
        if line.rhythm and line.rhythm.text not in rhythms and lost.holds(line.rhythm.text):
            return None, problems
        if line.rhythm:
            filled, found = _in_rhythm(block, line.rhythm, marks, rhythms, names)
            problems += found
            if filled is None:
                return None, problems
            marks = filled
        else:
            places = [m for m in marks if isinstance(m, t.Mark) and m.sign is t.Sign.PLACE]
            problems += [error("place-in-lick", mark.span, lick=name) for mark in places[:1]]
    if block.broken or has_errors(problems) or meter is None:
        return None, problems
    sounding = bool(pickup) and pickup[-1].kind.value != "rest"
    once = bool(pickup) and block.pickups[0].once
    bars, found = timed_bars(marks, meter, name, sounding)
    problems += found
    if len(on) == 1:
        on = on * len(bars)
    elif len(on) != len(bars):
        problems.append(error("on-count", line.on_span, lick=name, asked=len(on), bars=len(bars)))
    lick = Lick(
        name=name,
        title=line.title.text if line.title else default_title(name),
        turnaround=line.keyword.text == "turnaround",
        on=on,
        bars=bars,
        span=block.name.span,
        on_span=line.on_span,
        pickup=pickup,
        pickup_once=once,
        tips=tuple(tip.text.text for tip in block.tips),
    )
    return lick, problems


def _takes_time(marks: Sequence[t.AnyMark]) -> bool:
    """Whether there is more than note values and swing marks, a bar line at least."""
    idle = (t.Sign.VALUE, t.Sign.SWING, t.Sign.STRAIGHT)
    return any(isinstance(mark, t.NoteMark) or mark.sign not in idle for mark in marks)


def _in_rhythm(
    block: t.LickBlock,
    wanted: t.Word,
    marks: Sequence[t.AnyMark],
    rhythms: Rhythms,
    names: Names,
) -> tuple[list[t.AnyMark] | None, list[Problem]]:
    """The rhythm's marks with the lick's notes in their places."""
    if wanted.text not in rhythms:
        near = names.nearest(wanted.text)
        return None, [
            error("rhythm-unknown", wanted.span, found=wanted.text, near=near, known=names.listed)
        ]
    rhythm = rhythms[wanted.text]
    if rhythm is None:
        return None, []
    notes = [mark for mark in marks if isinstance(mark, t.NoteMark)]
    others = [mark for mark in marks if not isinstance(mark, t.NoteMark)]
    facts = {"lick": block.name.text, "rhythm": wanted.text}
    problems = [
        error("rhythm-and-marks", mark.span, found=mark.span.text, **facts) for mark in others
    ]
    places = sum(isinstance(m, t.Mark) and m.sign is t.Sign.PLACE for m in rhythm)
    if len(notes) != places and notes and not problems:
        span = notes[0].span.to(notes[-1].span)
        problems.append(error("rhythm-count", span, notes=len(notes), places=places, **facts))
    if problems or not notes:
        return None, problems
    queue = iter(notes)
    return [
        next(queue) if isinstance(m, t.Mark) and m.sign is t.Sign.PLACE else m for m in rhythm
    ], []
