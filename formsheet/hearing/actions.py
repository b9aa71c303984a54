"""What a player can do on a harp: each set of pitches with the tabs that sound it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from formsheet.arrange.choices import reach
from formsheet.music.harp import Harp
from formsheet.music.tab import Shape, Tab

#: Most reeds of a chord that can be distinguished. More neighbours sound much like three of them.
MOST_REEDS = 3
#: The range of harps, low F to high: MIDI numbers.
LOWEST, HIGHEST = 43, 103


class Action(NamedTuple):
    """One thing to play. Tabs that sound the same are one action."""

    midi: tuple[int, ...]  # low to high
    tabs: tuple[Tab, ...]  # none where the harp is not known
    reed: int  # MIDI number that a bend begins from; of other notes their own
    overbend: bool = False

    @property
    def single(self) -> bool:
        """Whether one reed sounds."""
        return len(self.midi) == 1

    @property
    def bent(self) -> bool:
        """Whether every way of playing it is a bend."""
        return self.single and self.reed > self.midi[0]


def actions_of(harp: Harp, chords: bool) -> tuple[Action, ...]:
    """Everything that a harp can sound, single notes first; chords and splits where asked."""
    found = []
    for midi, tabs in reach(harp, True).items():
        if len(midi) > (MOST_REEDS if chords else 1):
            continue
        plain = tuple(tab for tab in tabs if not tab.overbend)
        tabs = tuple(sorted(plain or tabs, key=lambda tab: (tab.bend, not _bendable(tab, harp))))
        reed = max(harp.reed(tabs[0].holes[0], tabs[0].breath), midi[0]) if len(midi) == 1 else 0
        found.append(Action(midi, tabs, midi[0] if not plain else reed or midi[0], not plain))
    return tuple(sorted(found, key=lambda action: (len(action.midi), action.midi)))


def any_pitch() -> tuple[Action, ...]:
    """All pitches in the range of harps, for a harp that is not known."""
    return tuple(Action((midi,), (), midi) for midi in range(LOWEST, HIGHEST + 1))


def _bendable(tab: Tab, harp: Harp) -> bool:
    """Whether a single note can be bent by a half step: 2 draw before 3 blow."""
    return tab.shape is Shape.SINGLE and harp.deepest_bend(tab.holes[0], tab.breath) > 0


def natural_notes(actions: tuple[Action, ...]) -> Iterator[int]:
    """The pitches of single reeds that are not bent."""
    return (each.midi[0] for each in actions if each.single and not (each.bent or each.overbend))
