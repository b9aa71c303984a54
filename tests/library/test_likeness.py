"""Licks that are much alike, each group once."""

from __future__ import annotations

import random
from itertools import combinations
from pathlib import Path

import pytest

from formsheet.library.likeness import Likeness, _events, alike
from formsheet.library.usage import Library
from tests.library.folders import groups, read


def shelf(*music: str, facts: str = "") -> str:
    """A shelf of licks a, b, c, ..., each of them on I unless it begins with its chords."""
    licks = []
    for name, line in zip("abcdefgh", music, strict=False):
        chords, _, marks = line.rpartition(":")
        licks.append(f"lick {name} on {chords or 'I'}\n  {marks}\n")
    return f"{facts}\n{''.join(licks)}"


def same(folder: Path, *music: str) -> list[str]:
    return groups(read(folder, shelf__x=shelf(*music)), Likeness.SAME)


@pytest.mark.parametrize(
    ("first", "second", "alike"),
    [
        ("q 2d 3d 4d -", "q 2d 3d 4d -", True),
        ("q 2d 3d h 4d", "q 2d 3d 4d =", True),  # a hold for a longer value
        ("q 2d 3d q. 4d e -", "q 2d 3d q. 4d s - -", True),  # rests spelt otherwise
        ("[ q 2d 3d ]x2", "q 2d{wah} 3d\"ta\" 2d 3d!", True),  # what does not sound
        ("q 2d 3d 4d -", "q 2d 3d 4d' -", False),
        ("q 2d 3d 4d -", "q 2d 3d - 4d", False),
        ("e 2d 3d h. -", "swing e 2d 3d h. -", False),
        ("w 2d", "w 2d | w -", True),  # a bar of rest more sounds the same
    ],
)  # fmt: skip
def test_same_tab_and_rhythm(tmp_path: Path, first: str, second: str, alike: bool) -> None:
    assert same(tmp_path, first, second) == (["a b"] if alike else [])


def test_same_lick_in_two_files(tmp_path: Path) -> None:
    made = read(tmp_path, shelf__x=shelf("w 2d"), shelf__y=shelf("w 2d"))
    (group,) = alike(made.licks.values())
    assert [home.file for home in group.licks] == ["shelf/x.licks", "shelf/y.licks"]


@pytest.mark.limit("library.likeness._LEAST_BUT_ONE")
@pytest.mark.parametrize(
    ("first", "second", "alike"),
    [
        ("q 2d 3d 4d 5d", "q 2d 3d 4d 6d", True),  # another hole
        ("e 2d 3d q 4d 5d 6d", "e 2d 3d q 4d 5d -", True),  # one more
        ("q 2d 3d 4d 5d", "q 2d 3d 4d -", False),  # three notes of four: too few
        ("q 2d 3d 4d e 5d -", "q 2d 3d 4d 5d", True),  # longer
        ("q 2d 3d 4d 5d", "q 2d 3d 5d 4d", False),
        ("q 2d 3d 4d -", "q 2d 3d 5d -", False),  # three notes: too few
        ("q 2d 3d 4d 5d", "q 2d 3d 4d 5d", False),  # the same
    ],
)
def test_same_but_one_note(tmp_path: Path, first: str, second: str, alike: bool) -> None:
    made = read(tmp_path, shelf__x=shelf(first, second))
    assert groups(made, Likeness.BUT_ONE_NOTE) == (["a b"] if alike else [])


def test_three_that_differ_in_the_same_note_are_one_group(tmp_path: Path) -> None:
    made = read(tmp_path, shelf__x=shelf("q 2d 3d 4d 5d", "q 2d 3d 4d 6d", "q 2d 3d 4d 4b"))
    assert groups(made, Likeness.BUT_ONE_NOTE) == ["a b c"]


# Second position on a C harp: the key is G. 2 draw 3 draw 4 draw are root, third and fifth of I
# (G B D); 4 blow 5 blow 6 blow those of IV (C E G). Richter layout as in the harp's own tests.
@pytest.mark.limit("library.likeness._LEAST_RECAST")
@pytest.mark.parametrize(
    ("first", "second", "alike"),
    [
        ("q 2d 3d 4d -", "IV: q 4b 5b 6b -", True),
        ("q 2d 3d 4d -", "IV: q 4b 5b - 6b", False),
        ("q 2d 3d 4d -", "IV: q 4b 5b 6d -", False),
        ("h 2d q 3d 4d", "I IV: h 2d q 5b 6b", True),  # the chord changes on beat 3
        ("q 2d 3d 4d -", "q 3b 3d 4d -", True),  # the same note on another hole
        ("h 2d 3d", "IV: h 4b 5b", False),  # two notes: too few
    ],
)
def test_same_degrees_on_other_holes(tmp_path: Path, first: str, second: str, alike: bool) -> None:
    made = read(tmp_path, shelf__x=shelf(first, second))
    assert groups(made, Likeness.RECAST) == (["a b"] if alike else [])


def test_same_degrees_in_another_position(tmp_path: Path) -> None:
    """In first position on a C harp I is C: 4 blow 5 blow 6 blow are its root, third, fifth."""
    first = shelf("q 4b 5b 6b -", facts="position 1st")
    second = shelf("w 1d", "q 2d 3d 4d -", facts="position 2nd")
    assert groups(read(tmp_path, shelf__x=first, shelf__y=second), Likeness.RECAST) == ["a b"]


def test_one_note_against_every_pair(tmp_path: Path) -> None:
    """The index finds what holding every lick against every other finds, and no more."""
    rolled = random.Random(6)
    music = [
        " ".join(["e", *rolled.choices(["2d", "3d", "-"], weights=[4, 4, 2], k=8)])
        for _ in range(60)
    ]
    text = "".join(f"lick l{at} on I\n  {line}\n" for at, line in enumerate(music))
    made = read(tmp_path, shelf__x=text)
    found = {
        pair
        for group in alike(made.licks.values())
        if group.likeness is Likeness.BUT_ONE_NOTE
        for pair in combinations(sorted(home.name for home in group.licks), 2)
    }
    assert found - {pair for pair in found if _equal(made, pair)} == _one_note_pairs(made)


def _sounding(made: Library, name: str) -> frozenset[object]:
    (entry,) = (entry for home, entry in made.licks.items() if home.name == name)
    return frozenset(_events(entry.lick, entry.facts.meter.bar))


def _equal(made: Library, pair: tuple[str, str]) -> bool:
    return _sounding(made, pair[0]) == _sounding(made, pair[1])


def _one_note_pairs(made: Library) -> set[tuple[str, str]]:
    pairs = set()
    for first, second in combinations(sorted(home.name for home in made.licks), 2):
        one, two = _sounding(made, first), _sounding(made, second)
        long_enough = min(len(one), len(two)) >= 4
        if one != two and long_enough and len(one - two) <= 1 and len(two - one) <= 1:
            pairs.add((first, second))
    return pairs
