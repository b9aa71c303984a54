"""A last chorus that ends on I: `last time ending I`, and what is then played over it.

The turnaround is written for V, so that a last time on I needs something else there. In this order:
what the play places anyway; the same lick, its `on` made to allow I; a lick of the lesson on I that
ends at home and draws no warning, in place of the turnaround. The first of them that ends on the
key note is taken, and if none does, the first that comes home. Each is tried: it brings no error
and no finding that is not there already. Where something else is said of the last note over V, the
same lick is not tried: the two pieces of advice would not go together. Our own choice.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from functools import cached_property
from itertools import islice
from typing import NamedTuple

from formsheet.judge.ending import above_root, comes_home
from formsheet.judge.findings import reported
from formsheet.judge.fit import Heard, judge_fit
from formsheet.judge.offers import singles_for
from formsheet.lesson.asked import lick_asked_words
from formsheet.lesson.model import AskedBar, BarsPlaced, Lesson, Lick, Placed, Play
from formsheet.music.chord import Chord, parse_chord
from formsheet.music.form import Bars, FormBar, ending_text
from formsheet.problems import kinds
from formsheet.problems.edits import line_below, together
from formsheet.problems.words import code
from formsheet.source import Span
from formsheet.tune.assemble import assemble
from formsheet.tune.place import meets, range_words
from formsheet.tune.timeline import Tune, same_lick

#: Limit for the notes of the tunes that are tried, all together: dozens of ways for a tune of three
#: choruses, and about a second of work. Our own choice.
MOST_TRIED = 12_000
_HOME = 0  # semitones above the key note

_Change = tuple[Span, str]  # in the file: a text in place of the span


class _Way(NamedTuple):
    """One way to end on I."""

    lesson: Lesson
    words: str
    changes: Sequence[_Change]
    order: int  # smaller is better, of those that do not end on the key note


def home_chord(lesson: Lesson) -> Chord:
    """The chord on I of a lesson's form; a plain one if it has none."""
    own = (chord for chord in lesson.chords if chord.root == _HOME)
    return next(own, parse_chord(_numeral(lesson)))


def _numeral(lesson: Lesson) -> str:
    return "i" if lesson.form.minor else "I"


def on_home(tune: Tune, mends: Callable[[Tune], bool], *, same_lick: bool = True) -> kinds.LastTime:
    """What to write for a last chorus on I, with the edit if it `mends` the tune.

    `same_lick`: the lick that is there may be written for I too.
    """
    last = _LastRound(tune, same_lick)
    found: list[_Way] = []
    for way in islice(last.ways(), MOST_TRIED // len(tune.notes)):
        changed, _ = assemble(way.lesson)
        if changed is None or not mends(changed):
            continue
        if _ends_on_key_note(changed):
            return kinds.LastTime(way.words, together(way.changes))
        found.append(way)
    if found:
        way = min(found, key=lambda each: each.order)
        return kinds.LastTime(way.words, together(way.changes))
    return kinds.LastTime(last.in_words(), None)


def _ends_on_key_note(tune: Tune) -> bool:
    last = tune.notes[-1].midi if tune.notes else ()
    return any(midi % 12 == tune.lesson.key.pitch_class for midi in last)


class _LastRound:
    """The round of the lick in the last bars of a tune, and what may be played in its place."""

    def __init__(self, tune: Tune, may_stay: bool) -> None:
        self.tune = tune
        self.may_stay = may_stay  # the lick that is there
        self.lesson = tune.lesson
        self.play = tune.lesson.plays[-1]
        self.chorus = [tune.bars[index] for index in tune.choruses[-1].bars]
        self.slot = self.chorus[-1].slot
        first = len(self.chorus) - 1 - self.slot.bar_in_lick
        same = (self.slot.span, self.slot.round)
        self.bars = [bar for bar in self.chorus[first:] if (bar.slot.span, bar.slot.round) == same]
        self.home = parse_chord(_numeral(self.lesson))

    @cached_property
    def _faulty(self) -> set[str]:
        """The names of the licks that draw warnings."""
        found = (each for each in reported(judge_fit(self.tune)) if each.heard is Heard.CLASHES)
        return {self.tune.lick_of(each.fit.note) for each in found}

    def in_words(self) -> str:
        """What to write where no edit has been found."""
        where = range_words(self.bars[0].number, self.bars[-1].number)
        ending, line = code(f"last time ending {self.home}"), code(f"last time {where}")
        on = self._key_note() or "the key note"
        return f"write {ending} and, in {line}, a lick on {self.home} that ends on {on}"

    def _key_note(self) -> str:
        """The tab of the key note that is nearest to the last note: "`2d` (G)"."""
        key, last = self.lesson.key, self.tune.notes[-1].midi[-1]
        found = [
            (abs(midi - last), tab.bend, str(tab))
            for tab, midi in singles_for(self.lesson)
            if midi % 12 == key.pitch_class
        ]
        return f"{code(min(found)[-1])} ({key.tonic})" if found else ""

    def ways(self) -> Iterator[_Way]:
        """The ways to end on I, in the order in which they are tried."""
        endings = [(*self.play.last_ending[:-1], (self.home,))]
        if len(self.bars) > 1 and len(self.chorus[-2].chords) > 1:
            endings.append(((self.home,), (self.home,)))
        for ending in endings:
            yield from self._with_ending(ending)

    def _with_ending(self, ending: Bars) -> Iterator[_Way]:
        play = self.play._replace(last_ending=ending)
        bars = play.form(self.lesson.form, last_time=True).bars
        chords = bars[self.bars[0].number - 1 : self.bars[-1].number]
        line = f"last time ending {ending_text(ending)}"
        yield _Way(self._playing(play), f"write {code(line)}", self._changes(ending), 0)
        if self.may_stay:
            yield from self._same_lick(play, chords, line)
        yield from self._other_licks(play, line)

    def _playing(self, play: Play) -> Lesson:
        """The lesson with another last play."""
        return self.lesson._replace(plays=(*self.lesson.plays[:-1], play))

    def _changes(self, ending: Bars, *lines: str) -> list[_Change]:
        """The changes that write the ending of the last time and add lines to the play."""
        text, play = ending_text(ending), self.play
        filled = [line.placed for line in play.every] + [line.placed for line in play.bars]
        spans = [placed[-1].span for placed in filled if placed]
        changes = []
        if play.last_ending_span:
            spans.append(play.last_ending_span)
            changes.append((play.last_ending_span, text))
        else:
            lines = (*lines, f"last time ending {text}")
        end = max((play.span, *spans), key=lambda span: span.end)
        added = [line_below(end, line) for line in lines]
        if added:
            changes.append((added[0].span, "".join(edit.text for edit in added)))
        return changes

    def _same_lick(self, play: Play, chords: Bars, line: str) -> Iterator[_Way]:
        """The lick that is there, with I in its `on`: for V, or beside it if it needs both."""
        lick = self.slot.lick
        if lick is None or lick.on_span.source is not play.span.source:
            return
        if len(self.bars) < len(lick.bars):
            return
        own = sum(same_lick(bar, self.chorus[-1]) for bar in self.tune.bars) == len(self.bars)
        on = [self._asked(asked, chord, own) for asked, chord in zip(lick.on, chords, strict=True)]
        changed = lick._replace(on=tuple(on))
        if changed.on == lick.on:
            return
        licks = {**self.lesson.licks, lick.name: changed}
        lesson = self._playing(play)._replace(licks=licks)
        asked, name = lick_asked_words(changed), code(lick.name)
        words = f"write {code(line)}, and {code(f'on {asked}')} in the first line of {name}"
        yield _Way(lesson, words, [*self._changes(play.last_ending), (lick.on_span, asked)], 2)

    def _asked(self, asked: AskedBar, chords: FormBar, own: bool) -> AskedBar:
        """What a bar of a lick is to be written for; `own`: the lick is played nowhere else."""
        if meets(chords, asked):
            return asked
        if own:
            return tuple((self.home,) for _ in chords)
        return ((*asked[0], self.home),) if len(asked) == len(chords) == 1 else asked

    def _other_licks(self, play: Play, line: str) -> Iterator[_Way]:
        """Licks on I in place of the one that is there: those first that end on the key note."""
        chords = play.form(self.lesson.form, last_time=True).bars
        at = next((at for at, each in enumerate(play.bars) if self._is_here(each)), None)
        if at is None:
            yield from self._in_own_line(play, chords, line)
        else:
            yield from self._in_line(play, at, chords, line)

    def _in_own_line(self, play: Play, chords: Bars, line: str) -> Iterator[_Way]:
        """Other licks, in a line of the last time's own."""
        first, last = self.bars[0].number, self.bars[-1].number
        for name, _ in self._fitting(chords[first - 1 : last]):
            placed = Placed(name, False, None, play.span)
            bars = (*play.bars, BarsPlaced(first, last, (placed,), True, play.span))
            own = f"last time {range_words(first, last)} {name}"
            words = f"write {code(line)} and {code(own)}"
            changes = self._changes(play.last_ending, own)
            yield _Way(self._playing(play._replace(bars=bars)), words, changes, 1)

    def _in_line(self, play: Play, at: int, chords: Bars, line: str) -> Iterator[_Way]:
        """Other licks, in the line of the last time that places the last bars already."""
        own, here = play.bars[at], self.slot
        length = len(here.lick.bars) if here.lick else 1
        alone = len(own.placed) == 1
        first = own.first if alone else own.last + 1 - here.rounds * length
        for name, count in self._fitting(chords[first - 1 : own.last]):
            placed = Placed(name, False, None if alone else count, here.span)
            written = name if alone else f"{name} x{count}"
            after = own._replace(placed=(*own.placed[:-1], placed))
            bars = (*play.bars[:at], after, *play.bars[at + 1 :])
            words = f"write {code(line)}, and {code(written)} in place of {code(here.span.text)}"
            changes = [*self._changes(play.last_ending), (here.span, written)]
            yield _Way(self._playing(play._replace(bars=bars)), words, changes, 1)

    def _is_here(self, line: BarsPlaced) -> bool:
        """Whether a line places the last bar, and in the last time alone."""
        return line.last_time and any(each.span == self.slot.span for each in line.placed)

    def _fitting(self, chords: Bars) -> list[tuple[str, int]]:
        """Licks that are written for these chords, fill them and end at home, the best first.

        Each with the number of rounds that it needs.
        """
        found, here = [], self.slot.lick and self.slot.lick.name
        for name, lick in self.lesson.licks.items():
            count, left = divmod(len(chords), len(lick.bars))
            if (
                left
                or name in (here, *self._faulty)
                or not all(map(meets, chords, lick.on * count))
            ):
                continue
            midi = self._last_note(lick)
            if comes_home(above_root(self.tune, midi, self.home), self.home):
                root = any(each % 12 == self.lesson.key.pitch_class for each in midi)
                found.append((not root, len(midi) > 1, not lick.turnaround, count, name))
        return [(name, count) for *_, count, name in sorted(found, key=lambda each: each[:4])]

    def _last_note(self, lick: Lick) -> tuple[int, ...]:
        """The MIDI numbers of a lick's last note; none if it has no note."""
        marks = (mark for bar in reversed(lick.bars) for mark in reversed(bar))
        tab = next((mark.tab for mark in marks if mark.tab), None)
        return self.lesson.facts.harp.pitches(tab) if tab else ()
