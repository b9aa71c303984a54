"""The same tab for a student with another harp."""

from __future__ import annotations

import pytest

from formsheet.lesson.shelves import Shelves
from formsheet.music.harp import Harp
from formsheet.source import Source
from formsheet.stages import Examined, examine
from tests.helpers import NO_FOLDER, over


def on(harp: Harp | None, text: str) -> Examined:
    return examine(Source("test.lesson", text), Shelves(NO_FOLDER), harp)


def pitches(each: Examined) -> list[int]:
    assert each.tune
    return [pitch for note in each.tune.notes for pitch in note.midi]


# Registers and distances of harps: a low F sounds a fifth below C, a G a fourth below.
@pytest.mark.parametrize(
    ("harp", "key", "distance"),
    [(Harp("G"), "D", -5), (Harp("A"), "E", -3), (Harp("F", "low"), "C", -7), (Harp("F"), "C", 5)],
)
def test_tab_stays_and_the_pitches_and_the_key_move(harp: Harp, key: str, distance: int) -> None:
    text = over("I", "q 2d 3d' 4d 12b")
    own, other = on(None, text), on(harp, text)
    assert own.tune
    assert other.tune
    assert [str(n.tab) for n in other.tune.notes] == [str(n.tab) for n in own.tune.notes]
    assert pitches(other) == [pitch + distance for pitch in pitches(own)]
    assert (other.tune.lesson.key.name, other.tune.lesson.facts.position) == (key, 2)


def test_fits_are_the_same_on_every_harp() -> None:
    text = over("IV", "q 3d 4b 5d 6b")
    assert [p.code for p in on(Harp("Bb"), text).problems] == [
        p.code for p in on(None, text).problems
    ]


def test_the_lessons_tuning_is_kept() -> None:
    text = over("i", "w 2b", tuning="natural minor")
    assert pitches(on(Harp("D"), text)) == [pitch + 2 for pitch in pitches(on(None, text))]
