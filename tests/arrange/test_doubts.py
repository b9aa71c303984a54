"""Texts that speak of the old tab: holes, breath and notes that they name."""

from __future__ import annotations

import pytest

from formsheet.arrange.doubts import doubt
from formsheet.arrange.retab import Asked, Retabbed, retabbed
from formsheet.arrange.rewrite import doubted, doubts, rewritten
from formsheet.language.parse import parse
from formsheet.lesson.shelves import Shelves
from formsheet.music.harp import Harp
from formsheet.source import Source
from formsheet.stages import examine
from tests.helpers import NO_FOLDER, lesson_of, over

FIRST = Asked(position=1)  # from 2nd position: the key stays, the holes change
LOWER = Asked(harp=Harp("Bb"), position=2)  # the holes stay, the key goes from G to F


def done(asked: Asked, music: str = "q 2d 3d 4d 2d") -> Retabbed:
    lesson = lesson_of(over("I", music))
    return retabbed(lesson.facts, lesson.key, lesson.licks, asked)


@pytest.mark.parametrize(
    ("text", "why"),
    [
        ("Let the 2 draw ring.", "the holes have changed (2 draw is now 4b)"),
        ("Let the 2-draw ring.", "the holes have changed (2-draw is now 4b)"),
        ("Start on 2d.", "the holes have changed (2d is now 4b)"),
        (
            "From 2 draw to 4 draw.",
            "the holes have changed (2 draw is now 4b, 4 draw is now 6b)",
        ),
        ("Hole 4 is wide.", "the holes have changed"),
        ("Draw gently.", "the holes have changed"),
        ("Let the 7 draw ring.", "the holes have changed"),  # not in this lick: read it
        ("Play it softly, in bar 2.", ""),
        ("Two times, 4 beats each.", ""),
        ("Land on the G.", ""),  # the key stays
    ],
)
def test_where_the_holes_change(text: str, why: str) -> None:
    assert doubt(text, done(FIRST), ["run"]) == why


def test_a_bent_hole_that_is_named_is_the_bent_one() -> None:
    found = done(Asked(position=3), "q 3d' 3d 2d -")
    assert doubt("The 3 draw.", found, ["run"]) == "the holes have changed (3 draw is now 2d')"
    assert (
        doubt("The bent 3 draw.", found, ["run"]) == "the holes have changed (3 draw is now 2d'')"
    )


@pytest.mark.parametrize(
    ("text", "why"),
    [
        ("Let the 2 draw ring.", ""),
        ("Draw gently from hole 3.", ""),
        ("Land on the G.", "the notes have changed (G is now F)"),
        ("From D to Bb7.", "the notes have changed (D is now C, Bb is now Ab)"),
        ("From D to B♭.", "the notes have changed (D is now C, B♭ is now Ab)"),
        ("Rest on the A.", "the notes have changed (A is now G)"),
        ("A question hangs.", ""),
        ("It is A, as in answer.", ""),
        ("Dig in. Count to Eight.", ""),
        ("Over the V chord, then IV.", ""),
    ],
)
def test_where_the_key_changes(text: str, why: str) -> None:
    assert doubt(text, done(LOWER), ["run"]) == why


def test_both() -> None:
    found = done(Asked(harp=Harp("F"), position=1))
    assert doubt("The 2 draw is G.", found, ["run"]) == (
        "the holes have changed (2 draw is now 1b) and the notes have changed (G is now F)"
    )


def test_a_hole_that_stays_is_not_doubted() -> None:
    """In first position on a C harp the lick's notes are elsewhere, but one tab is the same."""
    music = "q 2d 3d 2d 3d"
    found = done(Asked(harp=Harp("C"), position=2), music)
    assert doubt("Let the 2 draw ring.", found, ["run"]) == ""


def written(text: str, asked: Asked) -> str:
    found = examine(Source("a.lesson", text), Shelves(NO_FOLDER))
    assert found.lesson
    moved = retabbed(found.lesson.facts, found.lesson.key, found.lesson.licks, asked)
    tree, _ = parse(Source("a.lesson", text))
    return rewritten(tree, moved, {})


def test_the_reason_stands_behind_the_tip() -> None:
    text = over("I", "w 2d\n  tip Let the 2 draw ring.  # mine\n  tip Be calm.")
    lines = written(text, FIRST).splitlines()
    assert (
        "  tip Let the 2 draw ring.  # mine  # read again: "
        "the holes have changed (2 draw is now 4b)"
    ) in lines
    assert "  tip Be calm." in lines


def test_moved_again_the_old_reason_goes() -> None:
    text = over("I", "w 2d\n  tip Let the 2 draw ring.")
    there = written(text, FIRST)
    back = written(there, Asked(position=2))
    assert "# read again: the holes have changed\n" in back
    assert back.count("read again") == there.count("read again") == 1


def test_a_lick_as_text() -> None:
    text = "lick run on I\n  w 4b\n  tip Let the 2 draw ring.\n  tip Be calm."
    assert doubted(text, done(FIRST)).splitlines()[2:] == [
        "  tip Let the 2 draw ring.  # read again: the holes have changed (2 draw is now 4b)",
        "  tip Be calm.",
    ]


def test_what_is_said_to_the_student_is_held_against_all_licks() -> None:
    text = over("I", "w 2d", say="The 2 draw is home.")
    tree, _ = parse(Source("a.lesson", text))
    assert [(each.place, each.why) for each in doubts(tree, done(FIRST))] == [
        ("line 7", "the holes have changed (2 draw is now 4b)")
    ]
