"""Licks over bars whose chord they are not written for, and what would be written for them."""

from __future__ import annotations

from collections.abc import Sequence

from formsheet.lesson.asked import asked_words
from formsheet.lesson.model import AskedBar, Lick, Play
from formsheet.music.chord import Chord
from formsheet.music.form import FormBar
from formsheet.problems.problem import Problem, Related, error
from formsheet.tune.place import LAST_TIME, meets, range_words
from formsheet.tune.timeline import Bar, Chorus


def wrong_chords(
    bars: Sequence[Bar], choruses: Sequence[Chorus], plays: Sequence[Play]
) -> list[Problem]:
    """Licks over bars whose chord they are not written for, each placing told once a chord.

    A lick that a bar line between its chords would make fit is told once, at its first line.
    """
    wrong: dict[tuple[object, ...], list[Bar]] = {}
    shared: dict[str, list[Bar]] = {}
    unshared = _placings_without_bar_line(bars)
    for bar in bars:
        lick = bar.lick
        chords = _chords(bar)
        if lick and not meets(chords, lick.on[bar.slot.bar_in_lick]):
            if (lick.name, bar.slot.span.place) in unshared:
                shared.setdefault(lick.name, []).append(bar)
            else:
                key = (bar.slot.span.place, lick.name, chords)
                wrong.setdefault(key, []).append(bar)
    last = {chorus.number for chorus in choruses if chorus.pass_number == chorus.passes > 1}
    own = {placed.span.place for play in plays for line in play.bars if line.last_time
           for placed in line.placed}  # fmt: skip
    told = [_without_bar_line(found) for found in shared.values()]
    for found in wrong.values():
        if not last.issuperset(bar.chorus for bar in found):
            told.append(_wrong_chord(found, bars, "lick-wrong-chord", ""))
        elif found[0].slot.span.place in own:
            told.append(_wrong_chord(found, bars, "lick-wrong-chord", LAST_TIME))
        else:
            told.append(_wrong_chord(found, bars, "lick-wrong-last", ""))
    return told


def _chords(bar: Bar) -> FormBar:
    return tuple(chord for _, chord in bar.chords)


def _wrong_chord(found: Sequence[Bar], bars: Sequence[Bar], slug: str, when: str) -> Problem:
    bar, lick = found[0], found[0].lick
    assert lick
    chords = _chords(bar)
    asked = lick.on[bar.slot.bar_in_lick]
    first = bar.number - bar.slot.bar_in_lick
    return error(
        slug,
        bar.slot.span,
        Related(lick.on_span, f"written for {asked_words(asked)}"),
        lick=lick.name,
        bars=_numbers(found),
        chord=" ".join(map(str, chords)),
        asked=asked_words(asked),
        both=_widened(lick, bar.slot.bar_in_lick, chords),
        stretch=_stretch(bars, bar, lick),
        when=when,
        where=range_words(first, first + len(lick.bars) - 1),
    )


def _numbers(bars: Sequence[Bar]) -> list[int]:
    return sorted({bar.number for bar in bars})


def _stretch(bars: Sequence[Bar], bar: Bar, lick: Lick) -> tuple[FormBar, ...]:
    """The chords of the bars that a lick of which `bar` is one would fill."""
    first = bar.number - bar.slot.bar_in_lick
    return tuple(
        _chords(each)
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
    return _on(lick, index, wider)


def _on(lick: Lick, index: int, asked: AskedBar) -> str:
    """What a lick is written for, with one of its bars put in another way."""
    if len(set(lick.on)) == 1:
        return asked_words(asked)
    bars = (*lick.on[:index], asked, *lick.on[index + 1 :])
    return " | ".join(map(asked_words, bars))


# ---- A bar line forgotten between two chords ------------------------------------------------


def _a_chord_a_bar(lick: Lick) -> tuple[AskedBar, ...]:
    """What a lick of two bars on `I V` would be written for as `I | V`; else nothing."""
    bars = len(lick.bars)
    apart = bars > 1 and len(lick.on[0]) == bars and "|" not in lick.on_span.text
    return tuple((alternatives,) for alternatives in lick.on[0]) if apart else ()


def _placings_without_bar_line(bars: Sequence[Bar]) -> set[tuple[str, tuple[object, ...]]]:
    """Lick and place of the placings that fit all through once their chords have a bar each."""
    fits: dict[tuple[str, tuple[object, ...]], bool] = {}
    for bar in bars:
        if bar.lick and (apart := _a_chord_a_bar(bar.lick)):
            placing = (bar.lick.name, bar.slot.span.place)
            met = meets(_chords(bar), apart[bar.slot.bar_in_lick])
            fits[placing] = fits.get(placing, True) and met
    return {placing for placing, all_met in fits.items() if all_met}


def _without_bar_line(found: Sequence[Bar]) -> Problem:
    bar, lick = found[0], found[0].lick
    assert lick
    return error(
        "bar-line-missing",
        lick.on_span,
        Related(bar.slot.span, "played here"),
        lick=lick.name,
        asked=asked_words(lick.on[0]),
        bars=_numbers(found),
        apart=" | ".join(map(asked_words, _a_chord_a_bar(lick))),
    )
