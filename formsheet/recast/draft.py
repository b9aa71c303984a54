"""A first draft of a whole tune from one lick: the lick, its recasts and a turnaround."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from formsheet.lesson.model import BarsPlaced, Every, Facts, Kind, Lesson, Lick, Placed, Play
from formsheet.listing import runs
from formsheet.music.form import Form, FormBar
from formsheet.music.key import Key
from formsheet.music.tab import Tab
from formsheet.recast.character import character
from formsheet.recast.chosen import Way, easiest, near
from formsheet.recast.cover import Stretch, beginning, cover, ends
from formsheet.recast.naming import recast_name, recast_title, stem
from formsheet.recast.offered import AsItIs, offers
from formsheet.recast.target import asked_bars
from formsheet.recast.trial import Tried, tried_recasts
from formsheet.tune.place import meets

_TURNAROUND_BARS = 2


@dataclass(frozen=True)
class Part:
    """A lick of the draft."""

    lick: Lick
    tried: Tried | None  # how it was recast; None for the original
    stretches: tuple[Stretch, ...]
    as_it_is: AsItIs | None = None  # the original, where it may stay instead


@dataclass(frozen=True)
class Draft:
    """A tune made from one lick."""

    facts: Facts
    key: Key
    parts: tuple[Part, ...]  # in the order in which they are first played; the turnaround last
    plays: tuple[Play, ...]

    @property
    def lesson(self) -> Lesson:
        """The draft as a lesson."""
        licks = {part.lick.name: part.lick for part in self.parts}
        assert self.facts.form
        span = self.parts[0].lick.span
        return Lesson(self.facts, self.facts.form, self.key, licks, self.plays, span)


def draft(
    lick: Lick, facts: Facts, form: Form, key: Key, turnaround: Lick | None, overbends: bool
) -> Draft:
    """A tune over the form; its last bars are the turnaround, given or made from the lick."""
    facts = facts._replace(form=form)
    length = len(turnaround.bars) if turnaround else min(_TURNAROUND_BARS, len(form.bars))
    body, tail = form.bars[: len(form.bars) - length], form.bars[len(form.bars) - length :]
    stretches: dict[tuple[FormBar, ...], list[Stretch]] = {}
    for stretch in cover(body, len(lick.bars)):
        stretches.setdefault(stretch.chords, []).append(stretch)
    ways: list[list[Way]] = []
    for chords in stretches:
        taken = {each[0].lick.name for each in ways} | {lick.name}
        ways.append(_on(beginning(lick, len(chords)), lick, chords, facts, key, taken, overbends))
    last = Stretch(len(body), tail)
    if turnaround:
        ways.append([Way(turnaround, None)])
    else:
        ways.append(_made_turnarounds(lick, last, facts, key, overbends))
    places = [*stretches.values(), [last]]
    order = [at for _, at in sorted((s.first, at) for at, each in enumerate(places) for s in each)]
    chosen = zip(easiest(ways, order, facts.meter.bar), places, strict=True)
    parts = _joined([Part(way.lick, way.tried, tuple(each), way.as_it_is) for way, each in chosen])
    return Draft(facts, key, tuple(parts), (_play(parts, lick),))


def _joined(parts: Sequence[Part]) -> list[Part]:
    """The parts, with those that are one lick left as it is made one, its `on` for all of them."""
    found: dict[str, Part] = {}
    for part in parts:
        before = found.get(part.lick.name)
        if before:
            on = tuple(
                tuple(tuple(dict.fromkeys((*a, *b))) for a, b in zip(*bars, strict=True))
                for bars in zip(before.lick.on, part.lick.on, strict=True)
            )
            stretches = (*before.stretches, *part.stretches)
            part = Part(before.lick._replace(on=on), None, stretches)
        found[part.lick.name] = part
    return list(found.values())


def _on(
    part: Lick, whole: Lick, chords: Sequence[FormBar], facts: Facts, key: Key,
    taken: set[str], overbends: bool,
) -> list[Way]:  # fmt: skip
    """The lick on some chords: the original if it is written for them, else recasts.

    The original too where it may stay and no recast is good.
    """
    first = [tuple(alternatives[:1] for alternatives in bar) for bar in part.on]
    if part == whole and all(map(meets, chords, first)):
        return [Way(whole, None)]
    name = recast_name(whole.name, chords, taken)
    title = recast_title(whole.name, whole.title, chords, name)
    pickup = () if part.pickup_once else part.pickup  # the tune begins with the lick itself
    home = character(part._replace(pickup=pickup), facts, key, {})
    new = part._replace(name=name, title=title, tips=(), pickup=pickup)
    found = offers(home, new, chords, {}, overbends)
    way = found.as_it_is if part == whole and found.as_it_is.first else None
    if way and way.on and not found.good:
        return [Way(whole._replace(on=way.on), None)]
    return near([Way(each.recast.lick, each, way) for each in found.good or found.recasts])


def _made_turnarounds(
    lick: Lick, last: Stretch, facts: Facts, key: Key, overbends: bool
) -> list[Way]:
    """Turnarounds made of the first and last bar of the lick, ending on a root."""
    name = f"{stem(lick.name)}-home"
    part = ends(lick)._replace(pickup=())
    new = part._replace(name=name, title=f"{lick.title}, home")
    home = character(part, facts, key, {})
    tried = tried_recasts(home, new, last.chords[-2:], {}, overbends)
    return near(
        [Way(_on_root(each.recast.lick, last.chords[-1], facts, key), each) for each in tried]
    )


def _on_root(lick: Lick, bar: FormBar, facts: Facts, key: Key) -> Lick:
    """The lick with a root of its last chord as its last note."""
    root = (key.pitch_class + bar[-1].root) % 12
    struck = [mark.tab for marks in lick.bars for mark in marks if mark.tab]
    marks = list(lick.bars[-1])
    at = max((i for i, mark in enumerate(marks) if mark.kind is Kind.NOTE), default=None)
    if at is None:
        return lick
    pitches = facts.harp.pitches(struck[-1])
    if any(midi % 12 == root for midi in pitches):
        return lick
    # The root nearest to the last note or, if that is a block, to the note before it.
    near_to = pitches if len(pitches) == 1 or len(struck) == 1 else facts.harp.pitches(struck[-2])

    def distance(pair: tuple[Tab, int]) -> tuple[int, int, int]:
        return pair[0].bend, abs(pair[1] - near_to[-1]), pair[0].holes[0]

    roots = [pair for pair in facts.harp.single_notes() if pair[1] % 12 == root]
    if roots:
        marks[at] = marks[at]._replace(tab=min(roots, key=distance)[0])
    return lick._replace(bars=(*lick.bars[:-1], tuple(marks)))


# ---- Play ----------------------------------------------------------------------------------


def _play(parts: Sequence[Part], lick: Lick) -> Play:
    """`every` lines where one lick has all bars of a chord, else `bars` lines."""
    span = lick.span
    every: list[Every] = []
    bars: list[BarsPlaced] = []
    for part in parts[:-1]:
        placed = Placed(part.lick.name, False, None, span)
        chords = set(part.stretches[0].chords)
        if len(chords) == 1 and _alone(part, parts):
            every.append(Every(asked_bars([*chords])[0], (placed,), span))
            continue
        numbers = sorted(
            bar + stretch.first + 1
            for stretch in part.stretches
            for bar in range(len(stretch.chords))
        )
        bars += [_bars(run, placed) for run in runs(numbers)]
    tail = parts[-1].stretches[0]
    numbers = [tail.first + 1 + bar for bar in range(len(tail.chords))]
    bars.sort(key=lambda each: each.first)
    bars.append(_bars(numbers, Placed(parts[-1].lick.name, False, None, span)))
    return Play("", 1, tuple(every), tuple(bars), span)


def _alone(part: Part, parts: Sequence[Part]) -> bool:
    """Whether no other lick, except the turnaround, is played on its degree."""
    (bar,) = set(part.stretches[0].chords)
    others = (
        other
        for each in parts[:-1]
        if each is not part
        for stretch in each.stretches
        for other in stretch.chords
    )
    return all([c.root for c in other] != [c.root for c in bar] for other in others)


def _bars(numbers: Sequence[int], placed: Placed) -> BarsPlaced:
    return BarsPlaced(numbers[0], numbers[-1], (placed,), False, placed.span)
