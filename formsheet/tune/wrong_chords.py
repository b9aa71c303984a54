"""Licks over bars whose chord they are not written for, and what would be written for them."""

from __future__ import annotations

from collections.abc import Sequence

from formsheet.lesson.asked import asked_words
from formsheet.lesson.model import Lick, Play
from formsheet.music.chord import Chord
from formsheet.music.form import FormBar
from formsheet.problems import kinds
from formsheet.problems.problem import Problem, Related
from formsheet.tune.asked_slips import AskedSlips, chords_of, numbers_of
from formsheet.tune.place import LAST_TIME, meets, range_words
from formsheet.tune.timeline import Bar, Chorus


def wrong_chords(
    bars: Sequence[Bar], choruses: Sequence[Chorus], plays: Sequence[Play]
) -> list[Problem]:
    """Licks over bars whose chord they are not written for, each placing told once a chord.

    A lick whose first line has a slip that explains it is told once, there.
    """
    wrong: dict[tuple[object, ...], list[Bar]] = {}
    slips = AskedSlips(bars)
    for bar in bars:
        lick = bar.lick
        chords = chords_of(bar)
        if lick and not meets(chords, lick.on[bar.slot.bar_in_lick]) and not slips.take(bar):
            key = (bar.slot.span.place, lick.name, chords)
            wrong.setdefault(key, []).append(bar)
    last = {chorus.number for chorus in choruses if chorus.pass_number == chorus.passes > 1}
    own = {placed.span.place for play in plays for line in play.bars if line.last_time
           for placed in line.placed}  # fmt: skip
    told = slips.problems
    for found in wrong.values():
        if not last.issuperset(bar.chorus for bar in found):
            told.append(_wrong_chord(found, bars))
        elif found[0].slot.span.place in own:
            told.append(_wrong_chord(found, bars, when=LAST_TIME))
        else:
            told.append(_wrong_chord(found, bars, last=True))
    return told


def _wrong_chord(
    found: Sequence[Bar], bars: Sequence[Bar], when: str = "", last: bool = False
) -> Problem:
    bar, lick = found[0], found[0].lick
    assert lick
    chords = chords_of(bar)
    asked = lick.on[bar.slot.bar_in_lick]
    first = bar.number - bar.slot.bar_in_lick
    related = (Related(lick.on_span, f"written for {asked_words(asked)}"),)
    if last:
        return kinds.LickWrongLast(
            bar.slot.span,
            related,
            lick=lick.name,
            bars=numbers_of(found),
            chord=" ".join(map(str, chords)),
            asked=asked_words(asked),
            both=_widened(lick, bar.slot.bar_in_lick, chords),
            chords=_stretch(bars, bar, lick),
            where=range_words(first, first + len(lick.bars) - 1),
        )
    return kinds.LickWrongChord(
        bar.slot.span,
        related,
        lick=lick.name,
        bars=numbers_of(found),
        chord=" ".join(map(str, chords)),
        asked=asked_words(asked),
        both=_widened(lick, bar.slot.bar_in_lick, chords),
        chords=_stretch(bars, bar, lick),
        when=when,
    )


def _stretch(bars: Sequence[Bar], bar: Bar, lick: Lick) -> tuple[FormBar, ...]:
    """The chords of the bars that a lick of which `bar` is one would fill."""
    first = bar.number - bar.slot.bar_in_lick
    return tuple(
        chords_of(each)
        for each in bars
        if each.chorus == bar.chorus and first <= each.number < first + len(lick.bars)
    )


def _widened(lick: Lick, index: int, chords: Sequence[Chord]) -> str | None:
    """What a lick is written for, with these chords as another choice in one of its bars."""
    asked = lick.on[index]
    if len(asked) != len(chords):
        return None
    wider = tuple(
        alternatives if any(chord.meets(each) for each in alternatives) else (*alternatives, chord)
        for alternatives, chord in zip(asked, chords, strict=True)
    )
    if len(set(lick.on)) == 1:
        return asked_words(wider)
    return " | ".join(map(asked_words, (*lick.on[:index], wider, *lick.on[index + 1 :])))
