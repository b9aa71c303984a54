"""Half steps as players say them."""

from __future__ import annotations

_STEPS = ("", "a half step", "a whole step", "a step and a half")


def step_words(half_steps: int) -> str:
    """A distance in half steps, from 0 (""): "a whole step", "4 half steps".

    A Richter harp bends at most three half steps. Other tunings may bend deeper, for which players
    have no shorter word. Common practice, no source.
    """
    return _STEPS[half_steps] if half_steps < len(_STEPS) else f"{half_steps} half steps"
