"""Values and meters against a general music library."""

from __future__ import annotations

from fractions import Fraction

import pytest
from music21 import duration
from music21 import meter as second_meter

from formsheet.music.rhythm import METERS, VALUE_NAMES, Value, parse_value

TYPES = {"w": "whole", "h": "half", "q": "quarter", "e": "eighth", "s": "16th"}
PLAIN_AND_DOTTED = [letter + dots for letter in TYPES for dots in ("", ".", "..")]
TRIPLETS = [letter + "3" for letter in TYPES]


@pytest.mark.parametrize("text", PLAIN_AND_DOTTED)
def test_length_as_music21(text: str) -> None:
    theirs = duration.Duration(type=TYPES[text[0]], dots=text.count("."))
    assert parse_value(text).length == theirs.quarterLength


@pytest.mark.parametrize("text", TRIPLETS)
def test_triplet_as_music21(text: str) -> None:
    theirs = duration.Duration(type=TYPES[text[0]])
    theirs.appendTuplet(duration.Tuplet(3, 2))
    assert parse_value(text).length == Fraction(theirs.quarterLength)


@pytest.mark.parametrize("letter", TYPES)
def test_three_of_a_triplet_take_the_time_of_two(letter: str) -> None:
    assert 3 * parse_value(letter + "3").length == 2 * parse_value(letter).length


@pytest.mark.parametrize("text", [*PLAIN_AND_DOTTED, *TRIPLETS])
def test_value_is_written_as_it_was_read(text: str) -> None:
    assert str(parse_value(text)) == text


def test_dotted_triplet_is_half_as_long_again() -> None:
    assert Value("q", dots=1, triplet=True).length == Fraction(1)


@pytest.mark.parametrize(
    ("text", "name"),
    [("w", "whole"), ("q.", "dotted quarter"), ("h..", "double-dotted half"),
     ("e3", "eighth triplet"), ("s", "sixteenth")],
)  # fmt: skip
def test_value_in_words(text: str, name: str) -> None:
    assert parse_value(text).name == name


def test_every_value_has_words() -> None:
    assert list(VALUE_NAMES) == list(TYPES)


def test_meters_of_the_language() -> None:
    assert list(METERS) == ["4/4", "12/8", "3/4", "6/8"]


@pytest.mark.parametrize("text", METERS)
def test_bar_as_music21(text: str) -> None:
    theirs = second_meter.TimeSignature(text).barDuration.quarterLength
    assert METERS[text].bar == theirs


@pytest.mark.parametrize("text", METERS)
def test_beat_as_music21(text: str) -> None:
    meter, theirs = METERS[text], second_meter.TimeSignature(text)
    assert (meter.beats, meter.beat) == (theirs.beatCount, theirs.beatDuration.quarterLength)


@pytest.mark.parametrize("text", METERS)
def test_compound_meters_divide_in_three_as_music21(text: str) -> None:
    meter, three = METERS[text], second_meter.TimeSignature(text).beatDivisionCount == 3
    assert meter.compound == three


@pytest.mark.parametrize("text", ["4/4", "12/8"])
def test_strong_beats_as_music21(text: str) -> None:
    theirs = second_meter.TimeSignature(text)
    beat = theirs.beatDuration.quarterLength
    weight = theirs.getAccentWeight
    weights = [weight(n * beat) for n in range(theirs.beatCount)]  # type: ignore[no-untyped-call]
    assert METERS[text].strong == {n for n, heavy in enumerate(weights) if heavy >= 0.5}


@pytest.mark.parametrize("text", ["3/4", "6/8"])
def test_only_the_first_beat_of_three_or_two_is_strong(text: str) -> None:
    """Common practice, no source."""
    assert METERS[text].strong == {0}


@pytest.mark.parametrize(
    ("text", "strong"), [("4/4", [0, 2]), ("12/8", [0, 3]), ("3/4", [0]), ("6/8", [0])]
)
def test_places_on_a_strong_beat(text: str, strong: list[int]) -> None:
    meter = METERS[text]
    sixteenths = [Fraction(n, 4) for n in range(int(meter.bar * 4))]
    assert [place for place in sixteenths if meter.on_strong_beat(place)] == strong
