"""From a lesson to MusicXML and back through `tab`: the same pitches at the same times."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pytest

from formsheet.cli import main
from formsheet.exports.musicxml.score import musicxml
from formsheet.lesson.shelves import Shelves
from formsheet.music.key import position_name
from formsheet.music.tunings import TUNINGS
from formsheet.stages import examine_file
from formsheet.tune.timeline import Tune
from tests.helpers import told
from tests.lessons import NAMES, demo

Sounding = list[tuple[tuple[int, ...], Fraction, Fraction]]


def sounding(tune: Tune) -> Sounding:
    """Pitches, onset from the first note on, and length of every note."""
    places = [tune.bars[note.bar].start + note.onset for note in tune.notes]
    return [
        (note.midi, place - places[0], note.duration)
        for note, place in zip(tune.notes, places, strict=True)
    ]


@pytest.mark.parametrize("name", NAMES)
def test_the_tune_comes_back(name: str, tmp_path: Path) -> None:
    tune = demo(name).tune
    assert tune
    facts = tune.lesson.facts
    if facts.harp.tuning.name not in TUNINGS:
        pytest.skip("a tuning of its own has no name that `tab` knows")
    score, back = tmp_path / "tune.musicxml", tmp_path / "back.lesson"
    score.write_text(musicxml(tune), encoding="utf-8")
    words = ["tab", str(score), "--harp", facts.harp.name, "--octave", "0", "--overbends"]
    words += ["--position", position_name(facts.position), "--tuning", facts.harp.tuning.name]
    assert main([*words, "--lesson", "--out", str(back)]) == 0
    found = examine_file(back, back.name, Shelves(tmp_path))
    assert found.tune, told(found.problems)
    assert sounding(found.tune) == sounding(tune)
    assert found.tune.lesson.key.tonic == tune.lesson.key.tonic
