"""Where a lick fits: its fit over every different stretch of chords in a form."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from typing import NamedTuple

from formsheet.judge.fit import BarFit, NoteFit, Verdict, judge_fit
from formsheet.lesson.model import Lesson, Lick
from formsheet.music.form import Form, FormBar
from formsheet.tune.assemble import bars_over, tune_of
from formsheet.tune.place import meets
from formsheet.tune.timeline import Slot


class Placement(NamedTuple):
    """A lick over one stretch of chords."""

    lick: Lick
    chords: tuple[FormBar, ...]  # one entry for each bar of the lick
    bars: tuple[int, ...]  # numbers of the bars where such a stretch begins
    fits: tuple[BarFit, ...]

    @property
    def written_for(self) -> bool:
        """Whether the lick's own `on` allows it here."""
        return all(map(meets, self.chords, self.lick.on))

    @property
    def notes(self) -> list[NoteFit]:
        """The fit of every note."""
        return [note for fit in self.fits for note in fit.notes]

    @property
    def share(self) -> Fraction:
        """Mean over the bars of the share of sounding time on chord tones, 0 to 1."""
        shares = [fit.share for fit in self.fits if fit.share is not None]
        return sum(shares, Fraction(0)) / len(shares) if shares else Fraction(0)

    @property
    def clashes(self) -> list[NoteFit]:
        """Notes that land on a clash or are held into one."""
        return [
            fit
            for fit in self.notes
            if (fit.verdict is Verdict.CLASH and fit.lands) or Verdict.CLASH in fit.held
        ]

    @property
    def rubs(self) -> list[NoteFit]:
        """Notes that clash without landing, and are not left by a step."""
        return [fit for fit in self.notes if fit.verdict is Verdict.CLASH and not fit.lands]

    @property
    def landings(self) -> tuple[int, int]:
        """The number of landing notes that are chord tones, and of all landing notes."""
        landing = [fit for fit in self.notes if fit.lands]
        return sum(fit.verdict is Verdict.CHORD_TONE for fit in landing), len(landing)

    @property
    def ends_home(self) -> bool:
        """Whether the first and the last note are chord tones."""
        ends = [self.notes[0], self.notes[-1]] if self.notes else []
        return all(fit.verdict is Verdict.CHORD_TONE for fit in ends)

    @property
    def merit(self) -> tuple[int, Fraction, bool, Fraction]:
        """A sort key, the best greatest: fewest clashes, then landings, ends, and share."""
        good, landing = self.landings
        return (
            -len(self.clashes),
            Fraction(good, landing) if landing else Fraction(0),
            self.ends_home,
            self.share,
        )


def over(lick: Lick, chords: Sequence[FormBar], lesson: Lesson) -> tuple[BarFit, ...]:
    """The fit of a lick over these chords, one entry a bar, in the lesson's key and on its harp."""
    slots = [Slot(lick, index, 1, 1, lick.span) for index in range(len(lick.bars))]
    bars = bars_over(chords, slots, lesson.facts.meter)
    return tuple(judge_fit(tune_of(lesson, bars)))


def placements(lick: Lick, form: Form, lesson: Lesson) -> list[Placement]:
    """The lick over every different stretch of the form's chords, best first."""
    starts: dict[tuple[FormBar, ...], list[int]] = {}
    for index in range(len(form.bars) - len(lick.bars) + 1):
        stretch = form.bars[index : index + len(lick.bars)]
        starts.setdefault(stretch, []).append(index + 1)
    found = [
        Placement(lick, stretch, tuple(bars), over(lick, stretch, lesson))
        for stretch, bars in starts.items()
    ]
    return sorted(found, key=lambda placement: placement.merit, reverse=True)
