"""What each level of student is asked to do, on both sides of each number of `judge/level.py`.

All these numbers are our own choice. A bar is played at tempos that put the time between two notes
just above and just below the limit.
"""

from __future__ import annotations

import pytest

from tests.helpers import over, problems_of
from tests.judge.test_handling import said

#: Hole 3 draw an octave above its blow reed: the only way to bends deeper than three half steps.
WIDE_TUNING = "wide\n  blow C E G C E G C E G C\n  draw D G G5 D F A B D F A"


# ---- Bends -----------------------------------------------------------------------------------


@pytest.mark.limit("judge.level.LIMITS")
@pytest.mark.parametrize(
    ("level", "passes", "too_deep"),
    [("beginner", "3d'", "3d''"), ("improver", "3d'''", "3d''''"), ("advanced", "3d'''", "3d''''")],
)
def test_the_deepest_bend(level: str, passes: str, too_deep: str) -> None:
    for note, slugs in ((passes, []), (too_deep, ["bend-hard"])):
        assert said(f"h {note} 3d", level=level, tuning=WIDE_TUNING) == slugs


@pytest.mark.limit("judge.level.LIMITS")
@pytest.mark.parametrize("level", ["beginner", "improver", "advanced"])
def test_overbends(level: str) -> None:
    slugs = [] if level == "advanced" else ["overbend-taught"]
    assert said("h 6ob 6d", level=level) == slugs


@pytest.mark.limit("judge.level.LIMITS")
@pytest.mark.parametrize(("level", "most"), [("beginner", 2), ("improver", 3), ("advanced", 5)])
@pytest.mark.parametrize("more", [0, 1])
def test_deep_bends_in_a_row(level: str, most: int, more: int) -> None:
    bent = most + more
    music = f"e {' '.join(['2d' + chr(39) * 2] * bent)} {' '.join(['2d'] * (8 - bent))}"
    assert said(music, level=level).count("bends-repeated") == more


@pytest.mark.limit("judge.level.DEEP_BEND")
@pytest.mark.parametrize(("bend", "slugs"), [("3d'", []), ("3d''", ["bends-repeated"])])
def test_a_bend_is_deep_from_a_whole_step_on(bend: str, slugs: list[str]) -> None:
    assert said(f"e {bend} {bend} {bend} {bend} h 2d", level="improver") == slugs


# ---- Turns of the breath ---------------------------------------------------------------------


# Sixteenths last 15 s / tempo, eighths 30 s / tempo.
@pytest.mark.limit("judge.level.LIMITS")
@pytest.mark.parametrize(
    ("level", "music", "slower", "faster"),
    [
        ("beginner", "e 2d 3b 2d 3b h 3b", "123", "127"),  # 244 ms, 236 ms
        ("improver", "e 2d 3b 2d 3b h 3b", "196", "207"),  # 153 ms, 145 ms
        ("advanced", "s 2d 3b 2d 3b h. 3b", "145", "155"),  # 103 ms, 97 ms
    ],
)
def test_the_fastest_turns(level: str, music: str, slower: str, faster: str) -> None:
    for tempo, slugs in ((slower, []), (faster, ["turns-fast"])):
        assert said(music, level=level, tempo=tempo) == slugs


@pytest.mark.limit("judge.level.TURNS_IN_A_ROW")
@pytest.mark.parametrize(
    ("music", "slugs"),
    [("e 2d 3b 2d 2d h 2d", []), ("e 2d 3b 2d 3b h 3b", ["turns-fast"])],
)
def test_three_turns_in_a_row_are_a_finding(music: str, slugs: list[str]) -> None:
    assert said(music, tempo="240") == slugs


# ---- Slides ----------------------------------------------------------------------------------


# From 2 to 6 are four holes: log2(5) bits of Fitts' index, 349 ms at ease (see `judge/effort.py`).
# The limits are 384, 297 and 209 ms. An eighth lasts 30 s / tempo.
@pytest.mark.limit("judge.level.LIMITS", "judge.effort.NEW_NOTE", "judge.effort.SLIDE_PER_BIT")
@pytest.mark.parametrize(
    ("level", "slower", "faster"),
    [
        ("beginner", "78", "78.5"),  # 385 ms, 382 ms
        ("improver", "100.5", "101.7"),  # 299 ms, 295 ms
        ("advanced", "142.2", "144.5"),  # 211 ms, 208 ms
    ],
)
def test_the_time_for_a_wide_slide(level: str, slower: str, faster: str) -> None:
    for tempo, slugs in ((slower, []), (faster, ["slide-too-fast"])):
        assert said("e 2d 6d q 6d h 6d", level=level, tempo=tempo) == slugs


@pytest.mark.limit("judge.level.WIDE_SLIDE")
@pytest.mark.parametrize(("note", "slugs"), [("5d", []), ("6d", ["slide-too-fast"])])
def test_a_slide_is_wide_from_four_holes_on(note: str, slugs: list[str]) -> None:
    assert said(f"e 2d {note} q {note} h {note}", tempo="240") == slugs


@pytest.mark.limit("judge.level.WIDE_SLIDE")
def test_what_is_offered_for_a_wide_slide_is_no_wide_slide() -> None:
    """From 9 draw, over I7: notes three holes away at most."""
    (problem,) = [
        p for p in problems_of(over("I7", "e 9d 2d q 2d h 2d", tempo="240"))
        if p.code == "slide-too-fast"
    ]  # fmt: skip
    assert problem.fields["offers"] == ["9d", "8d", "7d"]
