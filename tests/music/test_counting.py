"""How players count. Common practice, no source."""

from __future__ import annotations

from fractions import Fraction

import pytest

from formsheet.music.counting import count_words, division, words_at
from formsheet.music.rhythm import METERS

FOUR, TWELVE = METERS["4/4"], METERS["12/8"]


def places(text: str) -> set[Fraction]:
    return {Fraction(word) for word in text.split()}


@pytest.mark.parametrize(
    ("meter", "onsets", "words"),
    [
        ("4/4", "0 1/4 1/2 3/4 1", "1 | 1 e | 1 & | 1 a | 2"),
        ("4/4", "3 10/3 11/3", "4 | 4 trip | 4 let"),
        ("4/4", "9/8 13/6", "2 + 1/8 | 3 + 1/6"),
        ("12/8", "0 1/2 1 3/2 7/4", "1 | 1 & | 1 a | 2 | 2 + 1/6"),
        ("3/4", "5/2", "3 &"),
        ("6/8", "5/2", "2 a"),
    ],
)
def test_a_place_in_the_bar(meter: str, onsets: str, words: str) -> None:
    found = [count_words(Fraction(onset), METERS[meter]) for onset in onsets.split()]
    assert found == words.split(" | ")


@pytest.mark.parametrize(
    ("inside", "counted"),
    [
        ("", "&"),
        ("0", "&"),
        ("0 1/2", "&"),
        ("0 1/3 2/3", "trip let"),
        ("2/3", "trip let"),
        ("0 1/4 1/2", "e & a"),
        ("3/4", "e & a"),
        ("0 1/6 1/3 1/2", "&"),  # three in half of the beat
    ],
)
def test_how_a_beat_is_divided(inside: str, counted: str) -> None:
    assert division(places(inside), FOUR) == ("", *counted.split())


@pytest.mark.parametrize("inside", ["", "0 1/3", "0 1/2", "0 1/6"])
def test_a_compound_beat_is_divided_in_three(inside: str) -> None:
    assert division(places(inside), TWELVE) == ("", "&", "a")


@pytest.mark.parametrize(
    ("inside", "words"),
    [
        ("0 1/3 2/3", " |trip|let"),
        ("0 1/4 1/2 3/4", " |e|&|a"),
        ("0 1/8 1/2", " |.|&"),
        ("0 1/6 1/3 1/2", " |.|.|&"),
        ("0 1/6 1/3 1/2 3/4", " |.|.|&|."),
    ],
)
def test_words_of_the_places_where_notes_begin(inside: str, words: str) -> None:
    known = words_at(places(inside), FOUR)
    found = [known.get(place, ".") for place in sorted(places(inside))]
    assert found == ["", *words.split("|")[1:]]
