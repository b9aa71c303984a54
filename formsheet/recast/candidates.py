"""The candidates for recasting a lick: in each octave, faithful and with fewer bends.

Others keep what the lick lives by, see `character.py`: its draw and blow, or its note.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise

from formsheet.arrange.choices import Choice
from formsheet.arrange.cost import Cost, strain
from formsheet.arrange.fallbacks import Kept
from formsheet.arrange.search import Step, best_line
from formsheet.judge.effort import FIRST_BEND, FURTHER_BEND, NEW_NOTE
from formsheet.judge.level import LIMITS
from formsheet.judge.verdicts import Verdict, verdict_on
from formsheet.lesson.model import Facts, Kind, Lick, LickBar
from formsheet.music.form import FormBar
from formsheet.music.tab import Tab
from formsheet.recast.character import Character
from formsheet.recast.options import at_its_pitch, eased, on_breath, options
from formsheet.recast.target import Wanted, as_line, asked_bars, plans, wanted_line

# Cost of a move in another direction than in the lick: level, or the opposite direction.
_LEVELLED, _TURNED = 1, 3
#: Cost of one of these in bends, in lines that may trade it for a nearer note.
OFF_CONTOUR = 6
#: Cost in bends of a move more than a tritone wider or narrower than in the lick: the line breaks.
OFF_SIZE = 6
_A_TRITONE = 6
#: Half steps by which a move may be wider or narrower than in the lick without any cost; from there
#: on every second one costs a bend.
LOOSE = 3
#: Half steps that a line may move without any cost where the chord changes.
NEAR_CHANGE = 4
#: Cost in bends of a hole by which the mouth moves more, or less, from chord to chord.
HOLE_MOVED = 2


@dataclass(frozen=True)
class Recast:
    """A lick on other chords."""

    lick: Lick  # with its new tab, written on the new chords
    chords: tuple[FormBar, ...]
    shift: int  # semitones by which the root under its first note moves
    wanted: tuple[Wanted, ...]
    choices: tuple[Choice, ...]  # one for each of `wanted`
    contour: int  # 0: every move goes in the direction it has in the lick
    moved: int  # number of moves that do not
    torn: int  # number of moves more than a tritone off their size in the lick
    stretched: int  # cost in bends of moves that are wider or narrower than in the lick

    @property
    def replaced(self) -> list[tuple[int, Wanted, Choice]]:
        """The sounds that were replaced, by index, with their replacements."""
        pairs = enumerate(zip(self.wanted, self.choices, strict=True))
        return [(at, *pair) for at, pair in pairs if pair[1].kept is not Kept.EXACT]

    @property
    def away(self) -> int:
        """The distance of all replacements from the wanted sounds, in bends; of one chord once."""
        chords = {}
        notes = 0
        for wanted, choice in zip(self.wanted, self.choices, strict=True):
            if wanted.many:
                chords[wanted.midi, choice.tab] = choice.cost.replaced
            else:
                notes += choice.cost.replaced
        return notes + sum(chords.values())

    @property
    def unlike(self) -> int:
        """How many sounds that come again over the same chord in the lick do not in the recast."""
        found: dict[object, set[Tab]] = {}
        for wanted, choice in zip(self.wanted, self.choices, strict=True):
            found.setdefault((wanted.mark.tab, wanted.new, wanted.midi), set()).add(choice.tab)
        return sum(len(tabs) - 1 for tabs in found.values())

    @property
    def bends(self) -> int:
        """The number of its bent or overbent notes."""
        return sum(bool(choice.tab.bend or choice.tab.overbend) for choice in self.choices)


Ways = Sequence[tuple[Choice, ...]]  # for each sound, all that may be played for it


def recasts(
    home: Character, new: Lick, chords: Sequence[FormBar], overbends: bool = False
) -> list[Recast]:
    """All different candidates under the name of `new`, unsorted."""
    lick, facts, key = home.lick, home.facts, home.key
    overbends = overbends or any(tab.overbend for tab in home.tabs)  # if the lick itself has one
    found: dict[tuple[str, ...], Recast] = {}
    for plan in plans(lick, chords):
        wanted = wanted_line(lick, chords, facts, key, plan)
        shift = next(iter(plan.values()))
        pairs = zip(wanted, home.stays, strict=True)
        ways = [options(each, key, facts.harp, overbends, stays) for each, stays in pairs]
        for line in _lines(home, wanted, ways):
            each = recast_of(new, chords, shift, wanted, line)
            same = tuple(str(choice.tab) for choice in each.choices)
            found[same] = min(found.get(same, each), each, key=lambda way: way.away)
    return list(found.values())


def _lines(home: Character, wanted: Sequence[Wanted], ways: Ways) -> Iterator[Sequence[Choice]]:
    """The best lines: faithful, easy, within the level, with the note or the breath kept."""
    first = _best(wanted, ways)
    yield first
    if _gives_way(first, ways):
        yield _best(wanted, ways, strict=False)
    deepest = LIMITS[home.facts.level].deepest_bend
    taught = [tuple(each for each in way if each.tab.bend <= deepest) for way in ways]
    kinds = [ways]
    if all(taught) and taught != ways:
        kinds.append(taught)
    if home.made_by:
        kinds.append(_with_note(home, wanted, ways))
    for kind in kinds:
        yield from _easy(home, wanted, kind)
        if kind is not ways and all(kind):
            yield _best(wanted, kind)
    for kind in _with_breath(home, wanted, ways):
        if all(kind):
            yield _best(wanted, kind, strict=False)


def _easy(home: Character, wanted: Sequence[Wanted], ways: Ways) -> Iterator[Sequence[Choice]]:
    """Lines in which a replacement is cheap if it saves bends, those in a hurry above all."""
    if not all(ways):
        return
    easy = [
        tuple(_eased(home, each, choice, stays) for choice in way)
        for each, stays, way in zip(wanted, home.stays, ways, strict=True)
    ]
    for strict in (True, False):
        line = _best(wanted, easy, strict, easy=True)
        yield [
            next(choice for choice in way if choice.tab == each.tab)
            for way, each in zip(ways, line, strict=True)
        ]


def _eased(home: Character, wanted: Wanted, choice: Choice, stays: bool) -> Choice:
    hurry = hurried(choice.tab, wanted.sound.gap, home.facts)
    avoided = stays and verdict_on(choice.midi, wanted.new, home.key) is Verdict.AVOID
    return eased(choice, hurry, avoided)


def _with_note(home: Character, wanted: Sequence[Wanted], ways: Ways) -> Ways:
    """Only what keeps the note that makes the lick, where it must be kept."""
    kept = list(ways)
    for at in home.made_by.places if home.made_by else ():
        chord, harp = wanted[at].new, home.facts.harp
        found = {each.tab: each for each in (*at_its_pitch(wanted[at], harp), *ways[at])}
        kept[at] = tuple(each for each in found.values() if home.keeps_note(at, each.midi, chord))
    return kept


def _with_breath(home: Character, wanted: Sequence[Wanted], ways: Ways) -> Iterator[Ways]:
    """Only what keeps the draw and blow by which a lick lives, as they are or changed about."""
    if home.breath is None:
        return
    harp, breaths = home.facts.harp, home.breath.breaths
    for swapped in (False, True):
        kept = []
        for each, way, breath in zip(wanted, ways, breaths, strict=False):
            asked = breath.other if swapped else breath
            found = {}
            if home.breath.turns:
                found = {way.tab: way for way in on_breath(each, home.key, harp, asked)}
            if not (home.breath.turns and each.many):
                found |= {choice.tab: choice for choice in way if choice.tab.breath is asked}
            kept.append(tuple(found.values()))
        yield [*kept, *ways[len(kept) :]]


def hurried(tab: Tab, gap: Fraction, facts: Facts) -> bool:
    """Whether there is less time before a bend than it takes at ease; `gap` is in quarters."""
    if not tab.bend or not gap:
        return False
    needs = NEW_NOTE + FIRST_BEND + FURTHER_BEND * (tab.bend - 1)
    return seconds(gap, facts) < needs


def seconds(quarters: Fraction, facts: Facts) -> float:
    """How long a time in quarters lasts at the tempo of the lesson."""
    return float(quarters / facts.meter.beat) * 60 / float(facts.tempo)


def recast_of(
    lick: Lick, chords: Sequence[FormBar], shift: int, wanted: tuple[Wanted, ...],
    line: Sequence[Choice],
) -> Recast:  # fmt: skip
    """A lick on other chords with the sounds of a line, and how well it keeps to the lick's own."""
    found = tuple(line)
    new = _with_tabs(lick, found)._replace(on=asked_bars(chords))
    moves = [(index, *pair) for index, pair in enumerate(pairwise(found), start=1)]
    off = [_off_contour(wanted, *each) for each in moves]
    return Recast(
        lick=new,
        chords=tuple(chords),
        shift=shift,
        wanted=wanted,
        choices=found,
        contour=sum(off),
        moved=sum(map(bool, off)),
        torn=sum(_torn(wanted, *each) for each in moves),
        stretched=sum(_stretched(wanted, *each) for each in moves),
    )


def _best(
    wanted: Sequence[Wanted], ways: Ways, strict: bool = True, easy: bool = False
) -> Sequence[Choice]:
    return best_line(as_line(wanted), ways, _moves(wanted, strict, easy))[1]


def _gives_way(line: Sequence[Choice], ways: Ways) -> bool:
    """Whether a note that the harp has without a bend was replaced to keep the contour."""
    return any(
        here.kept is not Kept.EXACT
        and any(choice.kept is Kept.EXACT and not choice.cost.burden for choice in way)
        for here, way in zip(line, ways, strict=True)
    )


def _moves(wanted: Sequence[Wanted], strict: bool, easy: bool) -> Step:
    """The cost of a move by its direction and size, compared with the lick.

    A strict line keeps the direction wherever it can; another trades it for a note nearer to the
    wanted one. In an `easy` line all costs are weighed in one sum, see `options.eased`.
    """

    def step(index: int, last: Choice, here: Choice) -> Cost:
        off = _off_contour(wanted, index, last, here)
        changed = (
            OFF_CONTOUR * off
            + OFF_SIZE * _torn(wanted, index, last, here)
            + _stretched(wanted, index, last, here)
        )
        return Cost(
            missing=off if strict else 0,
            replaced=0 if easy else changed,
            burden=changed if easy else 0,
            strain=strain(last.tab, here.tab, wanted[index].sound.gap),
        )

    return step


def _off_contour(wanted: Sequence[Wanted], index: int, last: Choice, here: Choice) -> int:
    """The cost of a move to a sound in another direction than in the lick."""
    first, second = wanted[index - 1], wanted[index]
    asked = _direction(first.sound.midi, second.sound.midi)
    played = _direction(last.midi, here.midi)
    if asked == played or _changes(first, second):
        return 0  # the line moves with a change of chord
    if first.many is not second.many or (first.many and not played):
        return 0  # a chord beside the melody may be anywhere, and a chord may be repeated
    return _TURNED if asked * played < 0 else _LEVELLED


def _torn(wanted: Sequence[Wanted], index: int, last: Choice, here: Choice) -> bool:
    """Whether a move between single notes is more than a tritone wider or narrower."""
    return _off_size(wanted, index, last, here) > _A_TRITONE


def _stretched(wanted: Sequence[Wanted], index: int, last: Choice, here: Choice) -> int:
    """The cost in bends of a move that is wider or narrower than in the lick.

    Between chords by holes, for the mouth stays where it is in a chug; where the chord changes in
    another way than in the lick, only a leap counts that is wider.
    """
    first, second = wanted[index - 1], wanted[index]
    if first.many and second.many:
        assert first.mark.tab
        assert second.mark.tab
        old = second.mark.tab.holes[0] - first.mark.tab.holes[0]
        return HOLE_MOVED * abs(abs(here.tab.holes[0] - last.tab.holes[0]) - abs(old))
    if first.many or second.many:
        return 0
    if _changes(first, second):
        old = abs(second.sound.midi[0] - first.sound.midi[0])
        return max(0, abs(here.midi[-1] - last.midi[-1]) - max(old, NEAR_CHANGE)) // 2
    return max(0, _off_size(wanted, index, last, here) - LOOSE) // 2


def _off_size(wanted: Sequence[Wanted], index: int, last: Choice, here: Choice) -> int:
    """By how many half steps the size of a move between single notes is off that in the lick.

    Chords beside the melody may be anywhere, and a line moves with a change of chord.
    """
    first, second = wanted[index - 1], wanted[index]
    if first.many or second.many or _changes(first, second):
        return 0
    asked = second.sound.midi[0] - first.sound.midi[0]
    return abs(here.midi[-1] - last.midi[-1] - asked)


def _changes(first: Wanted, second: Wanted) -> bool:
    """Whether the chord changes between two sounds in another way than in the lick."""
    before = (second.old.root - first.old.root) % 12
    return (second.new.root - first.new.root) % 12 != before


def _direction(first: Sequence[int], second: Sequence[int]) -> int:
    """Direction of the top notes: 1 up, -1 down, 0 level."""
    return (second[-1] > first[-1]) - (second[-1] < first[-1])


def _with_tabs(lick: Lick, choices: Sequence[Choice]) -> Lick:
    tabs = iter(choices)

    def tabbed(bar: LickBar) -> LickBar:
        return tuple(
            mark._replace(tab=next(tabs).tab) if mark.kind is Kind.NOTE else mark for mark in bar
        )

    pickup = tabbed(lick.pickup)
    return lick._replace(pickup=pickup, bars=tuple(map(tabbed, lick.bars)))
