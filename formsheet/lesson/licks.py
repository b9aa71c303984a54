"""Read the licks and rhythms of a file: marks to bars."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from formsheet.language import tree as t
from formsheet.language.recovery import LENGTHS, LINE, READ, Unread
from formsheet.lesson.brackets import written_out
from formsheet.lesson.chords import asked_bars
from formsheet.lesson.model import Lick, LickBar, default_title
from formsheet.lesson.timing import timed_bars, timed_pickup
from formsheet.music.rhythm import Meter
from formsheet.problems import kinds
from formsheet.problems.nearest import Names
from formsheet.problems.problem import Problem, Related, has_errors

#: Rhythm name -> its marks with brackets written out, or what is unread of it.
Rhythms = dict[str, list[t.AnyMark] | Unread]
#: Lick name -> the lick, or what is unread of it.
Licks = dict[str, Lick | Unread]


def known_notes(licks: Mapping[str, Lick | Unread]) -> list[Lick]:
    """The licks whose notes are known, even if their lengths are not."""
    rests = (lick.rest if isinstance(lick, Unread) else lick for lick in licks.values())
    return [lick for lick in rests if isinstance(lick, Lick)]


def read_rhythms(
    blocks: Sequence[t.RhythmBlock], meter: Meter | None
) -> tuple[Rhythms, list[Problem]]:
    """The rhythms of a file by name. Without a meter the length of their bars is not checked."""
    rhythms: Rhythms = {}
    problems: list[Problem] = []
    first: dict[str, t.Word] = {}
    for block in blocks:
        name = block.name.text
        if name in first:
            problems.append(kinds.RhythmTwice(block.name.span, _first_here(first[name]), name=name))
            continue
        first[name] = block.name
        marks, found = written_out(block.marks)
        if not block.unread:
            found += [
                kinds.RhythmNote(mark.span, found=mark.span.text)
                for mark in marks
                if isinstance(mark, t.NoteMark)
            ]
            if not _takes_time(marks):
                found.append(kinds.RhythmWithoutMusic(block.name.span, name=name))
            elif meter:
                found += timed_bars(marks, meter, name)[1]
        unread = block.unread or (LENGTHS if has_errors(found) else READ)
        rhythms[name] = unread or marks
        problems += found
    return rhythms, problems


def read_licks(
    blocks: Sequence[t.LickBlock], rhythms: Rhythms, meter: Meter | None, lost: Unread
) -> tuple[Licks, list[Problem]]:
    """The licks of a file by name; `lost`: what is unread of the file and its shelves."""
    licks: Licks = {}
    problems: list[Problem] = []
    first: dict[str, t.Word] = {}
    names = Names(rhythms)
    for block in blocks:
        name = block.name.text
        if block.line is None:  # its name is a guess
            licks.setdefault(name, block.unread or LINE)
            problems += written_out(block.marks)[1]
            continue
        if name in first:
            problems.append(kinds.LickTwice(block.name.span, _first_here(first[name]), name=name))
            continue
        first[name] = block.name
        if name == "rest":
            problems.append(kinds.LickNamedRest(block.name.span))
        licks[name], found = _read_lick(block, rhythms, names, meter, lost)
        problems += found
    return licks, problems


def _first_here(word: t.Word) -> tuple[Related]:
    return (Related(word.span, "first here"),)


def _read_lick(
    block: t.LickBlock, rhythms: Rhythms, names: Names, meter: Meter | None, lost: Unread
) -> tuple[Lick | Unread, list[Problem]]:
    line, name = block.line, block.name.text
    marks, problems = written_out(block.marks)
    if line is None:
        return LINE, problems
    on, found = asked_bars(line.on)
    problems += found
    pickup: LickBar = ()
    if block.pickups and meter:
        written, found = written_out(block.pickups[0].marks)
        problems += found
        pickup, found = timed_pickup(written, meter, name)
        problems += found
    problems += [
        kinds.PickupTwice(extra.keyword.span,
              (Related(block.pickups[0].keyword.span, "first here"),), lick=name)
        for extra in block.pickups[1:]
    ]  # fmt: skip
    if not block.unread:
        if not (_takes_time(marks) or (line.rhythm and marks)):
            problems.append(kinds.LickWithoutMusic(block.name.span, lick=name))
        if line.rhythm and line.rhythm.text not in rhythms and lost.may_name(line.rhythm.text):
            return Unread.of_names([line.rhythm.text]), problems
        if line.rhythm:
            filled, found = _in_rhythm(block, line.rhythm, marks, rhythms, names)
            problems += found
            if isinstance(filled, Unread):
                return filled, problems
            marks = filled
        else:
            places = [m for m in marks if isinstance(m, t.Mark) and m.sign is t.Sign.PLACE]
            problems += [kinds.PlaceInLick(mark.span, lick=name) for mark in places[:1]]
    if block.unread or has_errors(problems):
        return block.unread or LENGTHS, problems
    if meter is None:
        return Unread.of_facts("meter"), problems
    sounding = bool(pickup) and pickup[-1].kind.value != "rest"
    once = bool(pickup) and block.pickups[0].once
    bars, found = timed_bars(marks, meter, name, sounding)
    problems += found
    if len(on) == 1:
        on = on * len(bars)
    elif len(on) != len(bars) and not any(map(_lacks_a_bar_line, found)):
        problems.append(kinds.OnCount(line.on_span, lick=name, asked=len(on), bars=len(bars)))
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
    return Unread(lengths=True, rest=lick) if has_errors(problems) else lick, problems


def _lacks_a_bar_line(problem: Problem) -> bool:
    """Whether a bar may be two of which the bar line between is missing."""
    return isinstance(problem, kinds.BarTooLong) and problem.before is not None


def _takes_time(marks: Sequence[t.AnyMark]) -> bool:
    """Whether any mark is more than a note value or a swing mark; a bar line counts."""
    idle = (t.Sign.VALUE, t.Sign.SWING, t.Sign.STRAIGHT)
    return any(isinstance(mark, t.NoteMark) or mark.sign not in idle for mark in marks)


def _in_rhythm(
    block: t.LickBlock,
    wanted: t.Word,
    marks: Sequence[t.AnyMark],
    rhythms: Rhythms,
    names: Names,
) -> tuple[list[t.AnyMark] | Unread, list[Problem]]:
    """The marks of the rhythm, its places filled with the notes of the lick."""
    if wanted.text not in rhythms:
        near = names.nearest(wanted.text)
        problem = kinds.RhythmUnknown(wanted.span, found=wanted.text, near=near, known=names.listed)
        return Unread.of_names([wanted.text]), [problem]
    rhythm = rhythms[wanted.text]
    if isinstance(rhythm, Unread):
        return rhythm, []
    notes = [mark for mark in marks if isinstance(mark, t.NoteMark)]
    others = [mark for mark in marks if not isinstance(mark, t.NoteMark)]
    lick = block.name.text
    problems: list[Problem] = [
        kinds.RhythmAndMarks(mark.span, found=mark.span.text, lick=lick, rhythm=wanted.text)
        for mark in others
    ]
    places = sum(isinstance(m, t.Mark) and m.sign is t.Sign.PLACE for m in rhythm)
    if len(notes) != places and notes and not problems:
        span = notes[0].span.to(notes[-1].span)
        problems.append(
            kinds.RhythmCount(span, notes=len(notes), places=places, lick=lick, rhythm=wanted.text)
        )
    if problems or not notes:
        return LENGTHS, problems
    queue = iter(notes)
    return [
        next(queue) if isinstance(m, t.Mark) and m.sign is t.Sign.PLACE else m for m in rhythm
    ], []
