"""Choruses as they are printed: passes of one play line that are alike, once."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from formsheet.tune.timeline import Chorus, Tune


@dataclass(frozen=True, slots=True)
class Passes:
    """Choruses that are alike and follow one another."""

    choruses: tuple[Chorus, ...]
    title: str  # "Second chorus", "Choruses 1 to 3", "Chorus 3, last time"; "" of the only ones

    @property
    def bars(self) -> tuple[int, ...]:
        """Indices of the bars of the first of them."""
        return self.choruses[0].bars

    @property
    def times(self) -> str:
        """How often it is played: "play twice"; "" where once."""
        return times_words(len(self.choruses))


def printed_passes(tune: Tune) -> list[Passes]:
    """The choruses to print, in order."""
    groups: list[list[Chorus]] = []
    for chorus in tune.choruses:
        if groups and _alike(tune, groups[-1][-1], chorus):
            groups[-1].append(chorus)
        else:
            groups.append([chorus])
    return [Passes(tuple(group), _title(group, alone=len(groups) == 1)) for group in groups]


def _alike(tune: Tune, first: Chorus, second: Chorus) -> bool:
    def played(chorus: Chorus) -> list[tuple[object, ...]]:
        return [
            (bar.chords, bar.slot, bar.marks) for bar in map(tune.bars.__getitem__, chorus.bars)
        ]

    return second.pass_number > 1 and played(first) == played(second)


def _title(group: Sequence[Chorus], alone: bool) -> str:
    first, last = group[0], group[-1]
    numbers = f"Chorus {first.number}" if len(group) == 1 else (
        f"Choruses {first.number} to {last.number}"
    )  # fmt: skip
    title = first.title or ("" if alone else numbers)
    if first.passes > 1 and last.pass_number == first.passes and len(group) < first.passes:
        title += ", last time"
    return title


def times_words(times: int) -> str:
    """How often a chorus is played."""
    return "" if times == 1 else "play twice" if times == 2 else f"play {times} times"


def bars_words(numbers: list[int]) -> str:
    """Bar numbers in runs: "bars 1-4, 7 and 8"."""
    runs: list[list[int]] = []
    for number in numbers:
        if runs and runs[-1][-1] == number - 1:
            runs[-1].append(number)
        else:
            runs.append([number])
    parts = [
        part
        for run in runs
        for part in ([f"{run[0]}-{run[-1]}"] if len(run) > 2 else list(map(str, run)))
    ]
    listed = parts[0] if len(parts) == 1 else f"{', '.join(parts[:-1])} and {parts[-1]}"
    return f"{'bar' if len(numbers) == 1 else 'bars'} {listed}"
