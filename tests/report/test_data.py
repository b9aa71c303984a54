"""The data of a shelf and of a lesson with mistakes; a good lesson's is held in test_cli."""

from __future__ import annotations

import json

from formsheet.report.data import check_data, tune_data
from tests.helpers import examined, over


def test_problems_come_with_every_kind_of_data() -> None:
    found = examined(over("I", "w 2x"))
    assert [p["code"] for p in tune_data(found)["problems"]] == ["note-breath"]
    assert [p["code"] for p in check_data(found)["problems"]] == ["note-breath"]


def test_data_is_plain() -> None:
    found = examined(over("I | IV", 'pickup e 1d\n h 2d!{wah}"ta" 123d | w 3d'))
    for data in (tune_data(found), check_data(found)):
        assert json.loads(json.dumps(data)) == data


def test_what_is_attached_to_a_note() -> None:
    found = examined(over("I", 'w 2d!{wah}"ta"'))
    (note,) = tune_data(found)["bars"][0]["notes"]
    assert (note["deliberate"], note["technique"], note["syllable"]) == (True, "wah", "ta")
    plain = tune_data(examined(over("I", "w 2d")))["bars"][0]["notes"][0]
    assert (plain["deliberate"], plain["technique"], plain["syllable"]) == (False, None, None)


def test_pitches_are_spelled_over_their_chord() -> None:
    """In G: 3 draw bent is Bb over I, its minor third; the third of VI7, E7, is G#."""
    found = examined(over("I | VI7", "w 3d' | 3d'''"))
    notes = [bar["notes"][0]["pitch"] for bar in tune_data(found)["bars"]]
    assert notes == [["Bb4"], ["G#4"]]
