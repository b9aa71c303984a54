"""How the tune feels under the lips, at each level of student."""

from __future__ import annotations

import pytest

from formsheet.problems import registry
from formsheet.problems.kinds import handling
from formsheet.problems.problem import Problem, Severity
from tests.helpers import over, problems_of, slugs_of, told

#: All but the swing, which is a matter of the tempo alone.
KINDS = {code for code, kind in registry.KINDS.items() if kind.__module__ == handling.__name__} - {
    "swing-short-note"
}


def said(music: str, **facts: str) -> list[str]:
    """The findings about handling of one lick over I7."""
    return [slug for slug in slugs_of(over("I7", music, **facts)) if slug in KINDS]


def finding(slug: str, music: str, **facts: str) -> Problem:
    found = [p for p in problems_of(over("I7", music, **facts)) if p.code == slug]
    assert len(found) == 1, told(tuple(found))
    return found[0]


@pytest.mark.parametrize(
    ("level", "severity"), [("beginner", Severity.WARNING), ("improver", Severity.REMARK)]
)
def test_an_overblow_weighs_by_level(level: str, severity: Severity) -> None:
    assert finding("overbend-taught", "h 6ob 6d", level=level).severity is severity


def test_an_overblow_is_no_news_to_the_advanced() -> None:
    assert said("h 6ob 6d", level="advanced") == []


@pytest.mark.parametrize(
    ("level", "music", "slugs"),
    [
        ("beginner", "h 3d' 3d", []),
        ("beginner", "h 2d'' 2d", ["bend-hard"]),
        ("improver", "h 2d'' 2d", []),
        ("improver", "h 3d''' 2d", []),
    ],
)
def test_bends_by_level(level: str, music: str, slugs: list[str]) -> None:
    assert said(music, level=level) == slugs


def test_deep_bends_in_a_row() -> None:
    assert said("e 2d'' 2d'' 2d'' 2d'' h 2d") == ["bends-repeated"]
    assert said("e 2d'' 2d'' 2d'' 2d h 2d''") == []


@pytest.mark.parametrize(("tempo", "slugs"), [("60", []), ("140", []), ("220", ["turns-fast"])])
def test_breath_turns_by_tempo(tempo: str, slugs: list[str]) -> None:
    assert said("e 2d 3b 2d 3b 2d 3b q 2d", tempo=tempo) == slugs


def test_two_fast_turns_are_no_finding() -> None:
    assert said("e 2d 3b 2d 2d 2d 3b q 3b", tempo="220") == []


# A leap of seven holes in an eighth: 250 ms at 120 beats a minute.
def test_a_slide_that_the_tempo_leaves_no_time_for() -> None:
    problem = finding("slide-too-fast", "q 2d e 2d 9d h 9b", tempo="120")
    assert (problem.fields["holes"], problem.fields["ms"]) == (7, 250)


def test_the_same_slide_with_time() -> None:
    assert said("q 2d e 2d 9d h 9b", tempo="60") == []


def test_a_slide_across_a_join() -> None:
    text = over("I7 | I7", "h. 2d e - 2d | q 9d 9b h 9b", tempo="120")
    assert "slide-too-fast" in slugs_of(text)


@pytest.mark.parametrize("note", ["10b", "10d", "910b"])
def test_a_shake_needs_the_next_hole_up(note: str) -> None:
    assert said(f"w {note}{{shake}}") == ["shake-nowhere"]


def test_a_shake_below_the_top() -> None:
    assert said("w 9b{shake}") == []


# Common practice, no source: holes 5 and 7 give a shade of bend on their higher reed.
@pytest.mark.parametrize(
    ("note", "slugs"),
    [
        ("3b{scoop}", ["technique-no-bend"]),
        ("9d{dip}", ["technique-no-bend"]),
        ("123d{dip}", ["technique-no-bend"]),
        ("4d{dip}", []),
        ("5d{scoop}", []),
        ("7b{dip}", []),
        ("9b{scoop}", []),
        ("3b{wah}", []),
    ],
)
def test_a_dip_or_scoop_needs_a_note_that_bends(note: str, slugs: list[str]) -> None:
    assert said(f"w {note}") == slugs


@pytest.mark.parametrize(
    ("slug", "music", "old", "facts"),
    [
        ("overbend-taught", "h 6ob 6d", "6ob", {}),
        ("bend-hard", "h 2d'' 2d", "2d''", {"level": "beginner"}),
        ("slide-too-fast", "q 2d e 2d 9d h 9b", "9d", {"tempo": "120"}),
    ],
)
def test_every_offer_removes_its_finding(
    slug: str, music: str, old: str, facts: dict[str, str]
) -> None:
    offers = finding(slug, music, **facts).fields["offers"]
    assert offers
    for offer in offers:
        changed = problems_of(over("I7", music.replace(old, offer, 1), **facts))
        assert finding(slug, music, **facts).span.place not in [
            p.span.place for p in changed if p.code == slug
        ]
