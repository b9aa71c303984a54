"""A form of plain I, IV and V under a tune with blue notes: one remark, with the sevenths."""

from __future__ import annotations

import pytest

from formsheet.problems.problem import Problem, Severity
from tests.helpers import examined, lesson_text, over, own_form


def found_in(text: str) -> list[Problem]:
    return [p for p in examined(text).problems if p.code == "form-plain-triads"]


# On a C harp in 2nd position, key of G: 3d' is Bb, 4d' is Db, 5d is F. That a blues has sevenths is
# common practice, no source; that a b5 alone makes no blues is our own choice.
@pytest.mark.parametrize(
    ("music", "degrees"),
    [("w 3d'", ["b3"]), ("w 4d'", []), ("w 5d", ["b7"]), ("h 5d 3d'", ["b3", "b7"]),
     ("h 5d 4d'", ["b5", "b7"]), ("w 25d", ["b7"]), ("q 2d 3d 4d 4b", []), ("w 2d'", [])],
)  # fmt: skip
def test_blue_notes_over_plain_triads(music: str, degrees: list[str]) -> None:
    assert [p.fields["degrees"] for p in found_in(over("I", music))] == [degrees] * bool(degrees)


@pytest.mark.parametrize(
    ("chords", "said"),
    [("I | IV | V", True), ("I", True), ("I IV | V", True), ("I7 | IV | V", False),
     ("I | IV | V7", False), ("I | ii | V", False), ("i | iv | V", False), ("I6 | IV | V", False)],
)  # fmt: skip
def test_forms_that_may_be_meant_as_a_blues(chords: str, said: bool) -> None:
    bars = chords.count("|") + 1
    music = " | ".join(["h 3d'! 5d!"] * bars)
    assert bool(found_in(over(chords, music))) is said


def test_built_in_form_has_its_sevenths() -> None:
    text = lesson_text("lick a on I, IV, V\n w 3d'!\nplay\n every I a\n every IV a\n every V a")
    assert not found_in(text)


def test_it_is_a_remark_whose_edit_mends_it() -> None:
    text = lesson_text(
        "lick a on I, IV, V\n w 3d'!\nplay\n every I a\n every IV a\n every V a",
        form=own_form("I | IV |  # I, then IV\n  | I | V"),
    )
    (problem,) = found_in(text)
    ((_, edit),) = problem.hints()
    assert (problem.severity, edit is not None) == (Severity.REMARK, True)
    assert edit
    mended = text[: edit.span.start] + edit.text + text[edit.span.end :]
    assert "| I7 | IV7 |  # I, then IV\n  | I7 | V7 |" in mended
    assert not found_in(mended)
