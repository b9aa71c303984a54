"""A bar in words for a screen reader: "Bar 5, four chord F 7: 1 blow, quarter; ..." """

from __future__ import annotations

from collections.abc import Sequence

from formsheet.lesson.model import Kind
from formsheet.music.chord import Chord
from formsheet.music.key import Key
from formsheet.music.steps import step_words
from formsheet.music.tab import Shape, Tab
from formsheet.tune.timeline import Bar, PlayedMark

_ROMAN_WORDS = {
    "I": "one",
    "II": "two",
    "III": "three",
    "IV": "four",
    "V": "five",
    "VI": "six",
    "VII": "seven",
}

CHORDS_JOINED = ", then "


def spoken_bar(bar: Bar, key: Key) -> str:
    """The bar's number, chords, lick and marks in words."""
    head, rest = spoken_around(bar)
    return head + CHORDS_JOINED.join(spoken_chord(chord, key) for _, chord in bar.chords) + rest


def spoken_around(bar: Bar) -> tuple[str, str]:
    """The words before and after the bar's chords, the same on every harp."""
    lick = f", {bar.lick.title}" if bar.lick else ""
    if bar.lick and bar.slot.rounds > 1:
        lick += f", time {bar.slot.round} of {bar.slot.rounds}"
    lead = "Pick-up, played once" if any(played.once for played in bar.marks) else "Pick-up"
    head = f"Bar {bar.number}" if bar.number else lead
    return f"{head}, ", f"{lick}: {spoken_marks(bar.marks)}."


def spoken_chord(chord: Chord, key: Key) -> str:
    """A chord in words: "four chord F 7", "flat six chord A flat 7"."""
    numeral = chord.numeral[: len(chord.numeral) - len(chord.quality)]
    flat = {"b": "flat ", "#": "sharp "}.get(numeral[:1], "")
    degree = _ROMAN_WORDS[numeral.lstrip("b#").upper()]
    root = chord.root_name(key.tonic)
    letter = root[0] + {"b": " flat", "#": " sharp"}.get(root[1:], "")
    minor = " minor" if chord.minor else ""
    quality = f" {chord.quality}" if chord.quality else ""
    return f"{flat}{degree} chord {letter}{minor}{quality}"


def spoken_marks(marks: Sequence[PlayedMark]) -> str:
    """Notes, holds and rests in words, one after another."""
    return "; ".join(_spoken_mark(played) for played in marks)


def _spoken_mark(played: PlayedMark) -> str:
    mark = played.mark
    if mark.tab is None:
        what = "rest" if mark.kind is Kind.REST else "hold"
    else:
        what = spoken_tab(mark.tab)
        if mark.technique:
            what += f", {mark.technique}"
        if mark.syllable:
            what += f", say {mark.syllable}"
    return f"{what}, {mark.value.name}"


def spoken_tab(tab: Tab) -> str:
    """Tab in words: "4 draw bent a half step", "holes 1 2 3 draw", "split 1 and 4 blow"."""
    holes = " ".join(map(str, tab.holes))
    if tab.overbend:
        return f"{holes} over{tab.breath.word}"
    if tab.shape is Shape.SINGLE:
        bent = f" bent {step_words(tab.bend)}" if tab.bend else ""
        return f"{holes} {tab.breath.word}{bent}"
    if tab.shape is Shape.SPLIT:
        return f"split {' and '.join(map(str, tab.holes))} {tab.breath.word}"
    return f"holes {holes} {tab.breath.word}"
