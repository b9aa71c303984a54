"""Half steps in words."""

from __future__ import annotations

import pytest

from formsheet.music.steps import step_words


@pytest.mark.parametrize(
    ("half_steps", "said"),
    [(0, ""), (1, "a half step"), (2, "a whole step"), (3, "a step and a half"),
     (4, "4 half steps"), (9, "9 half steps")],
)  # fmt: skip
def test_steps_as_players_say_them(half_steps: int, said: str) -> None:
    assert step_words(half_steps) == said
