"""Swing against tempo.

Friberg and Sundstrom, Music Perception 19 (2002) 333: the short note of a swung pair stays near
100 ms. At 2:1 it is a third of a beat: 100 ms at 200 beats a minute.
"""

from __future__ import annotations

from typing import Any

import pytest

from formsheet.problems.problem import Problem, Severity
from tests.helpers import over, problems_of

EIGHTHS = "e 2d 2d 2d 2d 2d 2d 2d 2d"


def warnings_of(tempo: str, feel: str, music: str = EIGHTHS, **facts: str) -> list[Problem]:
    text = over("I", music, tempo=tempo, feel=feel, **facts)
    return [p for p in problems_of(text) if p.code == "swing-short-note"]


@pytest.mark.limit("music.swing.SHORTEST_SWUNG_NOTE")
@pytest.mark.parametrize(
    ("tempo", "feel", "warned"),
    [
        ("200", "swing", False),
        ("201", "swing", True),
        ("150", "swing 3:1", False),
        ("151", "swing 3:1", True),
        ("240", "swing 3:2", False),
        ("241", "swing 60%", True),
        ("300", "straight", False),
        ("300", "swing 50%", False),
        ("60", "swing 99%", True),
    ],
)
def test_short_note_of_a_hundred_milliseconds(tempo: str, feel: str, warned: bool) -> None:
    assert bool(warnings_of(tempo, feel)) is warned


@pytest.mark.parametrize(
    ("music", "facts"),
    [
        ("q 2d 2d 2d 2d", {}),
        ("e3 2d 2d 2d h. -", {}),
        ("s 2d 2d 2d 2d h. -", {}),
        ("straight " + EIGHTHS, {}),
        ("e 2d 2d 2d q. 2d 2d 2d", {"meter": "12/8"}),
    ],
)
def test_nothing_is_said_where_no_eighth_swings(music: str, facts: dict[str, str]) -> None:
    assert not warnings_of("280", "swing", music, **facts)


def test_swing_mark_in_a_straight_lesson() -> None:
    assert warnings_of("280", "straight", "swing " + EIGHTHS)


def found(tempo: str, feel: str) -> dict[str, Any]:
    (problem,) = warnings_of(tempo, feel)
    return problem.fields


def test_what_is_said() -> None:
    """At 240 a third of a beat is 83 ms; 60% leaves the short note 100 ms."""
    facts = found("240", "swing")
    assert (facts["have"], facts["least"], facts["share"]) == (83, 100, "60%")


def test_it_is_a_warning_at_the_tempo() -> None:
    (problem,) = warnings_of("240", "swing")
    assert (problem.severity, problem.span.text) == (Severity.WARNING, "240")


@pytest.mark.parametrize("tempo", range(201, 300))
def test_the_share_that_is_offered_is_long_enough(tempo: int) -> None:
    share = found(str(tempo), "swing")["share"]
    assert not warnings_of(str(tempo), f"swing {share}")
