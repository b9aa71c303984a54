"""Can this harp play it? Every check, by lessons that ask too much."""

from __future__ import annotations

import pytest

from formsheet.music.harp import Harp
from formsheet.music.tab import Breath
from tests.helpers import lesson_text, only_problem, over, slugs_of, tune_of


def asked(tab: str, **facts: str) -> tuple[str, str, object]:
    """The kind of the one problem, where it stands, and what the tool would guess."""
    problem = only_problem(over("I", f"w {tab}", **facts))
    return problem.code, problem.span.text, problem.fields.get("guess")


@pytest.mark.parametrize(
    ("tab", "slug", "guess"),
    [
        ("21d", "holes-order", "12d"),
        ("41b", "holes-order", "14b"),
        ("44d", "holes-order", "4d"),
        ("109b", "holes-order", "910b"),
        ("3d''''", "bend-too-deep", "3d'''"),
        ("2d'''", "bend-too-deep", "2d''"),
        ("1d''", "bend-too-deep", "1d'"),
        ("4d''", "bend-too-deep", "4d'"),
        ("10b'''", "bend-too-deep", "10b''"),
        ("8b''", "bend-too-deep", "8b'"),
        ("5d'", "bend-missing", None),  # a shade only
        ("7b'", "bend-missing", None),
        ("3b'", "bend-missing", "3d'"),
        ("9d'", "bend-missing", "9b'"),
        ("7ob", "overbend-missing", "7od"),
        ("6od", "overbend-missing", "6ob"),
        ("6ob'", "overbend-bent", None),
    ],
)
def test_what_no_harp_plays(tab: str, slug: str, guess: str | None) -> None:
    assert asked(tab) == (slug, tab, guess)


@pytest.mark.limit("music.tab.WIDEST_REACH")
@pytest.mark.parametrize(
    ("tab", "slug", "facts"),
    [
        ("124d", "holes-gap", {"block": "1234d", "split": "14d"}),
        ("1235b", "holes-gap", {"block": "12345b", "split": "15b"}),
        ("16b", "split-too-wide", {"holes": 6, "most": 5, "split": "15b"}),
        ("410d", "split-too-wide", {"holes": 7, "split": "48d"}),
        ("123456d", "block-too-wide", {"holes": 6, "most": 5}),
        ("12d'", "bend-on-chord", {"plain": "12d"}),
        ("14b'", "bend-on-chord", {"plain": "14b"}),
        ("45ob", "bend-on-chord", {"plain": "45b"}),
    ],
)
def test_what_no_mouth_plays(tab: str, slug: str, facts: dict[str, object]) -> None:
    problem = only_problem(over("I", f"w {tab}"))
    assert (problem.code, problem.span.text) == (slug, tab)
    assert problem.fields | facts == problem.fields


# Bahnson, Antaki, Beery, JASA 103 (1998) 2134: bends lie between the two notes of a hole,
# overblows and overdraws outside.
@pytest.mark.parametrize(
    "tab",
    ["1d'", "2d''", "3d'''", "4d'", "6d'", "8b'", "9b'", "10b''", "1ob", "4ob", "5ob", "6ob",
     "7od", "8od", "9od", "10od", "12345d", "15b", "610d", "910b"],
)  # fmt: skip
def test_what_a_harp_plays(tab: str) -> None:
    assert [str(note.tab) for note in tune_of(over("I", f"w {tab}")).notes] == [tab]


@pytest.mark.parametrize(
    ("tab", "words"),
    [
        # Common practice, no source: two reeds a half step apart leave a shade of a bend.
        ("5d'", "5 draw bends by less than a half step"),
        ("7b'", "7 blow bends by less than a half step"),
        # Bahnson, Antaki, Beery: the higher reed of a hole bends down.
        ("4b'", "4 blow does not bend: only the higher reed of a hole bends down"),
        ("9d'", "9 draw does not bend: only the higher reed of a hole bends down"),
        ("45d'", "`45d'` bends a chord; bends are for single notes"),
        ("45ob", "`45ob` overblows a chord; overblows are for single notes"),
        ("78od", "`78od` overdraws a chord; overdraws are for single notes"),
    ],
)
def test_why_a_note_does_not_bend(tab: str, words: str) -> None:
    assert only_problem(over("I", f"w {tab}")).message().startswith(words)


def test_bends_follow_from_the_tuning() -> None:
    """Country tuning raises 5 draw: it bends a half step, and 5 draw of Richter does not."""
    assert asked("5d''", tuning="country") == ("bend-too-deep", "5d''", "5d'")
    assert "bend-missing" not in slugs_of(over("I", "w 5d'", tuning="country"))
    assert Harp("C").deepest_bend(5, Breath.DRAW) == 0


def test_every_note_is_checked() -> None:
    text = over("I | I", "pickup e 3b'\n q 7b' 21d [16b]x2 | q 5d' 2d'''! h -")
    assert slugs_of(text) == [
        "bend-missing", "bend-missing", "holes-order", "split-too-wide", "bend-missing",
        "bend-too-deep",
    ]  # fmt: skip


def test_a_lick_that_nobody_plays_is_checked_too() -> None:
    text = lesson_text("lick a on I\n w 7b'\nplay\n bars 1-12 rest")
    assert slugs_of(text) == ["bend-missing"]
