"""The pack's own MusicXML, set to tab again: feel, form, licks and every note come back."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pytest

from formsheet.cli import main
from formsheet.exports.musicxml.score import musicxml
from formsheet.tune.timeline import Tune
from tests.helpers import tune_of
from tests.lessons import NAMES, demo


@pytest.mark.parametrize("name", NAMES)
def test_a_demo_comes_back(name: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    tune = demo(name).tune
    assert tune
    path = tmp_path / "tune.musicxml"
    path.write_text(musicxml(tune), encoding="utf-8")
    assert main(["tab", str(path), "--lesson"]) == 0
    found = tune_of(capsys.readouterr().out)
    assert notes(found) == notes(tune)
    assert feels(found) == feels(tune)
    assert found.lesson.facts.feel == tune.lesson.facts.feel
    assert found.lesson.form == tune.lesson.form
    assert found.lesson.facts.harp == tune.lesson.facts.harp
    assert found.lesson.facts.tempo == tune.lesson.facts.tempo
    assert [bar.chords for bar in found.bars] == [bar.chords for bar in tune.bars]
    assert licks(found) == licks(tune)


def notes(tune: Tune) -> list[tuple[object, ...]]:
    return [
        (
            note.played.mark.tab,
            note.played.mark.technique,
            note.played.mark.syllable,
            tune.bars[note.bar].start + note.onset,
            note.duration,
        )
        for note in tune.notes
    ]


def feels(tune: Tune) -> list[tuple[Fraction, bool]]:
    swings = tune.lesson.facts.feel.swings
    return [
        (bar.start + each.onset, swings if each.mark.swings is None else each.mark.swings)
        for bar in tune.bars
        for each in bar.marks
        if each.mark.tab
    ]


def licks(tune: Tune) -> list[tuple[int, int, str]]:
    """The bars of each lick as it is played: from where, how many, and its title."""
    found: list[tuple[int, int, str]] = []
    for index, bar in enumerate(tune.bars):
        if not bar.lick:
            continue
        last = found[-1] if found else (-1, 0, "")
        starts = bar.slot.bar_in_lick == 0 and bar.slot.round == 1
        if starts or last[2] != bar.lick.title or last[0] + last[1] != index:
            found.append((index, 1, bar.lick.title))
        else:
            found[-1] = (last[0], last[1] + 1, last[2])
    return found
