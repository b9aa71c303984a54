"""Exports of every lesson of the tests that can be played at all, odd as they are."""

from __future__ import annotations

from pathlib import Path

from formsheet.exports.musicxml.score import musicxml
from formsheet.exports.text import text_tab
from formsheet.lesson.shelves import Shelves
from formsheet.stages import examine_file
from formsheet.tune.timeline import Tune
from tests.exports.musicxml_schema import musicxml_schema
from tests.exports.test_text import pairs_of_rows

TESTS = Path(__file__).parents[1]


def tunes() -> list[Tune]:
    paths = sorted([*TESTS.glob("errors/*.lesson"), *TESTS.glob("colleague/*.lesson")])
    found = [examine_file(path, path.name, Shelves(path.parent)).tune for path in paths]
    return [tune for tune in found if tune]


def test_odd_lessons_have_their_exports() -> None:
    played = tunes()
    assert len(played) > 20
    for tune in played:
        assert musicxml_schema().is_valid(musicxml(tune)), tune.lesson.facts.title
        for counts, signs in pairs_of_rows(text_tab(tune)):
            assert len(counts.split()) == len(signs.split())
