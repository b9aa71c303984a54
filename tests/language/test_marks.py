"""Marks of music: values, notes, what is attached to a note, groups, swing marks."""

from __future__ import annotations

import pytest

from formsheet.language import tree as t
from tests.language.trees import lick_block, marks_of, note, signs_of, slugs_of, spots_of

VALUES = [
    "w",
    "h",
    "q",
    "e",
    "s",
    "w.",
    "h.",
    "q.",
    "e.",
    "s.",
    "w..",
    "h..",
    "q..",
    "e..",
    "s..",
    "w3",
    "h3",
    "q3",
    "e3",
    "s3",
]


@pytest.mark.parametrize("text", VALUES)
def test_value(text: str) -> None:
    assert [(m.sign, m.text) for m in marks_of(text) if isinstance(m, t.Mark)] == [
        (t.Sign.VALUE, text)
    ]


@pytest.mark.parametrize(
    ("text", "slug"),
    [("q...", "value-unknown"), ("q3.", "value-unknown"), ("q.3", "value-unknown"),
     ("e5", "value-unknown"), ("Q.", "value-unknown"), ("qq", "mark-unknown")],
)  # fmt: skip
def test_what_only_looks_like_a_value(text: str, slug: str) -> None:
    assert spots_of(f"lick a on I\n q 4d {text} 4d") == [(slug, text)]


@pytest.mark.parametrize(
    ("text", "holes", "breath", "over", "ticks"),
    [
        ("4d", (4,), "d", False, 0),
        ("4b", (4,), "b", False, 0),
        ("3d'", (3,), "d", False, 1),
        ("3d''", (3,), "d", False, 2),
        ("3d'''", (3,), "d", False, 3),
        ("8b'", (8,), "b", False, 1),
        ("10b''", (10,), "b", False, 2),
        ("6ob", (6,), "b", True, 0),
        ("7od", (7,), "d", True, 0),
        ("10od", (10,), "d", True, 0),
        ("123d", (1, 2, 3), "d", False, 0),
        ("14b", (1, 4), "b", False, 0),
        ("10d", (10,), "d", False, 0),
        ("910b", (9, 10), "b", False, 0),
        ("8910d", (8, 9, 10), "d", False, 0),
        ("610b", (6, 10), "b", False, 0),
        ("12345d", (1, 2, 3, 4, 5), "d", False, 0),
        # Kept as written: whether a mouth can do it is told later.
        ("321d", (3, 2, 1), "d", False, 0),
        ("7od'", (7,), "d", True, 1),
        ("3d''''", (3,), "d", False, 4),
    ],
)
def test_note(text: str, holes: tuple[int, ...], breath: str, over: bool, ticks: int) -> None:
    mark = note(text)
    assert (mark.holes, mark.breath, mark.over, mark.ticks) == (holes, breath, over, ticks)


@pytest.mark.parametrize("text", ["3d’’", "3d′′", "3d'’"])
def test_typographic_apostrophes_are_ticks(text: str) -> None:
    assert note(text).ticks == 2


@pytest.mark.parametrize(
    ("text", "deliberate", "technique", "syllable"),
    [
        ("4d", False, None, None),
        ("4d!", True, None, None),
        ("4d{wah}", False, "wah", None),
        ('4d"ka"', False, None, "ka"),
        ("4d“ka”", False, None, "ka"),
        ('4d"two words"', False, None, "two words"),
        ('4d""', False, None, ""),
        ("4d!{shake}", True, "shake", None),
        ('4d!"ta"', True, None, "ta"),
        ('4d{dip}"ta"', False, "dip", "ta"),
        ("3d''!{scoop}\"oo # | ]x2\"", True, "scoop", "oo # | ]x2"),
    ],
)
def test_what_follows_a_note(
    text: str, deliberate: bool, technique: str | None, syllable: str | None
) -> None:
    mark = note(text)
    words = [word and word.text for word in (mark.technique, mark.syllable)]
    assert (mark.deliberate, *words) == (deliberate, technique, syllable)


def test_a_space_before_what_follows_a_note_does_no_harm() -> None:
    mark = note('4d ! {wah} "ka"')
    assert mark.deliberate
    assert mark.technique is not None
    assert mark.syllable is not None


def test_span_of_a_note_is_holes_breath_and_ticks() -> None:
    assert note("  3d''!{scoop}\"oo\"").span.text == "3d''"


def test_span_of_a_technique_has_its_braces() -> None:
    technique = note("4d{wah}").technique
    assert technique is not None
    assert technique.span.text == "{wah}"


@pytest.mark.parametrize(
    ("music", "signs"),
    [
        ("q 4d - = 5d", "value note rest hold note"),
        ("q 4d – 5d", "value note rest note"),
        ("q [4d 5d]x2 |", "value open note note close bar"),
        ("q 4d|5d", "value note bar note"),
        ("[[4d]x2 5d]x3", "open open note close note close"),
        ("swing e 4d straight 4d", "swing value note straight note"),
        ("q\t4d\t\t5d", "value note note"),
        ("q x e x", "value place value place"),
    ],
)
def test_marks_in_order(music: str, signs: str) -> None:
    assert signs_of(music) == signs


@pytest.mark.parametrize(
    ("text", "times"), [("[4d]x3", 3), ("[4d] x3", 3), ("[ 4d ]x12", 12), ("[4d]", None)]
)
def test_count_of_a_group(text: str, times: int | None) -> None:
    close = marks_of(text)[-1]
    assert isinstance(close, t.Mark)
    assert close.times == times


def test_nested_groups_keep_their_counts() -> None:
    closes = [m.times for m in marks_of("[[4d]x2 5d]x3") if isinstance(m, t.Mark) and m.times]
    assert closes == [2, 3]


def test_music_runs_over_lines() -> None:
    assert [m.span.text for m in marks_of("q 4d |\n\n   e 5d 5d # more\n 6d")] == [
        "q", "4d", "|", "e", "5d", "5d", "6d",
    ]  # fmt: skip


def test_pickup_is_kept_apart_from_the_bars() -> None:
    block = lick_block("pickup e 1d 2b\n q 4d 5d")
    assert [m.span.text for m in block.pickups[0].marks] == ["e", "1d", "2b"]
    assert [m.span.text for m in block.marks] == ["q", "4d", "5d"]


@pytest.mark.parametrize(
    ("text", "slug"),
    [
        ("4", "note-breath"),
        ("4x", "note-breath"),
        ("4D", "note-capital"),
        ("d4", "mark-unknown"),
        ("0d", "note-hole"),
        ("40d", "note-hole"),
        ("4d5b", "note-mixed"),
        ("x2", "count-stray"),
        ("?", "mark-unknown"),
    ],
)
def test_a_word_that_is_no_mark(text: str, slug: str) -> None:
    assert spots_of(f"lick a on I\n q 4d {text} 4d") == [(slug, text)]


@pytest.mark.parametrize(
    ("text", "spot"),
    [("4d{wah}!", "!"), ('4d"ka"!', "!"), ('4d"ka"{wah}', "{wah}")],
)
def test_what_follows_a_note_in_the_wrong_order(text: str, spot: str) -> None:
    assert spots_of(f"lick a on I\n q {text} 4d") == [("note-order", spot)]


def test_each_slip_of_a_line_is_told_and_the_rest_is_read() -> None:
    assert slugs_of("lick a on I\n q 4x 5d q... 6d ?") == [
        "note-breath", "value-unknown", "mark-unknown",
    ]  # fmt: skip


def test_a_pickup_that_is_played_once() -> None:
    block = lick_block("pickup once e 1d 2b\n q 4d 5d")
    assert [m.span.text for m in block.pickups[0].marks] == ["e", "1d", "2b"]
    assert block.pickups[0].once
    assert not lick_block("pickup e 1d\n q 4d").pickups[0].once
