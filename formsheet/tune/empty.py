"""Bars of a chorus without a lick."""

from __future__ import annotations

from collections.abc import Sequence

from formsheet.music.form import Form, FormBar
from formsheet.problems import kinds
from formsheet.problems.problem import Problem
from formsheet.source import Span
from formsheet.tune.timeline import Slot


def empty_bars(
    slots: Sequence[Slot | None], form: Form, span: Span, when: str, reported: set[FormBar]
) -> list[Problem]:
    """Report each chord of the empty bars once.

    `reported` carries the chords already reported on to the next chorus.
    """
    empty: dict[FormBar, list[int]] = {}
    for index, slot in enumerate(slots):
        if slot is None and form.bars[index] not in reported:
            empty.setdefault(form.bars[index], []).append(index + 1)
    reported.update(empty)
    return [
        kinds.BarWithoutLick(span, bars=numbers, when=when, chord=" ".join(map(str, bar)),
              chords=(bar,))
        for bar, numbers in empty.items()
    ]  # fmt: skip
