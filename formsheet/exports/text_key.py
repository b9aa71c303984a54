"""The key of the text tab: a line for each kind of sign that occurs in the tune."""

from __future__ import annotations

import textwrap
from collections.abc import Callable, Iterator

from formsheet.cells import cells, filled
from formsheet.exports.columns import BETWEEN, HOLD, REST, columns
from formsheet.listing import listed
from formsheet.music.counting import COMPOUND, HALVES, SIXTEENTHS, TRIPLET
from formsheet.music.steps import step_words
from formsheet.music.tab import Breath, Shape, Tab
from formsheet.music.tunings import HOLES
from formsheet.tune.lick_letters import LickLetters
from formsheet.tune.timeline import Tune


def key_lines(tune: Tune, width: int) -> list[str]:
    """The lines of the key, in the order in which a student meets the signs."""
    entries = [*_tab_entries(tune), *_time_entries(tune), *_word_entries(tune)]
    widest = max((cells(sign) for sign, _ in entries), default=0)
    return [
        line
        for sign, words in entries
        for line in textwrap.wrap(
            words, width, initial_indent=f"{filled(sign, widest)}  ",
            subsequent_indent=" " * (widest + 2), break_long_words=False,
        )
    ]  # fmt: skip


#: Kinds of tab in order: a test, and the words for the first example in the tune.
_TABS: tuple[tuple[Callable[[Tab], bool], Callable[[Tab], str]], ...] = (
    (lambda t: _plain(t) and t.breath is Breath.BLOW,
     lambda t: f"hole {t.holes[0]} blow: breathe out"),
    (lambda t: _plain(t) and t.breath is Breath.DRAW,
     lambda t: f"hole {t.holes[0]} draw: breathe in"),
    (lambda t: t.bend > 0, lambda t: _bent(t)),  # one for each depth
    (lambda t: t.overbend and t.breath is Breath.BLOW,
     lambda t: f"hole {t.holes[0]} overblow: it pops up above the draw note"),
    (lambda t: t.overbend and t.breath is Breath.DRAW,
     lambda t: f"hole {t.holes[0]} overdraw: it pops up above the blow note"),
    (lambda t: t.shape is Shape.BLOCK,
     lambda t: f"holes {_listed(t.holes)} together, {t.breath.word}"),
    (lambda t: t.shape is Shape.SPLIT,
     lambda t: f"holes {_listed(t.holes)}, {t.breath.word}; the tongue covers those between"),
    (lambda t: _plain(t) and t.holes[0] == HOLES, lambda t: f"hole {HOLES}"),
)  # fmt: skip


def _plain(tab: Tab) -> bool:
    return tab.shape is Shape.SINGLE and not tab.bend and not tab.overbend


def _bent(tab: Tab) -> str:
    return f"hole {tab.holes[0]} {tab.breath.word}, bent down {step_words(tab.bend)}"


def _listed(holes: tuple[int, ...]) -> str:
    return listed([str(hole) for hole in holes], "and")


def _tab_entries(tune: Tune) -> Iterator[tuple[str, str]]:
    shown: set[Tab] = set()
    tabs = list(dict.fromkeys(note.tab for note in tune.notes))
    for is_one, words in _TABS:
        by_depth: dict[int, Tab] = {}
        for tab in filter(is_one, tabs):
            by_depth.setdefault(tab.bend, tab)
        for _, tab in sorted(by_depth.items()):
            if tab not in shown:
                shown.add(tab)
                yield str(tab), words(tab)


def _time_entries(tune: Tune) -> Iterator[tuple[str, str]]:
    meter = tune.lesson.facts.meter
    found = [column for bar in tune.bars for column in columns(bar.marks, meter)]
    signs, counts = {column.tab for column in found}, {column.count for column in found}
    if HOLD in signs:
        yield HOLD, "the note sounds on; do not strike it again"
    if REST in signs:
        yield REST, "rest: be silent, and breathe"
    for words, sign, evidence in _COMPOUND_COUNTS if meter.compound else _COUNTS:
        if evidence & counts:
            yield sign, words


def _first_beat(division: tuple[str, ...]) -> str:
    """The counting words of the first beat of a bar with this division."""
    return " ".join(("1", *division[1:]))


#: Words, the count as written, and the counting words that show that it occurs.
_BETWEEN = ("between two counts", BETWEEN, {BETWEEN})
_COUNTS = (
    ("count two eighths to a beat", _first_beat(HALVES), {*HALVES[1:]}),
    ("count four sixteenths to a beat", _first_beat(SIXTEENTHS), {*SIXTEENTHS} - {*HALVES}),
    ("count a triplet: three in the time of two", _first_beat(TRIPLET), {*TRIPLET[1:]}),
    _BETWEEN,
)
_COMPOUND_COUNTS = (
    ("count three eighths to a beat", _first_beat(COMPOUND), {*COMPOUND[1:]}),
    _BETWEEN,
)


def _word_entries(tune: Tune) -> Iterator[tuple[str, str]]:
    techniques = sorted({note.mark.technique for note in tune.notes} - {""})
    if techniques:
        yield f"({techniques[0]})", "how to play the note"
    syllable = next((note.mark.syllable for note in tune.notes if note.mark.syllable), "")
    if syllable:
        yield f'"{syllable}"', "say it while you play"
    letter = next((LickLetters(tune).of(bar.lick) for bar in tune.bars if bar.lick), "")
    if letter:
        yield letter, "a lick; the list below has its title"
    if any(bar.slot.rounds > 1 for bar in tune.bars):
        yield "1 of 2", "the lick is played twice; this is the first time"
