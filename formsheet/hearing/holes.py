"""Which hole: the same pitch may be in two places."""

from __future__ import annotations

from collections.abc import Sequence

from formsheet.hearing.actions import Action
from formsheet.music.tab import Tab


def chosen_tabs(actions: Sequence[Action]) -> list[tuple[Tab, bool]]:
    """A tab for each action, and whether another would do nearly as well.

    The first of its tabs (2 draw before 3 blow: it bends) unless both neighbours turn the breath
    for it and another does not. Common practice, no source.
    """
    found: list[tuple[Tab, bool]] = []
    for at, action in enumerate(actions):
        first = action.tabs[0]
        if len(action.tabs) == 1:
            found.append((first, False))
            continue
        beside = [
            actions[other].tabs[0].breath
            for other in (at - 1, at + 1)
            if 0 <= other < len(actions) and len(actions[other].tabs) == 1
        ]
        others = [tab for tab in action.tabs if tab.breath is not first.breath]
        turned = [breath for breath in beside if breath is not first.breath]
        if others and len(turned) == 2:
            found.append((others[0], True))
        else:
            found.append((first, bool(others and turned)))
    return found
