"""Mistakes in the `on` of a lick: a bar line forgotten, a minor numeral for a major one.

Each is reported once, at the lick's first line, if the corrected `on` fits in every bar where the
lick is played.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from formsheet.lesson.asked import asked_words
from formsheet.lesson.model import AskedBar, AskedChords, Lick
from formsheet.music.chord import Chord
from formsheet.music.form import FormBar
from formsheet.problems import kinds
from formsheet.problems.problem import Problem, Related
from formsheet.tune.place import meets, with_third
from formsheet.tune.timeline import Bar

Asked = tuple[AskedBar, ...]  # of a lick, an entry a bar
_Placing = tuple[str, tuple[object, ...]]  # a lick's name, and where the lesson places it


def chords_of(bar: Bar) -> FormBar:
    """The chords of a bar of the tune."""
    return tuple(chord for _, chord in bar.chords)


def numbers_of(bars: Iterable[Bar]) -> list[int]:
    """The numbers of some bars, each once."""
    return sorted({bar.number for bar in bars})


class AskedSlips:
    """The mistakes in `on` of a tune's licks, and the bars that they explain."""

    def __init__(self, bars: Sequence[Bar]) -> None:
        over: dict[str, list[Bar]] = {}
        for bar in bars:
            if bar.lick:
                over.setdefault(bar.lick.name, []).append(bar)
        self.apart: set[_Placing] = set()
        self.thirds: dict[str, Asked] = {}
        for name, played in over.items():
            lick = played[0].lick
            assert lick
            self.apart |= _fitting(played, _a_chord_a_bar(lick))
            if meant := _other_thirds(lick, played):
                self.thirds[name] = meant
        self.taken: dict[str, list[Bar]] = {}

    def take(self, bar: Bar) -> bool:
        """Whether a mistake in `on` explains why the lick does not fit this bar; if so, note it."""
        assert bar.lick
        name = bar.lick.name
        explained = (name, bar.slot.span.place) in self.apart or name in self.thirds
        if explained:
            self.taken.setdefault(name, []).append(bar)
        return explained

    @property
    def problems(self) -> list[Problem]:
        """The mistakes that explain at least one bar."""
        return [
            _third_unlike(bars, self.thirds[name])
            if name in self.thirds
            else _bar_line_missing(bars)
            for name, bars in self.taken.items()
        ]


def _fitting(bars: Iterable[Bar], asked: Asked) -> set[_Placing]:
    """The placings of a lick that would fit in every bar with this `on`; empty for an empty one."""
    fits: dict[_Placing, bool] = {}
    for bar in bars if asked else ():
        assert bar.lick
        placing = (bar.lick.name, bar.slot.span.place)
        met = meets(chords_of(bar), asked[bar.slot.bar_in_lick])
        fits[placing] = fits.get(placing, True) and met
    return {placing for placing, all_met in fits.items() if all_met}


# ---- A bar line forgotten between two chords ------------------------------------------------


def _a_chord_a_bar(lick: Lick) -> Asked:
    """`I | V` for a lick of two bars written `on I V`; empty for any other lick."""
    bars = len(lick.bars)
    apart = bars > 1 and len(lick.on[0]) == bars and "|" not in lick.on_span.text
    return tuple((alternatives,) for alternatives in lick.on[0]) if apart else ()


def _bar_line_missing(found: Sequence[Bar]) -> Problem:
    bar, lick = found[0], found[0].lick
    assert lick
    return kinds.BarLineMissing(
        lick.on_span,
        (Related(bar.slot.span, "played here"),),
        lick=lick.name,
        asked=asked_words(lick.on[0]),
        bars=numbers_of(found),
        apart=" | ".join(map(asked_words, _a_chord_a_bar(lick))),
    )


# ---- A minor numeral for a major one, or the other way round --------------------------------


def _other_thirds(lick: Lick, bars: Sequence[Bar]) -> Asked:
    """The `on` that is meant if some of its thirds are wrong; empty if none is."""
    over: dict[int, FormBar] = {}
    for bar in bars:
        if not meets(chords_of(bar), lick.on[bar.slot.bar_in_lick]):
            over.setdefault(bar.slot.bar_in_lick, chords_of(bar))
    if not over:
        return ()
    meant = tuple(
        _with_thirds(asked, over[index]) if index in over else asked
        for index, asked in enumerate(lick.on)
    )
    fits = all(meets(chords_of(bar), meant[bar.slot.bar_in_lick]) for bar in bars)
    return meant if fits else ()


def _with_thirds(asked: AskedBar, chords: FormBar) -> AskedBar:
    """An entry of `on` with its thirds changed to those of the chords in the bar."""
    if len(asked) != len(chords):
        return asked
    return tuple(_with_third(each, chord) for each, chord in zip(asked, chords, strict=True))


def _with_third(alternatives: AskedChords, chord: Chord) -> AskedChords:
    return tuple(with_third(each, chord) for each in alternatives)


def _third_unlike(found: Sequence[Bar], meant: Asked) -> Problem:
    bar, lick = found[0], found[0].lick
    assert lick
    chords = chords_of(bar)
    pairs = zip(lick.on[bar.slot.bar_in_lick], chords, strict=True)
    asked, chord = next((a, c) for a, c in pairs if not any(map(c.meets, a)))
    same = [bar for bar in found if chord in chords_of(bar)]
    thirds = (
        ("a major chord", "a minor one") if chord.minor_third else ("a minor chord", "a major one")
    )
    return kinds.ThirdUnlike(
        lick.on_span,
        (Related(bar.slot.span, "played here"),),
        lick=lick.name,
        asked=asked_words((asked,)),
        bars=numbers_of(same),
        chord=str(chord),
        third=thirds[0],
        other=thirds[1],
        meant=_entries(lick, meant),
    )


def _entries(lick: Lick, asked: Asked) -> str:
    """The text of the new `on`: a single entry where the lick has a single one now."""
    entries = asked if "|" in lick.on_span.text else asked[:1]
    return " | ".join(map(asked_words, entries))
