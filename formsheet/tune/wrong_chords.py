"""Licks over chords that they are not written for, and the `on` that would allow them."""

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
    """Report licks over chords that they are not written for, each placing once a chord.

    If a mistake in the lick's `on` explains it, only that mistake is reported, once.
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
    problems = slips.problems
    for found in wrong.values():
        if not last.issuperset(bar.chorus for bar in found):
            problems.append(_wrong_chord(found, bars))
        elif found[0].slot.span.place in own:
            problems.append(_wrong_chord(found, bars, when=LAST_TIME))
        else:
            problems.append(_wrong_chord(found, bars, last=True))
    return problems


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
    """The chords of all bars of the lick's round that `bar` is a part of."""
    first = bar.number - bar.slot.bar_in_lick
    return tuple(
        chords_of(each)
        for each in bars
        if each.chorus == bar.chorus and first <= each.number < first + len(lick.bars)
    )


def _widened(lick: Lick, index: int, chords: Sequence[Chord]) -> str | None:
    """The text of the lick's `on` with these chords added as an alternative in one bar."""
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
