"""The count-in: clicks, accents, and room for a pick-up."""

from __future__ import annotations

import pytest

from formsheet.music.rhythm import METERS
from formsheet.sound.count_in import ACCENT, CLICK, bars_before, click_events


@pytest.mark.parametrize(("meter", "beats"), [("4/4", 4), ("3/4", 3), ("12/8", 4), ("6/8", 2)])
def test_each_bar_begins_with_an_accent(meter: str, beats: int) -> None:
    clicks = click_events(METERS[meter], 2, start=10.0)
    assert [click.start for click in clicks] == [10.0 + beat for beat in range(2 * beats)]
    assert [click.midi[0] for click in clicks] == [ACCENT, *[CLICK] * (beats - 1)] * 2
    assert clicks[0].loudness > clicks[1].loudness


@pytest.mark.parametrize(
    ("count_in", "pickup", "bars"),
    [
        (1, 0.0, 1),
        (2, 0.0, 2),
        (0, 0.0, 0),
        (1, 1.0, 1),  # one, two, three, and in
        (1, 2.0, 1),
        (1, 2.5, 2),  # too little would be counted
        (2, 3.5, 2),
        (0, 1.0, 1),  # room for the pick-up alone
    ],
)
def test_a_pickup_is_played_within_the_count(count_in: int, pickup: float, bars: int) -> None:
    assert bars_before(METERS["4/4"], count_in, pickup) == bars
