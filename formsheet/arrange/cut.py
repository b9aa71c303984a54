"""A melody over a form, cut into licks: one for each chord, repeats found.

The chorus is cut where the chord changes, and before the last two bars, which are the turnaround;
never before a note that is held over the bar line. Where the source says where its licks begin
(`Melody.sections`), it is cut there. What comes again is one lick.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field

from formsheet.arrange.chorus import Choruses
from formsheet.arrange.melody import (
    asked,
    joined,
    melody_facts,
    melody_marks,
)
from formsheet.arrange.rank import Layout
from formsheet.language.made import NOWHERE
from formsheet.lesson.model import (
    BarsPlaced,
    Kind,
    Lesson,
    Lick,
    LickBar,
    LickMark,
    Placed,
    Play,
    default_title,
)
from formsheet.music.form import Bars, FormBar
from formsheet.music.key import Key
from formsheet.music.rhythm import Meter
from formsheet.notes.melody import Melody
from formsheet.notes.values import rest_pieces

_TURNAROUND = 2  # bars
_SHORTEST_WITH_TURNAROUND = 8

Shape = tuple[tuple[LickBar, ...], tuple[int, ...], bool]  # marks, chords a bar, turnaround


@dataclass
class _Cut:
    """A lick that was found, with all the chords that it is played over."""

    name: str
    title: str
    bars: tuple[LickBar, ...]
    over: list[tuple[FormBar, ...]] = field(default_factory=list)
    turnaround: bool = False
    pickup: LickBar = ()


def cut_lesson(melody: Melody, layout: Layout, key: Key, name: str, choruses: Choruses) -> Lesson:
    """The melody as a lesson over a form, cut into licks."""
    pickup, bars = melody_marks(melody, layout.arranged.laid[0])
    length = len(choruses.form.bars)
    total = length * len(choruses.endings)
    bars += [_silence(melody.meter)] * (total - len(bars))
    for begin in range(length, total, length):
        bars[begin] = _struck(bars[begin], bars[begin - 1])
    cutter = _Cutter(melody, name)
    plays: list[Play] = []
    for number, ending in enumerate(choruses.endings):
        begin = number * length
        form = Play("", 1, (), (), NOWHERE, ending=ending).form(choruses.form, False)
        placed = cutter.chorus(
            bars[begin : begin + length], form.bars, cutter.signs(begin, length),
            pickup if not number else (),
        )  # fmt: skip
        play = Play("", 1, (), tuple(placed), NOWHERE, ending=ending)
        if plays and plays[-1]._replace(times=1) == play:
            plays[-1] = plays[-1]._replace(times=plays[-1].times + 1)
        else:
            plays.append(play)
    return Lesson(
        facts=melody_facts(melody, layout, choruses.form),
        form=choruses.form,
        key=key,
        licks=cutter.licks(),
        plays=tuple(plays),
        end=NOWHERE,
    )


def _silence(meter: Meter) -> LickBar:
    """A bar of rest."""
    return tuple(
        LickMark(Kind.REST, piece.onset, piece.value, NOWHERE) for piece in rest_pieces(meter)
    )


def _struck(bar: LickBar, before: LickBar) -> LickBar:
    """A bar that begins a chorus: a note held over from the last one is struck again."""
    tabs = [mark.tab for mark in before if mark.tab]
    if not _held(bar) or not tabs:
        return bar
    return (bar[0]._replace(kind=Kind.NOTE, tab=tabs[-1]), *bar[1:])


class _Cutter:
    def __init__(self, melody: Melody, name: str) -> None:
        self._name = name
        self._swings = melody.feel.swings
        bar = melody.meter.bar
        self._sections = {int(each.start // bar): each for each in melody.sections}
        # A title stands beside its sign the first time only.
        self._titles = {each.sign: each.title for each in melody.sections if each.title}
        self._found: dict[Shape, _Cut] = {}
        self._names: set[str] = set()

    def signs(self, begin: int, length: int) -> dict[int, tuple[str, str]]:
        """The signs of the source in a chorus: bar of the chorus -> sign and title."""
        return {
            at - begin: (each.sign, self._titles.get(each.sign, ""))
            for at, each in self._sections.items()
            if begin <= at < begin + length
        }

    def licks(self) -> dict[str, Lick]:
        """The licks, in the order in which they are first played."""
        return {each.name: _lick(each) for each in self._found.values()}

    def chorus(
        self, bars: Sequence[LickBar], chords: Bars, signs: dict[int, tuple[str, str]],
        pickup: LickBar,
    ) -> Iterator[BarsPlaced]:  # fmt: skip
        """The lines of a chorus: which bars have which licks."""
        edges = _edges(bars, chords, set(signs) if self._sections else None)
        title = ""
        for begin, end in edges:
            title = signs.get(begin, ("", ""))[1]
            turnaround = (
                not self._sections
                and end == len(bars) >= _SHORTEST_WITH_TURNAROUND
                and end - begin <= _TURNAROUND
            )
            yield from self._segment(
                bars, chords, begin, end, title, turnaround, () if begin else pickup
            )

    def _segment(
        self, bars: Sequence[LickBar], chords: Bars, begin: int, end: int,
        title: str, turnaround: bool, pickup: LickBar,
    ) -> Iterator[BarsPlaced]:  # fmt: skip
        """The lines of some bars: a lick, how often it comes, and silent bars after it."""
        last = end
        while last > begin and _silent(bars[last - 1]):
            last -= 1
        if last == begin and pickup:
            last = begin + 1
        if last > begin:
            period = _period(bars[begin:last])
            marks = joined([pickup, *bars[begin : begin + period]], self._swings)
            over = [tuple(chords[at : at + period]) for at in range(begin, last, period)]
            for placed in self._placed(marks, over, title, turnaround):
                yield BarsPlaced(begin + 1, last, placed, False, NOWHERE)
        if last < end:
            silent = (Placed("rest", True, None, NOWHERE),)
            yield BarsPlaced(last + 1, end, silent, False, NOWHERE)

    def _placed(
        self, marks: Sequence[LickBar], over: Sequence[tuple[FormBar, ...]], title: str,
        turnaround: bool,
    ) -> Iterator[tuple[Placed, ...]]:  # fmt: skip
        bars = tuple(marks[1:])
        shapes = [tuple(len(bar) for bar in each) for each in over]
        names = []
        for shape, chords in zip(shapes, over, strict=True):
            key = (bars, shape, turnaround)
            cut = self._found.get(key)
            if cut is None:
                name = self._new_name(title, chords, turnaround)
                shown = title or default_title(name)
                cut = self._found[key] = _Cut(name, shown, bars, [], turnaround)
            cut.pickup = cut.pickup or marks[0]
            if chords not in cut.over:
                cut.over.append(chords)
            names.append(cut.name)
        if len(set(names)) == 1:
            times = len(names) if len(names) > 1 else None
            yield (Placed(names[0], False, times, NOWHERE),)
        else:
            yield tuple(Placed(name, False, None, NOWHERE) for name in names)

    def _new_name(self, title: str, chords: Sequence[FormBar], turnaround: bool) -> str:
        plain = _slug(title) or (
            f"{self._name}-home" if turnaround else f"{self._name}-{chords[0][0].word}"
        )
        name, number = plain, 2
        while name in self._names:
            name, number = f"{plain}-{number}", number + 1
        self._names.add(name)
        return name


def _edges(bars: Sequence[LickBar], chords: Bars, signs: set[int] | None) -> list[tuple[int, int]]:
    """Where a chorus is cut: the first bar of each part and the one after its last, from 0."""
    length = len(bars)
    cuts = {0}
    for at in range(1, length):
        wanted = (
            at in signs
            if signs is not None
            else chords[at] != chords[at - 1]
            or (at == length - _TURNAROUND and length >= _SHORTEST_WITH_TURNAROUND)
        )
        if signs is None and at == length - 1 and length >= _SHORTEST_WITH_TURNAROUND:
            wanted = False  # the last two bars stay together
        if wanted and not _held(bars[at]):
            cuts.add(at)
    starts = sorted(cuts)
    return list(zip(starts, [*starts[1:], length], strict=True))


def _held(bar: LickBar) -> bool:
    return bool(bar) and bar[0].kind is Kind.HOLD


def _silent(bar: LickBar) -> bool:
    return all(mark.kind is Kind.REST for mark in bar)


def _period(bars: Sequence[LickBar]) -> int:
    """The shortest part that, again and again, gives all the bars."""
    for period in range(1, len(bars) + 1):
        again = len(bars) % period == 0 and all(
            bar == bars[at % period] for at, bar in enumerate(bars)
        )
        if again and not _held(bars[0]):
            return period
    return len(bars)


def _lick(cut: _Cut) -> Lick:
    return Lick(
        name=cut.name,
        title=cut.title,
        turnaround=cut.turnaround,
        on=tuple(asked(*bars) for bars in zip(*cut.over, strict=True)),
        bars=cut.bars,
        span=NOWHERE,
        on_span=NOWHERE,
        pickup=cut.pickup,
        pickup_once=bool(cut.pickup),
    )


def _slug(title: str) -> str:
    """A title as the name of a lick; "" if nothing of it can stand in one."""
    words = "".join(each if each.isalnum() and each.isascii() else " " for each in title).split()
    name = "-".join(words).casefold()[:40].strip("-")
    return name if name and name[0].isalpha() and name != "rest" else ""
