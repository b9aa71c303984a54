"""Where a lick fits: its fit over every different stretch of chords in a form."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from typing import NamedTuple

from formsheet.judge.findings import Reported, reported
from formsheet.judge.fit import BarFit, Heard, NoteFit, has_blue_notes, judge_fit
from formsheet.lesson.model import Lesson, Lick
from formsheet.music.form import Form, FormBar
from formsheet.tune.assemble import bars_over, tune_of
from formsheet.tune.place import meets
from formsheet.tune.timeline import Slot

#: The least score of a lick that fits well. Our own choice.
FITS_WELL = Fraction(3, 4)
#: Verdicts on a lick over some chords.
WELL, GOES, HARDLY = "fits well", "goes", "hardly fits"


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
    def score(self) -> Fraction:
        """Mean over the bars of how well the notes fit, 0 to 1."""
        scores = [fit.score for fit in self.fits if fit.score is not None]
        return sum(scores, Fraction(0)) / len(scores) if scores else Fraction(0)

    @property
    def clashes(self) -> list[Reported]:
        """What `check` would warn of."""
        return [
            each
            for each in reported(self.fits)
            if each.heard is Heard.CLASHES and not each.fit.note.mark.deliberate
        ]

    @property
    def remarks(self) -> list[Reported]:
        """What `check` would remark on."""
        clashes = self.clashes
        return [each for each in reported(self.fits) if each not in clashes]

    @property
    def merit(self) -> tuple[int, Fraction, int]:
        """A sort key, the best greatest: fewest clashes, then score, then fewest remarks."""
        return -len(self.clashes), self.score, -len(self.remarks)

    @property
    def verdict(self) -> str:
        """How well the lick fits, in a word or two: "hardly fits" if a note would be warned of."""
        if self.clashes:
            return HARDLY
        return WELL if self.score >= FITS_WELL and not self.remarks else GOES


def over(lick: Lick, chords: Sequence[FormBar], lesson: Lesson, blue: bool) -> tuple[BarFit, ...]:
    """The fit of a lick over these chords, one entry a bar, in the lesson's key and on its harp.

    `blue`: whether the lesson `has_blue_notes`; licks are tried by the thousand.
    """
    slots = [Slot(lick, index, 1, 1, lick.span) for index in range(len(lick.bars))]
    bars = bars_over(chords, slots, lesson.facts.meter)
    return tuple(judge_fit(tune_of(lesson, bars), blue))


def placements(lick: Lick, form: Form, lesson: Lesson) -> list[Placement]:
    """The lick over every different stretch of the form's chords, best first."""
    starts: dict[tuple[FormBar, ...], list[int]] = {}
    for index in range(len(form.bars) - len(lick.bars) + 1):
        stretch = form.bars[index : index + len(lick.bars)]
        starts.setdefault(stretch, []).append(index + 1)
    blue = has_blue_notes(lesson)
    found = [
        Placement(lick, stretch, tuple(bars), over(lick, stretch, lesson, blue))
        for stretch, bars in starts.items()
    ]
    return sorted(found, key=lambda placement: placement.merit, reverse=True)
