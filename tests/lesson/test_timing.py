"""Marks at their places: values, bars, holds, swing marks, pick-ups, what is attached."""

from __future__ import annotations

import pytest

from formsheet.lesson.model import Kind, LickBar
from formsheet.problems.problem import Problem
from formsheet.vocabulary.techniques import TECHNIQUES
from tests.helpers import lesson_text, lick_of, only_problem, over, slugs_of

SIGNS = {Kind.REST: "-", Kind.HOLD: "="}


def shown(bar: LickBar) -> str:
    """A bar's marks with place and length in quarters: "4d@0+1 -@1+1/2"."""
    return " ".join(
        f"{mark.tab or SIGNS[mark.kind]}@{mark.onset}+{mark.value.length}" for mark in bar
    )


def bars_of(music: str, chords: str = "I7", **facts: str) -> list[str]:
    return [shown(bar) for bar in lick_of(over(chords, music, **facts)).bars]


@pytest.mark.parametrize(
    ("music", "bar"),
    [
        ("w 4d", "4d@0+4"),
        ("h 4d 5d", "4d@0+2 5d@2+2"),
        ("q 4d 5d 4d 2d", "4d@0+1 5d@1+1 4d@2+1 2d@3+1"),
        ("h. 4d q -", "4d@0+3 -@3+1"),
        ("h.. 4d e 5d", "4d@0+7/2 5d@7/2+1/2"),
        ("q. 4d e 5d h 4d", "4d@0+3/2 5d@3/2+1/2 4d@2+2"),
        ("e. 4d s 5d h. 4d", "4d@0+3/4 5d@3/4+1/4 4d@1+3"),
        ("q.. 4d s 5d h 4d", "4d@0+7/4 5d@7/4+1/4 4d@2+2"),
        ("e3 4d 5d 6d h. 4d", "4d@0+1/3 5d@1/3+1/3 6d@2/3+1/3 4d@1+3"),
        ("q3 4d 5d 6d h 4d", "4d@0+2/3 5d@2/3+2/3 6d@4/3+2/3 4d@2+2"),
        ("h3 4d 5d 6d", "4d@0+4/3 5d@4/3+4/3 6d@8/3+4/3"),
        ("s3 4d 5d 6d e 4d h. -", "4d@0+1/6 5d@1/6+1/6 6d@1/3+1/6 4d@1/2+1/2 -@1+3"),
        ("q3 4d e3 5d h. 4d", "4d@0+2/3 5d@2/3+1/3 4d@1+3"),
        ("h 4d q = -", "4d@0+2 =@2+1 -@3+1"),
    ],
)
def test_places_in_a_bar(music: str, bar: str) -> None:
    assert bars_of(music) == [bar]


def test_value_holds_over_bar_lines_and_lines() -> None:
    assert bars_of("h 4d 5d | 4d\n 5d |\n = 2d", "I7 | I7 | I7") == [
        "4d@0+2 5d@2+2",
        "4d@0+2 5d@2+2",
        "=@0+2 2d@2+2",
    ]


def test_value_does_not_reach_the_next_lick() -> None:
    text = lesson_text("lick a on I\n q 4d 4d 4d 4d\nlick b on I\n 4d 4d 4d 4d\nplay\n every I rest"
                       "\n every IV rest\n every V rest")  # fmt: skip
    assert slugs_of(text) == ["value-missing"]


def test_a_bar_line_at_the_end_opens_no_bar() -> None:
    assert bars_of("w 4d |") == bars_of("w 4d") == ["4d@0+4"]


@pytest.mark.parametrize(
    ("meter", "music", "bar"),
    [
        # An undotted q is a quarter in 12/8 too; the beat is q.
        ("12/8", "q. 4d 5d 4d q 5d e 4d", "4d@0+3/2 5d@3/2+3/2 4d@3+3/2 5d@9/2+1 4d@11/2+1/2"),
        ("12/8", "w. 4d", "4d@0+6"),
        ("6/8", "q 4d e 5d q. 4d", "4d@0+1 5d@1+1/2 4d@3/2+3/2"),
        ("3/4", "q 4d 5d 4d", "4d@0+1 5d@1+1 4d@2+1"),
    ],
)
def test_places_in_other_meters(meter: str, music: str, bar: str) -> None:
    assert bars_of(music, meter=meter) == [bar]


@pytest.mark.parametrize("meter", ["12/8", "6/8", "3/4"])
def test_four_quarters_fill_no_bar_of_another_meter(meter: str) -> None:
    assert slugs_of(over("I7", "w 4d", meter=meter))[0].startswith("bar-too-")


def swings_of(music: str, chords: str = "I7") -> list[bool | None]:
    return [mark.swings for bar in lick_of(over(chords, music)).bars for mark in bar]


def test_swing_marks_reach_to_the_end_of_the_lick() -> None:
    assert swings_of("q 4d straight 4d 4d swing 4d | 4d 4d straight h 4d", "I7 | I7") == [
        None, False, False, True, True, True, False,
    ]  # fmt: skip


def test_swing_marks_do_not_reach_the_next_lick() -> None:
    body = (
        "lick a on I\n straight w 4d\nlick b on IV, V\n w 4d\n"
        "play\n every I a\n every IV b\n every V b"
    )
    lick = lick_of(lesson_text(body), "b")
    assert [mark.swings for bar in lick.bars for mark in bar] == [None]


@pytest.mark.parametrize("technique", TECHNIQUES)
def test_technique(technique: str) -> None:
    (bar,) = lick_of(over("I7", f'w 4d!{{{technique}}}"ka"')).bars
    assert (bar[0].deliberate, bar[0].technique, bar[0].syllable) == (True, technique, "ka")


def test_technique_that_nobody_knows() -> None:
    problem = only_problem(over("I7", "w 4d{wha}"))
    assert (problem.code, problem.span.text) == ("technique-unknown", "{wha}")
    assert problem.fields["near"] == "wah"


# ---- Pick-ups ----------------------------------------------------------------------------


def test_marks_of_a_pickup_begin_at_nought() -> None:
    lick = lick_of(over("I7", "pickup e 1d q 2d\n h 4d q 5d -"))
    assert shown(lick.pickup) == "1d@0+1/2 2d@1/2+1"
    assert lick.pickup_length == lick.pickup[-1].end


def test_values_of_pickup_and_music_are_apart() -> None:
    assert slugs_of(over("I7", "pickup e 1d 2d\n 4d 5d 4d 5d")) == ["value-missing"]


def test_last_note_of_a_pickup_may_be_held() -> None:
    lick = lick_of(over("I7", "pickup e 1d\n q = 4d 5d -"))
    assert shown(lick.bars[0]) == "=@0+1 4d@1+1 5d@2+1 -@3+1"


@pytest.mark.parametrize(
    ("pickup", "slug"),
    [
        ("w 1d", "pickup-too-long"),
        ("h 1d 1d", "pickup-too-long"),
        ("q 1d | 2d", "pickup-bar-line"),
        ("1d", "value-missing"),
        ("q = 1d", "hold-nothing"),
    ],
)
def test_pickup_that_is_wrong(pickup: str, slug: str) -> None:
    assert slugs_of(over("I7", f"pickup {pickup}\n w 2d")) == [slug]


def test_pickup_of_almost_a_bar() -> None:
    assert lick_of(over("I7", "pickup h. 1d e 1d\n e 2d h.. -")).pickup_length < 4


def test_second_pickup() -> None:
    problem = only_problem(over("I7", "pickup q 1d\npickup q 2d\n h 2d -"))
    assert (problem.code, problem.span.line) == ("pickup-twice", problem.related[0].span.line + 1)


# ---- Bars that do not come out -----------------------------------------------------------


def spot(problem: Problem) -> tuple[str, str]:
    return problem.code, problem.span.text


@pytest.mark.parametrize(
    ("music", "wrong", "facts"),
    [
        ("q 4d 5d 4d", ("bar-too-short", "4d 5d 4d"),
         {"bar": 1, "have": "3 beats", "want": "4 beats", "missing": "a quarter"}),
        ("q. 4d 5d 4d q 4d", ("bar-too-long", "4d q 4d"),
         {"have": "5 1/2 beats", "extra": "a dotted quarter", "before": None}),
        ("q 4d 5d 4d 2d 5d 6d", ("bar-too-long", "5d 6d"), {"extra": "a half", "before": "5d"}),
        ("w 4d | e3 4d 5d 6d", ("bar-too-short", "4d 5d 6d"),
         {"bar": 2, "missing": "a dotted half"}),
        ("w 4d | | w 4d", ("bar-empty", "|"), {"bar": 2, "want": "4 beats"}),
        ("e3 4d 5d h. 4d", ("triplet-broken", "4d 5d"),
         {"count": 2, "value": "e3", "guess": "4d 5d -"}),
        ("e3 3d'' e 4d h. 4d", ("triplet-broken", "3d''"), {"count": 1, "guess": "3d'' - -"}),
        ("e3 4d 5d 6d 4d h. 4d", ("triplet-broken", "4d 5d 6d 4d"),
         {"count": 1, "guess": "4d 5d 6d 4d - -"}),
        ("[e3 4d]x2 h. 4d", ("triplet-broken", "4d"), {"guess": None, "rests": "-"}),
        ("q 4d q3 4d 5d h 4d", ("triplet-broken", "4d 5d"), {"count": 2, "value": "q3"}),
        ("q 4d h 4d s 5d", ("bar-too-short", "4d h 4d s 5d"),
         {"have": "3 1/4 beats", "missing": "a dotted eighth"}),
    ],
)  # fmt: skip
def test_bar_that_does_not_fill_its_meter(
    music: str, wrong: tuple[str, str], facts: dict[str, object]
) -> None:
    problem = only_problem(over(" | ".join(["I7"] * (music.count("|") + 1)), music))
    assert spot(problem) == wrong
    assert problem.fields | facts == problem.fields


@pytest.mark.parametrize(
    "music", ["e3 3d'' q 4d h. 4d", "e3 4d 5d 6d 4d h 4d", "q3 4d e 5d h 4d", "s3 4d 4d e 4d h. 4d"]
)
def test_what_is_offered_makes_a_triplet_whole(music: str) -> None:
    problem = only_problem(over("I7", music))
    mended = music.replace(problem.span.text, problem.fields["guess"], 1)
    assert "triplet-broken" not in slugs_of(over("I7", mended))


@pytest.mark.parametrize(
    "music", ["q3 4d e3 5d q 4d h 4d", "e3 4d q3 5d e3 6d 5d 4d h 4d", "s3 4d 5d 6d e 5d h. 4d"]
)
def test_triplets_of_several_values_are_whole_together(music: str) -> None:
    assert slugs_of(over("I7", music)) == []


def test_compound_bars_are_counted_in_eighths() -> None:
    problem = only_problem(over("I7", "q. 4d 5d 4d q 4d", meter="12/8"))
    assert (problem.fields["have"], problem.fields["want"]) == ("11 eighths", "12 eighths")


def test_every_bar_that_is_wrong_is_told() -> None:
    slugs = slugs_of(over("I7 | I7 | I7", "q 4d | w 4d | h 4d 5d 5d"))
    assert slugs == ["bar-too-short", "bar-too-long"]


@pytest.mark.parametrize(
    ("music", "wrong"),
    [
        ("4d 5d 4d 2d | q 4d", ("value-missing", "4d")),  # lengths are guesses: told once
        ("q = 4d 5d 4d", ("hold-nothing", "=")),
        ("q 4d - = 4d", ("hold-nothing", "=")),
        ("q", ("lick-without-music", "run")),
        ("swing q", ("lick-without-music", "run")),
        ("[ ]x2", ("lick-without-music", "run")),
        ("", ("lick-without-music", "run")),
        ("q x 4d 4d 4d", ("place-in-lick", "x")),
    ],
)
def test_music_that_is_wrong(music: str, wrong: tuple[str, str]) -> None:
    assert spot(only_problem(over("I7", music))) == wrong


@pytest.mark.parametrize("music", ["w 4d | 4d", "w 4d | 4d | 4d | 4d"])
def test_chords_asked_for_bar_by_bar_must_be_as_many(music: str) -> None:
    problem = only_problem(over("I7 | I7 | I7", music))
    assert problem.code == "on-count"
    assert (problem.fields["asked"], problem.fields["bars"]) == (3, music.count("|") + 1)


def test_one_chord_stands_for_all_bars() -> None:
    lick = lick_of(lesson_text("lick a on I\n w 2d | 2d\nplay\n bars 1-4 a\n bars 5-6 rest\n"
                               " bars 7-8 a\n bars 9-12 rest"), "a")  # fmt: skip
    assert [str(slot[0][0]) for slot in lick.on] == ["I", "I"]


@pytest.mark.parametrize(
    ("line", "title"),
    [('lick run "Front porch"', "Front porch"), ("lick run", "Run"), ("turnaround run", "Run")],
)
def test_title_of_a_lick(line: str, title: str) -> None:
    lick = lick_of(over("I7", "w 2d").replace("lick run", line))
    assert (lick.title, lick.turnaround) == (title, line.startswith("turnaround"))


def test_hyphens_of_a_name_are_spaces_in_its_title() -> None:
    assert lick_of(over("I7", "w 2d").replace("run", "front-porch"), "front-porch").title == (
        "Front porch"
    )


# Our own choice: more than four rests are written with a longer value, where there is one.
@pytest.mark.limit("lesson.timing._MOST_RESTS")
@pytest.mark.parametrize(("music", "rest"), [("e 4d 5d 4d 5d", "- - - -"), ("e 4d 5d 4d", None)])
def test_rests_that_a_short_bar_is_filled_with(music: str, rest: str | None) -> None:
    problem = only_problem(over("I7", music))
    assert problem.fields["rest"] == rest
