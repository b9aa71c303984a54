"""Rhythms: values and places for notes, filled by licks."""

from __future__ import annotations

import pytest

from tests.helpers import lesson_text, lick_of, only_problem, slugs_of


def with_rhythm(rhythm: str, notes: str, on: str = "I, IV, V") -> str:
    """A lesson whose one lick, in a rhythm, fills every bar."""
    return lesson_text(
        f"rhythm trot {rhythm}\nlick run on {on} in trot\n  {notes}\n"
        "play\n  every I run\n  every IV run\n  every V run"
    )


def marks(text: str) -> list[str]:
    """Each bar's marks with their values: "4d q"."""
    return [
        " ".join(f"{mark.tab or mark.kind.value} {mark.value}" for mark in bar)
        for bar in lick_of(text).bars
    ]


@pytest.mark.parametrize(
    ("rhythm", "notes", "bar"),
    [
        ("q x x x x", "4d 5d 6d 6b", "4d q 5d q 6d q 6b q"),
        ("q x e x x - x q x", "4d 3d 34d 4d' 2d",
         "4d q 3d e 34d e rest e 4d' e 2d q"),
        ("h x q = -", "2d", "2d h hold q rest q"),
        ("[e x x]x4", "1d 2d 3d 4d 5d 6d 7d 8d",
         "1d e 2d e 3d e 4d e 5d e 6d e 7d e 8d e"),
        ("\n  q x x\n  h x", "4d\n  5d\n\n  6d", "4d q 5d q 6d h"),
    ],
)  # fmt: skip
def test_notes_stand_in_the_places(rhythm: str, notes: str, bar: str) -> None:
    assert marks(with_rhythm(rhythm, notes)) == [bar]


def test_what_is_attached_to_a_note_goes_with_it() -> None:
    (bar,) = lick_of(with_rhythm("h x x", '4d!{wah}"ta" 5d')).bars
    assert [(m.deliberate, m.technique, m.syllable) for m in bar] == [
        (True, "wah", "ta"), (False, "", ""),
    ]  # fmt: skip


def test_span_of_a_note_is_where_the_lick_writes_it() -> None:
    (bar,) = lick_of(with_rhythm("h x x", "4d 5d")).bars
    assert [(m.span.text, m.span.line) for m in bar] == [("4d", 9), ("5d", 9)]


def test_swing_marks_of_a_rhythm() -> None:
    (bar,) = lick_of(with_rhythm("straight h x swing x", "4d 5d")).bars
    assert [mark.swings for mark in bar] == [False, True]


def test_rhythm_of_two_bars() -> None:
    text = lesson_text(
        "rhythm long q x x x x | w x\nlick run on I in long\n 4d 5d 6d 5d 2d\n"
        "play\n bars 1-4 run\n bars 5-6 rest\n bars 7-8 run\n bars 9-12 rest"
    )
    assert marks(text) == ["4d q 5d q 6d q 5d q", "2d w"]


def test_rhythm_may_stand_below_its_lick() -> None:
    text = lesson_text(
        "lick run on I, IV, V in late\n 4d 5d\nrhythm late h x x\n"
        "play\n every I run\n every IV run\n every V run"
    )
    assert marks(text) == ["4d h 5d h"]


@pytest.mark.parametrize(("notes", "count"), [("4d", 1), ("4d 5d 6d", 3), ("4d 5d 4d 5d 4d", 5)])
def test_as_many_notes_as_places(notes: str, count: int) -> None:
    problem = only_problem(with_rhythm("h x x", notes))
    assert (problem.code, problem.span.text) == ("rhythm-count", notes)
    assert (problem.fields["notes"], problem.fields["places"]) == (count, 2)


@pytest.mark.parametrize("mark", ["q", "-", "=", "|", "x", "swing", "straight"])
def test_only_notes_in_a_lick_with_a_rhythm(mark: str) -> None:
    problem = only_problem(with_rhythm("h x x", f"4d {mark} 5d"))
    assert (problem.code, problem.span.text) == ("rhythm-and-marks", mark)


def test_group_of_notes_in_a_lick_with_a_rhythm() -> None:
    assert marks(with_rhythm("q x x x x", "[4d 5d]x2")) == ["4d q 5d q 4d q 5d q"]


def test_rhythm_that_is_not_there() -> None:
    problem = only_problem(with_rhythm("h x x", "4d 5d").replace("in trot", "in trott"))
    assert (problem.code, problem.span.text) == ("rhythm-unknown", "trott")
    assert problem.fields["near"] == "trot"


@pytest.mark.parametrize(
    ("rhythm", "slug"),
    [
        ("", "rhythm-without-music"),
        ("q", "rhythm-without-music"),
        ("swing e", "rhythm-without-music"),
        ("q x x x", "bar-too-short"),
        ("q x x x x x", "bar-too-long"),
        ("x x x x", "value-missing"),
        ("q x 4d x x", "rhythm-note"),
        ("q = x x x", "hold-nothing"),
        ("q [x x x x", "bracket-not-closed"),
        ("q x ? x x", "mark-unknown"),
    ],
)
def test_rhythm_that_is_wrong_is_told_once(rhythm: str, slug: str) -> None:
    assert slugs_of(with_rhythm(rhythm, "4d 5d 4d 5d")) == [slug]


def test_two_rhythms_of_one_name() -> None:
    text = with_rhythm("h x x", "4d 5d").replace("lick run", "rhythm trot w x\nlick run")
    problem = only_problem(text)
    assert (problem.code, [r.span.line for r in problem.related]) == ("rhythm-twice", [7])


def test_two_licks_of_one_name() -> None:
    text = with_rhythm("h x x", "4d 5d").replace("play", "lick run on I\n w 2d\nplay")
    problem = only_problem(text)
    assert (problem.code, problem.span.line, problem.related[0].span.line) == ("lick-twice", 10, 8)
