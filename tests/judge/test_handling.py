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


# Common practice, no source: a shake goes to and fro between the natural notes of two neighbouring
# holes; players write either the lower of them or both.
@pytest.mark.parametrize(
    ("note", "slugs"),
    [
        ("9b", []),
        ("10b", ["shake-nowhere"]),
        ("10d", ["shake-nowhere"]),
        # Two neighbours are shaken with each other.
        ("45d", []),
        ("910b", []),
        # A wider block is shaken with the block one hole up.
        ("123d", []),
        ("8910b", ["shake-nowhere"]),
        # The holes of a split are not neighbours.
        ("14d", ["shake-on-split"]),
        ("710b", ["shake-on-split"]),
        # The mouth that bends one hole does not bend the next alike.
        ("4d'", ["shake-on-bend"]),
        ("10b''", ["shake-on-bend"]),
        ("6ob", ["shake-on-bend"]),
    ],
)
def test_a_shake_goes_between_natural_notes_of_neighbouring_holes(
    note: str, slugs: list[str]
) -> None:
    assert said(f"w {note}!{{shake}}", level="advanced") == slugs


@pytest.mark.parametrize(
    ("music", "words"),
    [
        ("w 14d{shake}", "`14d` is a split"),
        ("w 4d'!{shake}", "`4d'` is bent"),
        ("w 6ob!{shake}", "`6ob` is an overblow"),
        ("w 9od!{shake}", "`9od` is an overdraw"),
        ("w 123d{dip}", "`123d` is a block; a dip is a bend"),
        ("w 14d{scoop}", "`14d` is a split; a scoop is a bend"),
    ],
)
def test_why_a_technique_cannot_be_done(music: str, words: str) -> None:
    text = over("I7", music, level="advanced")
    assert next(p.message() for p in problems_of(text) if p.code in KINDS).startswith(words)


@pytest.mark.parametrize(
    ("music", "without"),
    [
        ("w 14d{shake}", "w 14d"),
        ('w 4d\'!{shake}"hey"', 'w 4d\'!"hey"'),
        ("w 123d {dip}", "w 123d"),
        ("w 3b{scoop} | w 2d{wah}", "w 3b | w 2d{wah}"),
    ],
)
def test_the_first_edit_leaves_the_technique_out(music: str, without: str) -> None:
    """It takes out the braces alone, and no warning about handling is left."""
    chords = " | ".join(["I7"] * (music.count("|") + 1))
    text = over(chords, music)
    (problem,) = [p for p in problems_of(text) if p.code in KINDS]
    edit = next(iter(problem.hints())).edit
    assert edit
    changed = text[: edit.span.start] + edit.text + text[edit.span.end :]
    assert changed == over(chords, without)
    assert not {p.code for p in problems_of(changed)} & KINDS


def test_notes_of_a_chord_that_can_be_dipped_are_named() -> None:
    """Of 5, 6 and 7 draw the first two are the higher reeds of their holes."""
    assert finding("technique-on-chord", "w 567d!{dip}").fields["notes"] == ["5d", "6d"]
    assert finding("technique-on-chord", "w 123b!{dip}").fields["notes"] == []


# Common practice, no source: holes 5 and 7 give a shade of bend on their higher reed; bends are for
# single notes.
@pytest.mark.parametrize(
    ("note", "slugs"),
    [
        ("3b{scoop}", ["technique-no-bend"]),
        ("9d{dip}", ["technique-no-bend"]),
        ("123d{dip}", ["technique-on-chord"]),
        ("45d{scoop}", ["technique-on-chord"]),
        ("14d{dip}", ["technique-on-chord"]),
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
