"""The bars of a chorus in which nothing is placed."""

from __future__ import annotations

from collections.abc import Sequence

from formsheet.music.form import Form, FormBar
from formsheet.problems import kinds
from formsheet.problems.problem import Problem
from formsheet.source import Span
from formsheet.tune.timeline import Slot


def empty_bars(
    slots: Sequence[Slot | None], form: Form, span: Span, when: str, told: set[FormBar]
) -> list[Problem]:
    """Each chord told once, unless it is among those `told`, which are kept for the next chorus."""
    empty: dict[FormBar, list[int]] = {}
    for index, slot in enumerate(slots):
        if slot is None and form.bars[index] not in told:
            empty.setdefault(form.bars[index], []).append(index + 1)
    told.update(empty)
    return [
        kinds.BarWithoutLick(span, bars=numbers, when=when, chord=" ".join(map(str, bar)),
              chords=(bar,))
        for bar, numbers in empty.items()
    ]  # fmt: skip
