"""A hearing as text of the language, with its doubts as comments; and what was heard, in words."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from formsheet.arrange.rank import Layout
from formsheet.arrange.shelf import shelf_lines
from formsheet.hearing.as_lick import heard_facts, heard_lesson, heard_lick
from formsheet.hearing.hear import Hearing, WrittenNote
from formsheet.hearing.notes import Doubt
from formsheet.language import tree as t
from formsheet.language.made import NOWHERE
from formsheet.language.writer import Row, rows_text
from formsheet.language.written import note_text
from formsheet.lesson.model import Lick
from formsheet.lesson.writing import lick_lines, play_lines
from formsheet.lesson.writing_facts import fact_lines
from formsheet.music.key import song_key
from formsheet.music.tab import Tab
from formsheet.report.retab import layout_words
from formsheet.vocabulary.facts import feel_text

_MOST_LAYOUTS = 6
_CENTS_OFF = 20  # a bend that is off by more is mentioned
_TUNED = 4  # cents: nearer than this to A = 440 is not worth a word


def doubt_words(note: WrittenNote) -> str:
    """What is not sure about a note; "" where all is."""
    return "; ".join(_doubts(note))


def _doubts(note: WrittenNote) -> Iterator[str]:
    heard, doubts = note.heard, note.doubts
    if Doubt.PITCH in doubts and heard.second:
        yield f"perhaps {_tabs(heard.second.tabs)}"
    if Doubt.OCTAVE in doubts:
        yield "perhaps an octave split"
    if Doubt.AGAIN in doubts:
        yield "perhaps struck twice"
    if Doubt.ONCE in doubts:
        yield "perhaps held from the note before"
    if Doubt.SHORT in doubts:
        yield "so short that it may be no note"
    if Doubt.PLACE in doubts:
        others = [tab for tab in heard.action.tabs if tab != note.tab]
        yield f"the same pitch is {_tabs(others)}"
    if Doubt.ATTACK in doubts:
        yield "its place in the beat is not sure"
    if Doubt.LENGTH in doubts:
        yield "its length is not sure"


def _tabs(tabs: Sequence[Tab]) -> str:
    return " or ".join(map(str, tabs))


# ---- The text ------------------------------------------------------------------------------


def heard_text(hearing: Hearing, position: int, name: str, *, lesson: bool) -> str:
    """The lick as a shelf, or a whole lesson; doubts are comments at their notes."""
    lick, places = heard_lick(hearing, name)
    doubts = {(bar, at): words for bar, at, note in places if (words := doubt_words(note))}
    if lesson:
        whole = heard_lesson(hearing, position, lick)
        head: Sequence[t.Line] = fact_lines(whole.facts)
        tail = [line for play in whole.plays for line in play_lines(play)]
    else:
        head, tail = shelf_lines(heard_facts(hearing, position)), []
    rows = [Row(line) for line in head]
    rows += _lick_rows(lick, doubts)
    return rows_text([*rows, *map(Row, tail)])


def _lick_rows(lick: Lick, doubts: Mapping[tuple[int, int], str]) -> Iterator[Row]:
    """The lines of a lick; a line of music ends at each note with a doubt."""
    bars = [lick.pickup, *lick.bars]
    marked = [(bar, at) for bar, marks in enumerate(bars) for at, _ in enumerate(marks)]
    played = [place for place in marked if bars[place[0]][place[1]].tab]
    words = [doubts.get(place, "") for place in played]
    number = -1
    for line in lick_lines(lick):
        if not isinstance(line, t.MusicLine | t.PickupLine):
            yield Row(line)
            continue
        part: list[t.AnyMark] = []
        said: list[str] = []
        for mark in line.marks:
            if isinstance(line, t.MusicLine) and said and not _stays(mark):
                yield Row(t.MusicLine(tuple(part), NOWHERE), f"# {said.pop()}")
                part = []
            part.append(mark)
            if isinstance(mark, t.NoteMark):
                number += 1
                said += [f"{_plain(mark)}: {words[number]}"] if words[number] else []
        comment = f"# {'; '.join(said)}" if said else ""
        if isinstance(line, t.PickupLine):
            yield Row(line, comment)
        elif part:
            yield Row(t.MusicLine(tuple(part), NOWHERE), comment)


def _stays(mark: t.AnyMark) -> bool:
    """Whether a mark belongs to the note before it: a hold, the bar line."""
    return isinstance(mark, t.Mark) and mark.sign in (t.Sign.HOLD, t.Sign.BAR)


def _plain(mark: t.NoteMark) -> str:
    """A note without what is attached to it."""
    return note_text(mark._replace(technique=None, syllable=None, deliberate=False))


# ---- What was heard --------------------------------------------------------------------------


def hearing_report(hearing: Hearing, position: int) -> Iterator[str]:
    """What was heard, line by line."""
    key = song_key(hearing.harp.key, position)
    yield f"{layout_words(hearing.harp, position, key)}; {len(hearing.notes)} notes"
    yield _tuning_words(hearing.tuning)
    yield _tempo_words(hearing)
    if not hearing.meter.compound:
        yield f"feel {feel_text(hearing.feel)}, {'as asked' if hearing.feel_given else 'as heard'}"
    yield from _bends_off(hearing)
    doubtful = sum(1 for note in hearing.notes if note.doubts)
    if doubtful:
        yield f"{doubtful} of {len(hearing.notes)} notes are not sure: see the comments"


def _tuning_words(cents: float) -> str:
    hertz = 440 * 2 ** (cents / 1200)
    if abs(cents) < _TUNED:
        return "tuned to A = 440"
    return (
        f"tuned to A = {hertz:.0f} ({abs(cents):.0f} cents {'above' if cents > 0 else 'below'} 440)"
    )


def _tempo_words(hearing: Hearing) -> str:
    heard = f"{hearing.tempo:.0f} beats a minute"
    if hearing.count_in:
        bars = hearing.count_in.clicks // hearing.count_in.meter
        heard = f"a count-in of {bars} {'bar' if bars == 1 else 'bars'}, then {heard}"
    elif not hearing.tempo_given:
        others = " or ".join(f"{each:.0f}" for each in hearing.other_tempi)
        heard += f", as heard{f' (perhaps {others})' if others else ''}; --tempo says otherwise"
    if not hearing.count_in:
        heard += "; no count-in was heard: bar 1 begins with the first beat that is played"
    return heard


def _bends_off(hearing: Hearing) -> Iterator[str]:
    """The bends that sit clearly off their pitch, with the median of their cents."""
    cents: dict[str, list[float]] = {}
    for note in hearing.notes:
        if (note.tab.bend or note.tab.overbend) and note.heard.cents is not None:
            cents.setdefault(str(note.tab), []).append(note.heard.cents)
    for tab, values in cents.items():
        middle = sorted(values)[len(values) // 2]
        if abs(middle) >= _CENTS_OFF:
            yield f"{tab} sits {abs(middle):.0f} cents {'sharp' if middle > 0 else 'flat'}"


def harps_table(layouts: Sequence[Layout]) -> Iterator[str]:
    """The harps that can play what was heard, best first."""
    from formsheet.report.tab import layouts_table

    yield "harps that can play it:"
    yield from layouts_table(layouts[:_MOST_LAYOUTS])
