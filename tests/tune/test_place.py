"""Which lick is played in which bar: defaults, ranges, counts, choruses, the last time."""

from __future__ import annotations

from fractions import Fraction

import pytest

from formsheet.problems.problem import Problem, Severity
from tests.helpers import (
    lesson_text,
    licks_played,
    only_problem,
    own_form,
    problems_of,
    slugs_of,
    tune_of,
)
from tests.language.samples import KETTLE_CREEK, LATE_TRAM_LESSON

LICKS = """\
lick p on I
  q 2d 3d 4d 2d
lick c on IV
  q 4b - 4b -
lick g on V
  q 4d - 1d -
lick walk on I
  q 2d 3d 4d 2d | q 4d 3d 2d -
lick any on I, IV, V
  w 2d
turnaround home on I | V
  w 2d | w 1d
"""
EVERY = "every I p\nevery IV c\nevery V g"


def play(*lines: str, form: str = "12-bar standard") -> str:
    """What each bar plays."""
    return licks_played(tune_of(text(*lines, form=form)))


def text(*lines: str, form: str = "12-bar standard") -> str:
    return lesson_text(LICKS + "\n".join(lines), form=form)


def problem_of(*lines: str, form: str = "12-bar standard") -> Problem:
    return only_problem(text(*lines, form=form))


# ---- Defaults and ranges -----------------------------------------------------------------


def test_every_chord_in_runs() -> None:
    assert play("play", EVERY) == "p1 p2 p3 p4 c1 c2 p1 p2 g1 c1 p1 g1"


def test_every_with_ending_at_home() -> None:
    assert play("play", EVERY, form="12-bar standard ending I") == (
        "p1 p2 p3 p4 c1 c2 p1 p2 g1 c1 p1 p2"
    )


def test_bars_come_before_every() -> None:
    assert play("play", EVERY, "bar 10 rest", "bars 11-12 home") == (
        "p1 p2 p3 p4 c1 c2 p1 p2 g1 rest home1 home1"
    )


def test_order_of_the_lines_is_all_the_same() -> None:
    assert play("play", "bars 11-12 home", EVERY) == play("play", EVERY, "bars 11-12 home")


def test_a_bar_placed_by_itself_parts_a_run() -> None:
    assert play("play", EVERY, "bar 2 any", "bars 11-12 home") == (
        "p1 any1 p1 p2 c1 c2 p1 p2 g1 c1 home1 home1"
    )


def test_bars_in_order() -> None:
    assert play("play", EVERY, "bars 1-4 p x2, any x1, rest", "bar 12 rest") == (
        "p1 p2 any1 rest c1 c2 p1 p2 g1 c1 p1 rest"
    )


@pytest.mark.parametrize(
    ("placed", "bars"),
    [
        ("any", "any1 any2 any3 any4"),
        ("any x4", "any1 any2 any3 any4"),
        ("rest", "rest rest rest rest"),
        ("rest x4", "rest rest rest rest"),
        ("p x2, any", "p1 p2 any1 any2"),
        ("p, any x3", "p1 any1 any2 any3"),
        ("p, any, p, any", "p1 any1 p1 any1"),
        ("walk", "walk1 walk1 walk2 walk2"),
        ("walk x2", "walk1 walk1 walk2 walk2"),
        ("walk, rest x2", "walk1 walk1 rest rest"),
        ("p, walk, p", "p1 walk1 walk1 p1"),
        ("any x2, walk", "any1 any2 walk1 walk1"),
    ],
)
def test_four_bars(placed: str, bars: str) -> None:
    assert play("play", f"bars 1-4 {placed}", form=own_form("I | I | I | I")) == bars


def test_every_in_counts() -> None:
    """Each run of the chord is filled by itself: bars 1-4, 7-8 and 11."""
    assert play("play", "every I rest x1, p", "bars 5-6 c", "bars 9-10 rest",
                "bars 11-12 home") == (
        "rest p1 p2 p3 c1 c2 rest p1 rest rest home1 home1"
    )  # fmt: skip


def test_place_of_each_bar() -> None:
    bars = tune_of(text("play x2", EVERY)).bars
    assert [(b.number, b.chorus, b.start) for b in bars[10:14]] == [
        (11, 1, Fraction(40)), (12, 1, Fraction(44)), (1, 2, Fraction(48)), (2, 2, Fraction(52)),
    ]  # fmt: skip


def test_bars_of_a_lick_in_order() -> None:
    bars = tune_of(text("play", "bars 1-4 walk", "bars 5-12 rest")).bars[:4]
    assert [(b.slot.bar_in_lick, b.slot.round, b.slot.rounds) for b in bars] == [
        (0, 1, 2), (1, 1, 2), (0, 2, 2), (1, 2, 2),
    ]  # fmt: skip


# ---- Several choruses and the last time --------------------------------------------------


SHORT = own_form("I | IV")


def test_play_x3() -> None:
    tune = tune_of(text("play x3", EVERY.removesuffix("\nevery V g"), form=SHORT))
    assert licks_played(tune) == "p1 c1 p1 c1 p1 c1"
    assert [(c.number, c.pass_number, c.passes, c.bars) for c in tune.choruses] == [
        (1, 1, 3, (0, 1)), (2, 2, 3, (2, 3)), (3, 3, 3, (4, 5)),
    ]  # fmt: skip


def test_several_play_blocks() -> None:
    tune = tune_of(
        text("play", "every I p", "every IV c", 'play "Quiet" x2', "bars 1-2 rest", form=SHORT)
    )
    assert licks_played(tune) == "p1 c1 rest rest rest rest"
    assert [(c.title, c.pass_number, c.passes) for c in tune.choruses] == [
        ("", 1, 1), ("Quiet", 1, 2), ("Quiet", 2, 2),
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("head", "bars"),
    [
        ("play", "p1 rest"),
        ("play x2", "p1 c1 p1 rest"),
        ("play x3", "p1 c1 p1 c1 p1 rest"),
        ("play\nbars 1-2 rest\nplay x2", "rest rest p1 c1 p1 rest"),
    ],
)
def test_last_time_over_every(head: str, bars: str) -> None:
    lines = ("every I p", "every IV c", "last time bar 2 rest")
    assert play(head, *lines, form=SHORT) == bars


def test_last_time_over_a_range() -> None:
    lines = ("bars 1-3 any", "last time bars 2-3 rest, p")
    assert play("play x2", *lines, form=own_form("I | I | I")) == ("any1 any2 any3 any1 rest p1")


def test_last_time_keeps_the_bars_that_it_does_not_name() -> None:
    lines = ("every I p", "bar 2 any", "last time bar 3 rest")
    assert play("play x2", *lines, form=own_form("I | I | I")) == "p1 any1 p1 p1 any1 rest"


def test_last_time_may_leave_no_hold_without_its_note() -> None:
    long = "lick long on I\n w 2d | h = 4d\n"
    lesson = lesson_text(
        long + "play x2\n bars 1-2 long\n last time bar 1 rest", form=own_form("I | I")
    )
    assert slugs_of(lesson) == ["hold-nothing"]


# ---- Chords ------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("on", "chords"),
    [
        ("I", "I7"),
        ("I", "I"),
        ("I7", "I7"),
        ("I", "I9"),
        ("I, IV", "IV7"),
        ("I7, IV9", "IV9"),
        ("iv", "iv7"),
        ("I IV", "I7 IV7"),
        ("I, V IV", "V7 IV7"),
        ("bVI", "bVI7"),
        ("I | V", "I7 | V7"),
        ("I IV | I V", "I7 IV7 | I7 V7"),
        ("I | ii, V", "I7 | ii7"),
    ],
)
def test_lick_that_meets_its_chords(on: str, chords: str) -> None:
    bars = chords.count("|") + 1
    lesson = lesson_text(
        f"lick run on {on}\n {' | '.join(['h 2d 2d'] * bars)}\nplay\n bars 1-{bars} run",
        form=own_form(chords),
    )
    assert "lick-wrong-chord" not in slugs_of(lesson)


@pytest.mark.parametrize(
    ("on", "chords"),
    [
        ("I", "IV7"),
        ("I7", "I9"),
        ("I, IV", "V7"),
        ("I", "I7 IV7"),  # one chord for a bar of two
        ("I IV", "I7"),
        ("I IV", "IV7 I7"),
        ("VI", "bVI7"),
        ("I | V", "I7 | IV7"),
    ],
)
def test_lick_over_a_chord_that_it_is_not_written_for(on: str, chords: str) -> None:
    bars = chords.count("|") + 1
    lesson = lesson_text(
        f"lick run on {on}\n {' | '.join(['h 2d 2d'] * bars)}\nplay\n bars 1-{bars} run",
        form=own_form(chords),
    )
    problem = only_problem(lesson)
    assert (problem.code, problem.span.text) == ("lick-wrong-chord", "run")
    assert [related.span.text for related in problem.related] == [on]


@pytest.mark.parametrize(("on", "chord"), [("I", "i7"), ("i", "I7"), ("IV7", "iv7")])
def test_lick_over_a_chord_of_the_other_third(on: str, chord: str) -> None:
    body = f"lick run on {on}\n h 2d 2d\nplay\n bar 1 run"
    problem = only_problem(lesson_text(body, form=own_form(chord)))
    assert (problem.code, problem.span.text) == ("third-unlike", on)
    assert [related.span.text for related in problem.related] == ["run"]


def test_wrong_chord_names_all_its_bars() -> None:
    lines = ("play x2", "every I p", "every IV p", "every V g")
    problem = problem_of(*lines)
    assert (problem.fields["bars"], problem.fields["chord"]) == ([5, 6, 10], "IV7")


@pytest.mark.parametrize(
    ("every", "bars"),
    [
        ("every I IV half", "half1 p1"),
        ("every I IV rest", "rest p1"),
        ("bar 1 half", "half1 p1"),
    ],
)
def test_chords_that_share_a_bar(every: str, bars: str) -> None:
    half = "lick half on I IV\n h 2d 4b\n"
    lesson = lesson_text(LICKS + half + f"play\n{every}\nevery I p", form=own_form("I7 IV7 | I7"))
    assert licks_played(tune_of(lesson)) == bars


def test_chord_changes_halfway() -> None:
    half = "lick half on I IV\n h 2d 4b\n"
    lesson = lesson_text(half + "play\nbar 1 half", form=own_form("I7 IV7"))
    chords = tune_of(lesson).bars[0].chords
    assert [(at, str(chord)) for at, chord in chords] == [
        (Fraction(0), "I7"), (Fraction(2), "IV7"),
    ]  # fmt: skip


def test_chord_changes_halfway_in_three_four() -> None:
    half = "lick half on I IV\n q. 2d 4b\n"
    lesson = lesson_text(half + "play\nbar 1 half", form=own_form("I7 IV7"), meter="3/4")
    assert tune_of(lesson).bars[0].chords[1][0] == Fraction(3, 2)


def test_every_with_alternatives() -> None:
    assert play("play", "every I, IV, V any") == (
        "any1 any2 any3 any4 any5 any6 any7 any8 any9 any10 any11 any12"
    )


# ---- What does not come out --------------------------------------------------------------


@pytest.mark.parametrize(
    ("placed", "slug", "facts"),
    [
        ("any x3", "count-mismatch", {"want": 4, "have": 3, "fixed": "any x4"}),
        ("any x5", "count-mismatch", {"want": 4, "have": 5, "fixed": "any x4"}),
        ("walk x3", "count-mismatch", {"want": 4, "have": 6, "fixed": "walk x2"}),
        ("walk x1", "count-mismatch", {"want": 4, "have": 2, "fixed": "walk x2"}),
        ("any x2, rest x1", "count-mismatch", {"want": 4, "have": 3}),
        ("any x4, p", "count-mismatch", {"want": 4, "have": 5}),
        ("any, p", "counts-wanted", {"want": 4, "have": 2}),
        ("p, any, p, any, p", "count-mismatch", {"want": 4, "have": 5}),
        ("any x1, walk", "lick-does-not-fill", {"lick": "walk", "one": 2, "left": 3}),
    ],
)
def test_count_that_does_not_come_out(placed: str, slug: str, facts: dict[str, object]) -> None:
    problem = problem_of("play", f"bars 1-4 {placed}", form=own_form("I | I | I | I"))
    assert problem.code == slug
    assert problem.fields | facts | {"where": "bars 1-4"} == problem.fields


def test_lick_longer_than_its_place() -> None:
    problem = problem_of("play", "bar 1 walk", "bars 2-4 rest", form=own_form("I | I | I | I"))
    assert problem.code in ("lick-does-not-fill", "count-mismatch")
    assert problem.span.text == "walk"


def test_run_that_a_lick_cannot_fill() -> None:
    """Bar 11 alone is too short for two bars of walk."""
    problem = problem_of("play", "every I walk", "every IV c", "every V g")
    assert problem.code in ("lick-does-not-fill", "count-mismatch")
    assert problem.fields["where"] == "bar 11"


def test_bars_with_nothing_placed() -> None:
    problem = problem_of("play", "every I p", "every V g")
    assert (problem.code, problem.span.text) == ("bar-without-lick", "play")
    assert (problem.fields["chord"], problem.fields["bars"]) == ("IV7", [5, 6, 10])


@pytest.mark.parametrize(
    ("lines", "spot", "bar"),
    [
        (("bars 1-4 any", "bars 4-12 rest"), "4-12", 4),
        (("bars 1-12 rest", "bar 9 g"), "9", 9),
        (("every I p", "every I7 any", "every IV c", "every V g"), "I7", 1),
        (("bars 1-12 rest", "last time bar 1 rest", "last time bar 1 p"), "1", 1),
    ],
)
def test_bar_placed_twice(lines: tuple[str, ...], spot: str, bar: int) -> None:
    problem = problem_of("play", *lines)
    assert (problem.code, problem.span.text, problem.fields["bar"]) == ("bar-twice", spot, bar)


def test_every_on_a_chord_that_the_form_has_not() -> None:
    problem = problem_of("play", EVERY, "every VI rest")
    assert (problem.code, problem.span.text) == ("every-nowhere", "VI")


@pytest.mark.parametrize(
    ("form", "chord", "near"),
    [
        ("12-bar minor", "I", "i7"),
        ("12-bar standard", "iv", "IV7"),
        ("12-bar standard", "VI", None),
    ],
)
def test_every_on_the_degree_of_another_chord_names_it(
    form: str, chord: str, near: str | None
) -> None:
    text = lesson_text(f"play\n  every {chord} rest\n  bars 1-12 rest", form=form)
    (problem,) = [each for each in problems_of(text) if each.code == "every-nowhere"]
    assert problem.fields["near"] == near


# Our own choice: 800 bars, far beyond any lesson.
@pytest.mark.limit("tune.assemble.MOST_BARS")
@pytest.mark.parametrize(
    ("bars", "choruses", "slugs"),
    [(50, (16,), []), (9, (50, 39), ["tune-too-long"]), (64, (13,), ["tune-too-long"])],
)
def test_longest_tune(bars: int, choruses: tuple[int, ...], slugs: list[str]) -> None:
    form = own_form(" | ".join(["I"] * bars))
    plays = "\n".join(f"play x{count}\nbars 1-{bars} rest" for count in choruses)
    assert slugs_of(lesson_text(plays, form=form)) == slugs


# ---- The sample of the language's description --------------------------------------------


def test_the_sample_is_laid_out() -> None:
    assert licks_played(tune_of(KETTLE_CREEK)) == (
        "porch1 porch2 porch3 porch4 creek1 creek2 porch1 porch2 gate1 creek1 home1 home1"
    )


def test_the_sample_is_in_order() -> None:
    """Its notes were not chosen to fit. Those that do not are short, and no rest follows."""
    assert all(problem.severity < Severity.ERROR for problem in problems_of(KETTLE_CREEK))


def test_a_sample_with_whatever_the_first_has_not() -> None:
    assert licks_played(tune_of(LATE_TRAM_LESSON)) == " ".join([
        "stair1 rest stair1 stair2 rest rest stair1 odd1 odd1 rest half1 half1",
        "both1 both2 stair1 rest rest rest stair1 odd1 odd1 rest half1 half1",
        "rest rest rest rest rest rest rest odd1 odd1 rest half1 half1",
    ])  # fmt: skip
