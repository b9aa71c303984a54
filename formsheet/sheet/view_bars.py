"""The views of the bars of a tune."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from formsheet.judge.fit import BarFit, NoteFit
from formsheet.judge.verdicts import Verdict
from formsheet.lesson.model import Facts, Kind
from formsheet.music.chord import Chord
from formsheet.music.counting import words_at
from formsheet.music.key import Key
from formsheet.music.rhythm import Meter
from formsheet.music.tab import Breath, Shape, Tab, shaken
from formsheet.sheet import view
from formsheet.sheet.spoken import spoken_bar
from formsheet.tune.lick_letters import LickLetters
from formsheet.tune.swing_times import feel_changes
from formsheet.tune.timeline import Bar, PlayedMark, Tune, goes_on
from formsheet.vocabulary.techniques import SHAKE

POINT = "·"
_COUNTED = {"trip": "&", "let": "a"}  # thirds, which are said with other words than printed


class BarViews:
    """Makes the views of bars; each depends on its neighbours."""

    def __init__(self, tune: Tune, fits: Sequence[BarFit]) -> None:
        self.tune = tune
        self.letters = LickLetters(tune)
        self.facts: Facts = tune.lesson.facts
        self._key: Key = tune.lesson.key
        self._landings = {
            fit.note.played.number
            for bar_fit in fits
            for fit in bar_fit.notes
            if self._landing(fit)
        }
        self._following = _following(tune.bars)

    def _landing(self, fit: NoteFit) -> bool:
        return fit.verdict is Verdict.CHORD_TONE and self.facts.meter.on_strong_beat(fit.note.onset)

    def bar(self, index: int) -> view.Bar:
        """The view of a bar of the tune."""
        bar = self.tune.bars[index]
        before = self.tune.bars[index - 1] if index else None
        drawn = self.drawn_up(
            bar,
            before.marks if before else (),
            self._following[index],
            first_time=self.letters.first_time(index),
        )
        return replace(drawn, starts_lick=before is None or not goes_on(before, bar))

    def drawn_up(
        self,
        bar: Bar,
        before: Sequence[PlayedMark],
        after: PlayedMark | None,
        *,
        first_time: bool = False,
    ) -> view.Bar:
        """The view of a bar between the marks before and after it; it starts no lick yet."""
        meter, slot = self.facts.meter, bar.slot
        return view.Bar(
            number=bar.number,
            length=meter.bar,
            beat=meter.beat,
            chords=tuple(chord_mark(at, chord, self._key) for at, chord in bar.chords),
            lick=slot.lick.title if slot.lick else "",
            starts_lick=False,
            round=f"{slot.round} of {slot.rounds}" if slot.lick and slot.rounds > 1 else "",
            counts=counts(bar.marks, meter),
            marks=self._marks(bar.marks, after),
            feels=self._feels(bar.marks, before),
            spoken=spoken_bar(bar, self._key, self.letters, first_time=first_time),
            letter=self.letters.of(slot.lick),
            first_time=first_time,
            opens=slot.lick is not None and slot.bar_in_lick == 0,
        )

    def _marks(
        self, marks: Sequence[PlayedMark], after: PlayedMark | None
    ) -> tuple[view.Mark, ...]:
        following = [*marks[1:], after]
        return tuple(
            view.Mark(
                onset=played.onset,
                length=played.mark.value.length,
                value=played.mark.value.letter,
                dots=played.mark.value.dots,
                triplet=played.mark.value.triplet,
                tab=played_mark(played) if played.mark.tab else None,
                hold=played.mark.kind is Kind.HOLD,
                tied_on=next_mark is not None and next_mark.mark.kind is Kind.HOLD,
                landing=played.number in self._landings,
                technique=played.mark.technique,
                syllable=played.mark.syllable,
                pickup=played.pickup,
                once=played.once,
            )
            for played, next_mark in zip(marks, following, strict=True)
        )

    def _feels(
        self, marks: Sequence[PlayedMark], before: Sequence[PlayedMark]
    ) -> tuple[view.FeelMark, ...]:
        """The places where the feel changes from that of the mark before."""
        return tuple(
            view.FeelMark(onset, "swing" if feel.swings else "straight")
            for onset, feel in feel_changes(marks, before, self.facts)
        )


def _following(bars: Sequence[Bar]) -> list[PlayedMark | None]:
    """For each bar, the mark after its last one."""
    firsts = [bar.marks[0] if bar.marks else None for bar in bars[1:]]
    return [*firsts, None]


def played_mark(played: PlayedMark) -> view.HoleMark | None:
    """The view of a mark's tab: of a shake, both holes."""
    tab = played.mark.tab
    if tab is None:
        return None
    both = shaken(tab) if played.mark.technique == SHAKE else None
    if both is None or len(tab.holes) > 1:
        return hole_mark(tab)
    return hole_mark(tab._replace(holes=tuple(sorted({*both[0].holes, *both[1].holes}))))


def hole_mark(tab: Tab) -> view.HoleMark:
    """The view of a tab."""
    return view.HoleMark(
        holes=tab.holes,
        draw=tab.breath is Breath.DRAW,
        bend=tab.bend,
        overbend=tab.overbend,
        split=tab.shape is Shape.SPLIT,
    )


def chord_mark(at: Fraction, chord: Chord, key: Key) -> view.ChordMark:
    """The view of a chord: numeral and letter name."""
    return view.ChordMark(at, chord.numeral, chord.name(key.tonic))


def counts(marks: Sequence[PlayedMark], meter: Meter) -> tuple[view.Count, ...]:
    """The counts of a bar: its beats, and each place between them where a note is struck.

    Halves of a beat are `&`, quarters `e & a`, thirds `& a`; a place without a word is a point.
    """
    edges: dict[int, set[Fraction]] = {beat: set() for beat in range(meter.beats)}
    struck: set[Fraction] = set()
    for played in marks:
        beat, place = divmod(played.onset / meter.beat, 1)
        edges[int(beat)].add(place)
        if played.mark.kind is Kind.NOTE:
            struck.add(played.onset)
    found = []
    for beat, places in edges.items():
        words = words_at(places, meter)
        for place in sorted(places | {Fraction(0)}):
            onset = (beat + place) * meter.beat
            if place and onset not in struck:
                continue
            label = _COUNTED.get(words.get(place, ""), words.get(place, POINT))
            found.append(view.Count(onset, label if place else str(beat + 1), not place))
    return tuple(found)
