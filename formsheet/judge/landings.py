"""Is the chord of each bar heard? At least one landing note should be a chord tone."""

from __future__ import annotations

from collections.abc import Sequence

from formsheet.judge.fit import BarFit, NoteFit, Verdict
from formsheet.judge.harmony import chord_on_harp
from formsheet.problems import kinds
from formsheet.problems.problem import Problem
from formsheet.tune.timeline import Tune

_MOST_ROOTS = 3


def landing_findings(tune: Tune, fits: Sequence[BarFit]) -> list[Problem]:
    """Bars in which notes land, but none on a chord tone; each written place reported once.

    If all of them are blue notes it is a remark: a riff may stay on them. A bar with a clash, or
    with a note marked as deliberate, is not reported: the clash is.
    """
    found: dict[tuple[object, ...], list[BarFit]] = {}
    for fit in fits:
        landing = _landing(fit)
        if fit.bar.number and landing and all(map(_is_elsewhere, landing)):
            key = (landing[0].note.mark.span.place, landing[0].chord)
            found.setdefault(key, []).append(fit)
    return [_finding(tune, group) for group in found.values()]


def _landing(fit: BarFit) -> list[NoteFit]:
    """The notes that land, without the pick-up into the next bar."""
    return [each for each in fit.notes if each.lands and not each.note.played.pickup]


def _is_elsewhere(fit: NoteFit) -> bool:
    reported = fit.verdict is Verdict.CLASH or fit.note.mark.deliberate
    return fit.verdict is not Verdict.CHORD_TONE and not reported


def _finding(tune: Tune, group: Sequence[BarFit]) -> Problem:
    landing = _landing(group[0])
    first = landing[0]
    lesson = tune.lesson
    roots = chord_on_harp(first.chord, lesson.key, lesson.facts.harp).roots
    hole = first.note.tab.holes[0]
    nearest = sorted(roots, key=lambda tab: (tab.bend, abs(tab.holes[0] - hole)))[:_MOST_ROOTS]
    return kinds.LandingMissing(
        first.note.mark.span,
        tab=str(first.note.tab),
        degree=" ".join(first.degrees),
        letter=first.chord.name(lesson.key.tonic),
        bars=sorted({fit.bar.number for fit in group}),
        blue=all(each.verdict is Verdict.BLUE_NOTE for each in landing),
        roots=[str(tab) for tab in nearest],
    )
