"""How the tune feels under the lips, at each level of student."""

from __future__ import annotations

import pytest

from formsheet.lesson.shelves import Shelves
from formsheet.music.harp import Harp
from formsheet.problems import registry
from formsheet.problems.kinds import handling
from formsheet.problems.problem import Problem, Severity
from formsheet.source import Source
from formsheet.stages import examine
from tests.helpers import NO_FOLDER, lesson_text, over, own_form, problems_of, slugs_of, told

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


@pytest.mark.parametrize("level", ["beginner", "improver"])
def test_an_overblow_is_for_the_advanced(level: str) -> None:
    problem = finding("overbend-taught", "h 6ob 6d", level=level)
    assert problem.severity is Severity.WARNING


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
    assert said("e 2d 2b 2d 2b 2d 2b q 2d", tempo=tempo) == slugs


def test_two_fast_turns_are_no_finding() -> None:
    assert said("e 2d 2b 2d 2d 2d 2b q 2b", tempo="220") == []


# A leap of seven holes in an eighth: 300 ms at 100 beats a minute; at ease it takes 410 ms.
def test_a_slide_that_the_tempo_leaves_no_time_for() -> None:
    problem = finding("slide-too-fast", "q 2d e 2d 9d h 9b", tempo="100")
    assert (problem.fields["holes"], problem.fields["ms"]) == (7, 300)
    assert problem.fields["needs"] == 410


def test_the_same_slide_with_time() -> None:
    assert said("q 2d e 2d 9d h 9b", tempo="60") == []


def test_a_slide_across_a_join() -> None:
    text = over("I7 | I7", "h. 2d e - 2d | q 9d 9b h 9b", tempo="120")
    assert "slide-too-fast" in slugs_of(text)


# ---- Moves that are too fast -----------------------------------------------------------------

#: Sixteenths from one bend to another, in one bar of two.
BENDS = "q 4d 4d s 3d' 2d'' 3d' 2d'' q 2d"


def test_a_move_that_is_too_fast_inside_a_lick() -> None:
    """3 draw bent to 2 draw bent a whole step: 470 ms, and an eighth of what comes before."""
    problem = finding("move-too-fast", BENDS, tempo="90")
    assert (problem.fields["first"], problem.fields["tab"]) == ("3d'", "2d''")
    assert (problem.fields["ms"], problem.fields["easy"]) == (167, 27)
    assert problem.fields["bars"] == (1,)
    assert not problem.fields["joins"]
    assert problem.message() == (
        "`3d'` to `2d''` in bar 1 (let go of the bend, 1 hole, bend a whole step) is easy up to 27 "
        "beats a minute; at 90 it has 167 ms"
    )


@pytest.mark.parametrize(("tempo", "slugs"), [("60", []), ("66", []), ("72", ["move-too-fast"])])
def test_the_same_move_by_tempo(tempo: str, slugs: list[str]) -> None:
    assert said(BENDS, tempo=tempo) == slugs


def test_a_lick_is_reported_once_by_its_hardest_move() -> None:
    assert said("s 3d' 2d'' 3d' 2d'' 4d' 3d' 4d' 3d' h 2d", tempo="120") == ["move-too-fast"]


def joined(last: str, first: str, **facts: str) -> list[Problem]:
    """What is said of two bars of a lick each, the first ending and the second beginning so."""
    body = f"lick a on I7\n  q 2d 2d 2d e 2d {last}\nlick b on I7\n  q {first} 6b 5b 5b\n"
    text = lesson_text(f"{body}play\n  bars 1-2 a, b", form=own_form("I7 | I7"), **facts)
    return [problem for problem in problems_of(text) if problem.code in KINDS]


def test_a_join_that_is_too_fast() -> None:
    assert joined("1d", "7b", tempo="80") == []
    (problem,) = joined("1d", "7b", tempo="176")
    assert (problem.code, problem.fields["joins"]) == ("move-too-fast", True)
    assert problem.message().startswith("the join from `1d` to `7b` into bar 2 (6 holes, ")
    assert [hint.text for hint in problem.hints()] == [
        "put a rest before `7b`, or begin nearer",
        "or take the tune at 88, where it can be learned",  # at 92 the slide is too fast
    ]
    assert joined("1d", "7b", tempo="88") == []
    assert [each.code for each in joined("1d", "7b", tempo="92")] == ["slide-too-fast"]


def test_letting_go_of_a_bend_counts() -> None:
    assert joined("2d", "5b", tempo="176") == []
    (problem,) = joined("2d''", "5b", tempo="176")
    assert problem.code == "move-too-fast"


def test_the_slower_tempo_is_one_at_which_it_can_be_learned() -> None:
    text = over("I7", BENDS, tempo="120")
    (problem,) = [each for each in problems_of(text) if each.code in KINDS]
    (edit,) = [hint.edit for hint in problem.hints() if hint.edit]
    changed = text[: edit.span.start] + edit.text + text[edit.span.end :]
    assert f"tempo {problem.fields['slower']}\n" in changed
    assert [slug for slug in slugs_of(changed) if slug in KINDS] == []
    faster = changed.replace(f"tempo {problem.fields['slower']}", "tempo 72")
    assert [slug for slug in slugs_of(faster) if slug in KINDS] == ["move-too-fast"]


@pytest.mark.parametrize(
    ("music", "facts"),
    [
        (BENDS, {"tempo": "90", "learn": "72"}),  # practice would begin above the tempo
        ("s3 1d 10b'' 1d 10b'' 1d 10b'' q 10b h 10b", {"level": "advanced"}),  # not even at 40
    ],
)
def test_no_slower_tempo_is_offered_where_none_would_do(music: str, facts: dict[str, str]) -> None:
    problem = finding("move-too-fast", music, **facts)
    assert problem.fields["slower"] is None
    assert not [hint for hint in problem.hints() if hint.edit]


# ---- One cause, one finding ------------------------------------------------------------------


@pytest.mark.parametrize(
    ("music", "facts", "slugs"),
    [
        # deep and on a top hole: for a beginner it is the top hole
        ("h 10b'' 10b", {"level": "beginner", "harp": "low C"}, ["bend-high"]),
        # a note that the level is not asked for, and the moves to and from it
        ("s 3d'' 2d'' 3d'' 2d'' q 2d h 2d", {"level": "beginner", "tempo": "140"},
         ["bend-hard"] * 4 + ["bends-repeated"]),
        ("s 6b 6ob 6b 6ob q 6b h 6b", {"tempo": "100"}, ["overbend-taught"] * 2),
        # too short for their reeds, and the moves and turns between them
        ("s 1d 1b 1d 2b 1d 1b 2d 1d h 2d", {"harp": "low D", "tempo": "126"}, ["reed-slow"]),
        # a row of turns, and a row of changes of the mouth, in a lick that is too fast
        ("s 2d 3b 2d 3b q 2d h 2d", {"tempo": "120"}, ["move-too-fast"]),
        ("s 14d 3d' 14d 3d' 14d 3d' 3d 3d h 2d", {"tempo": "100"}, ["move-too-fast"]),
    ],
)  # fmt: skip
def test_one_cause_is_one_finding(music: str, facts: dict[str, str], slugs: list[str]) -> None:
    assert sorted(said(music, **facts)) == slugs


def test_other_causes_in_the_same_lick_are_said_too() -> None:
    music = "s 1d 1b 1d 2b e 3d'' 3d 4d 3d' q 2d"
    assert said(music, harp="low D", tempo="126") == ["reed-slow"]
    assert said(music, harp="low D", tempo="240") == ["reed-slow", "move-too-fast"]
    assert said("s 2d 1d 2d 1d e 2d 9d h 9d", harp="low D", tempo="126") == [
        "reed-slow", "slide-too-fast",
    ]  # fmt: skip


# ---- Another harp ----------------------------------------------------------------------------


def on_harp(text: str, key: str, register: str) -> list[str]:
    """What is said of a lesson for students with another harp, as `build --harp` says it."""
    found = examine(Source("test.lesson", text), Shelves(NO_FOLDER), Harp(key, register))
    return [problem.code for problem in found.problems if problem.code in KINDS]


def test_a_high_harp_is_judged_anew() -> None:
    text = over("I7", "h 6d' 6d", level="improver")
    assert on_harp(text, "C", "") == []
    assert on_harp(text, "G", "high") == ["bend-high"]


def test_a_low_harp_is_judged_anew() -> None:
    text = over("I7", "e 1d 2b 1d 2b h 2d", tempo="160")
    assert on_harp(text, "C", "") == []
    assert on_harp(text, "D", "low") == ["reed-slow"]
    slow = over("I7 | I7", "w 1b | 1b", tempo="30")
    assert on_harp(slow, "C", "high") == ["chorus-without-breath"]
    assert on_harp(slow, "C", "low") == ["breath-runs-out"]


def test_why_a_bend_is_too_high() -> None:
    top = finding("bend-high", "h 8b' 8b", harp="low C")
    assert "is a bend on a top hole: hard for an improver" in top.message()
    high = finding("bend-high", "h 6d' 6d", harp="high G", level="beginner")
    assert "(Eb6) in bar 1 is so high that the mouth hardly moves for it, on a high G harp" in (
        high.message()
    )
    assert [hint.text for hint in high.hints()] == [
        "take a natural note, or a lower harp",
        "write `level advanced` if the student is further",
    ]


def test_a_bend_that_is_too_high_for_all_asks_for_no_level() -> None:
    problem = finding("bend-high", "h 10b' 10b", harp="high C", level="advanced")
    assert problem.fields["wanted"] is None
    assert len(list(problem.hints())) == 1


# ---- Rows, phrases, licks --------------------------------------------------------------------


@pytest.mark.parametrize(
    ("music", "slugs"),
    [
        ("h 3d' 3d'", ["bent-long"]),
        ("h 3d' 2d''", ["bent-long"]),
        ("h 3d' 3d", []),  # a natural note ends it
        ("h. 3d' e - 3d'", []),  # and a rest does
    ],
)
def test_bent_notes_without_a_break(music: str, slugs: list[str]) -> None:
    assert said(music, tempo="38") == slugs


def test_a_bend_held_over_bar_lines_is_named_by_its_bars() -> None:
    text = over("I7 | I7 | I7", "h 3d h 3d' | w = | q 2d'' h. 2d", tempo="60")
    (problem,) = [each for each in problems_of(text) if each.code == "bent-long"]
    assert problem.fields["bars"] == [1, 3]
    assert problem.fields["seconds"] == pytest.approx(7)
    assert "from `3d'` on in bars 1 and 3 bent notes sound for 7.0 seconds" in problem.message()


@pytest.mark.parametrize(
    ("music", "slugs"),
    [
        ("e 14d 3d' 14d 3d' h 3d", ["mouth-changes"]),
        ("e 123d 3d' 14d 3d' h 3d", ["mouth-changes"]),
        ("e 14d 3d' 4d{shake} 14d h 14d", ["mouth-changes"]),
        ("e 14d 4d{shake} 14d 4d{shake} h 4d", ["mouth-changes"]),
        ("e 14d 3d 14d 3d h 3d", []),  # a single note is found from any of them
        ("e 14d 14b 14d 123d h 14d", []),  # open all the time
        ("e 3d' 3d' 3d' 3d h 3d", []),
    ],
)
def test_changes_of_the_mouth(music: str, slugs: list[str]) -> None:
    assert said(music, level="beginner", tempo="100") == slugs


def test_a_note_struck_again_ends_a_row_of_turns() -> None:
    assert said("e 2d 2b 2b 2d 2d 2b q 2b", tempo="240") == []
    assert said("e 2d 2b 2d 2b 2b 2b q 2b", tempo="240") == ["turns-fast"]


def test_the_longest_row_is_reported_with_its_bars() -> None:
    text = over("I7 | I7", "e 2d 2b 2d 2b 2d 2b q 2b | e 2d 2b 2d 2b 2d 2b q 2b", tempo="240")
    (problem,) = [each for each in problems_of(text) if each.code == "turns-fast"]
    assert (problem.fields["count"], problem.fields["bars"]) == (5, [1])


def test_licks_beyond_the_limit_are_marked_where_they_are_played() -> None:
    body = "".join(f"lick l{n} on I7\n  q 2d 3d 4d -\n" for n in range(6))
    text = lesson_text(
        f"{body}play\n  bars 1-3 l0, l1, l0\n  bars 4-7 l2, l3, l4, l5",
        form=own_form(" | ".join(["I7"] * 7)), level="beginner",
    )  # fmt: skip
    (problem,) = [each for each in problems_of(text) if each.code == "licks-many"]
    assert problem.span.text == "play"
    assert problem.fields["count"] == 6


@pytest.mark.parametrize(
    ("play", "slugs"),
    [
        ("bars 1-6 long", ["phrase-long"]),
        ("bars 1-6 short", []),  # two bars over and over
    ],
)
def test_a_repeat_ends_a_phrase(play: str, slugs: list[str]) -> None:
    body = (
        "lick long on I7 | I7 | I7 | I7 | I7 | I7\n"
        "  q 3b 3d 4b 4d | 4d 4b 3d 3b | 3b 4d 3d 4b | 4b 4d 3b 3d | 3d 3b 4d 4b | 4d 3d 4b 3b\n"
        "lick short on I7 | I7\n  q 3b 3d 4b 4d | 4d 4b 3d 3b\n"
    )
    text = lesson_text(
        f"{body}play\n  {play}", form=own_form(" | ".join(["I7"] * 6)), level="beginner"
    )
    assert [slug for slug in slugs_of(text) if slug == "phrase-long"] == slugs


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
        ("slide-too-fast", "q 2d e 2d 9d h 9b", "9d", {"tempo": "100"}),
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
