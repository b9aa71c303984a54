"""Times to places: swing, triplets, sixteenths, twelve-eight, drift; lengths."""

from __future__ import annotations

from fractions import Fraction as F
from random import Random

import pytest

from formsheet.hearing.beat_grid import fitted, sounding
from formsheet.hearing.lengths import endings
from formsheet.hearing.tempo import feel_of, tempi_of
from formsheet.music.swing import STRAIGHT, SWING, Feel

EIGHTHS = [F(n, 2) for n in (0, 1, 2, 3, 5, 6, 7, 8, 9, 11, 12)]
TRIPLETS = [F(0), F(1, 3), F(2, 3), F(1), F(3, 2), F(2), F(3), F(10, 3), F(11, 3), F(4)]
SIXTEENTHS = [F(0), F(1, 4), F(1, 2), F(1), F(7, 4), F(2), F(5, 2), F(11, 4), F(3)]


def played(
    places: list[F], feel: Feel, beat: float, compound: bool = False, sd: float = 0.0,
    drift: float = 0.0,
) -> list[float]:  # fmt: skip
    random = Random(7)
    return [
        1.0 + beat * at + drift * beat * at * at / 2 + random.gauss(0, sd)
        for at in sounding(places, feel, compound)
    ]


@pytest.mark.parametrize("places", [EIGHTHS, TRIPLETS, SIXTEENTHS])
@pytest.mark.parametrize("feel", [STRAIGHT, SWING])
@pytest.mark.parametrize("beat", [0.5, 0.9])
def test_exact_times(places: list[F], feel: Feel, beat: float) -> None:
    if feel is SWING and places is TRIPLETS:
        places = [place for place in places if place % 1 != F(1, 2)]
    if feel is SWING and places is SIXTEENTHS and beat < 0.6:
        return  # a lone last sixteenth is taken for a swung eighth there: see the grid
    found = fitted(played(places, feel, beat), 1.0, beat, feel, False, fixed=True)
    assert list(found.places) == places
    assert not any(found.unsure)


@pytest.mark.parametrize("feel", [STRAIGHT, SWING])
def test_a_human_who_drifts(feel: Feel) -> None:
    """Jitter of 15 ms, the tempo 3 per cent off at the end of three bars."""
    times = played(EIGHTHS, feel, 0.6, sd=0.015, drift=0.03 / 12)
    found = fitted(times, 1.0, 0.6, feel, False, fixed=True)
    assert list(found.places) == EIGHTHS


def test_twelve_eight() -> None:
    places = [F(0), F(1, 3), F(2, 3), F(1), F(5, 3), F(2), F(3), F(11, 3), F(4)]
    found = fitted(played(places, STRAIGHT, 0.8, True), 1.0, 0.8, STRAIGHT, True, fixed=True)
    assert list(found.places) == places


def test_a_time_between_two_places_is_a_doubt() -> None:
    times = played(EIGHTHS, STRAIGHT, 0.6)
    times[3] += 0.045
    found = fitted(times, 1.0, 0.6, STRAIGHT, False, fixed=True)
    assert [at for at, unsure in enumerate(found.unsure) if unsure] == [3]


@pytest.mark.parametrize("feel", [STRAIGHT, SWING])
def test_feel(feel: Feel) -> None:
    times = played(EIGHTHS, feel, 0.6, sd=0.01)
    assert feel_of(times, 1.0, 0.6, False, True) == feel


@pytest.mark.parametrize("per_minute", [72, 96, 120])
@pytest.mark.parametrize("feel", [STRAIGHT, SWING])
def test_tempo(per_minute: int, feel: Feel) -> None:
    times = played(EIGHTHS, feel, 60 / per_minute, sd=0.008)
    first, *others = tempi_of(times, False, None)
    # Swung eighths are triplets of a tempo and plain ones of one half as fast again: then the right
    # one is named second.
    if per_minute == 72 and feel is SWING:
        first = others[0]
    assert first.per_minute == pytest.approx(per_minute, rel=0.03)
    assert first.feel == feel


def test_lengths_go_to_the_next_attack_unless_there_is_a_gap() -> None:
    places = [F(0), F(1), F(2), F(3)]
    beat = 0.6
    times = played(places, STRAIGHT, beat)
    grid = fitted(times, 1.0, beat, STRAIGHT, False, fixed=True)
    ends = [times[1] - 0.05, times[1] + 0.27, times[3], times[3] + 0.55]
    found = endings(places, ends, grid, STRAIGHT, False)
    assert [each.place for each in found] == [1, F(3, 2), 3, 4]
