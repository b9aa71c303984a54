"""Lesson to MusicXML to tab to lesson: the same tune."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pytest

from formsheet.arrange.melody import melody_lesson, melody_line
from formsheet.arrange.rank import ranked
from formsheet.exports.musicxml.score import musicxml
from formsheet.lesson.model import Lesson
from formsheet.lesson.writing import lesson_text
from formsheet.notes.quantise import quantised
from formsheet.notes.score import read_score
from formsheet.tune.timeline import Tune
from tests.helpers import tune_of
from tests.lessons import NAMES, demo

Notes = list[tuple[tuple[int, ...], Fraction, Fraction]]


def notes(tune: Tune) -> Notes:
    return [(n.midi, tune.bars[n.bar].start + n.onset, n.duration) for n in tune.notes]


def back(lesson: Lesson, path: Path) -> Lesson:
    """The score as a lesson on the same harp."""
    melody = quantised(read_score(path))
    assert melody.key == lesson.key
    on_its_harp = [(lesson.facts.position, lesson.facts.harp)]
    layout = ranked([melody_line(melody)], on_its_harp, overbends=True, octaves=(0,))[0]
    return melody_lesson(melody, layout, lesson.key, "all")


@pytest.mark.parametrize("name", NAMES)
def test_the_tune_comes_back(name: str, tmp_path: Path) -> None:
    tune = demo(name).tune
    assert tune
    path = tmp_path / "tune.musicxml"
    path.write_text(musicxml(tune), encoding="utf-8")
    found = back(tune.lesson, path)
    assert notes(tune_of(lesson_text(found))) == notes(tune)
    assert found.facts.tempo == tune.lesson.facts.tempo
