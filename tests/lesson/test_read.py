"""What is played, read: names, counts, ranges; what one mistake makes unknown."""

from __future__ import annotations

import pytest

from tests.helpers import lesson_of, lesson_text, only_problem, own_form, slugs_of

LICKS = "lick porch on I\n  q 2d 3d 4d 2d\nlick creek on IV, V\n  q 4b - 4b -\n"


def playing(*lines: str) -> str:
    return lesson_text(LICKS + "\n".join(lines))


def test_play_line() -> None:
    every = " every I porch\n every IV creek\n every V creek"
    plays = lesson_of(playing("play", every, 'play "Second" x2', every)).plays
    assert [(play.title, play.times) for play in plays] == [("", 1), ("Second", 2)]


def test_every_line() -> None:
    lines = ("play", " every I porch x1, porch x1, rest", " bars 1-12 rest")
    (every,) = lesson_of(playing(*lines)).plays[0].every
    assert [(p.name, p.rest, p.times) for p in every.placed] == [
        ("porch", False, 1), ("porch", False, 1), ("rest", True, None),
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("line", "bars"),
    [("bars 1-12 rest", (1, 12, False)), ("bars 1–12 rest", (1, 12, False))],
)
def test_bars_line(line: str, bars: tuple[int, int, bool]) -> None:
    (found,) = lesson_of(playing("play", line)).plays[0].bars
    assert (found.first, found.last, found.last_time) == bars


@pytest.mark.parametrize(
    ("lines", "slug", "spot"),
    [
        (("play", "every I portch", "every IV creek", "every V creek"), "lick-unknown", "portch"),
        (("play", "bars 0-3 rest"), "bars-range", "0-3"),
        (("play", "bars 4-1 rest"), "bars-range", "4-1"),
        (("play", "bars 1-13 rest"), "bars-outside", "1-13"),
        (("play x0", "bars 1-12 rest"), "count-range", "x0"),
        (("play x51", "bars 1-12 rest"), "count-range", "x51"),
        (("play", "bars 1-12 rest x65"), "count-range", "x65"),
        (("play", "bars 1-12 rest x0"), "count-range", "x0"),
        (("play", "every IX rest"), "word-unexpected", "IX"),
    ],
)
def test_line_that_is_wrong(lines: tuple[str, ...], slug: str, spot: str) -> None:
    problem = only_problem(playing(*lines))
    assert (problem.code, problem.span.text) == (slug, spot)


def test_near_name_of_a_lick() -> None:
    problem = only_problem(playing("play", "bar 1 portch", "bars 2-12 rest"))
    assert (problem.fields["near"], problem.fields["known"]) == ("porch", ["creek", "porch"])


def test_nothing_is_played() -> None:
    assert slugs_of(lesson_text(LICKS)) == ["play-missing"]


def test_a_broken_lick_is_told_once_however_often_it_is_played() -> None:
    text = playing("play x3", "every I porch", "every IV creek", "every V creek")
    assert slugs_of(text.replace("2d 3d", "2x 3d")) == ["note-breath"]


def test_a_lick_whose_first_line_is_broken_is_not_missed_where_it_is_played() -> None:
    text = playing("play", "every I porch", "every IV creek", "every V creek")
    assert slugs_of(text.replace("porch on I\n", "porch no I\n")) == ["word-unexpected"]


# Our own choice: the count of a play line and the count of a lick.
@pytest.mark.limit("lesson.read.MOST_CHORUSES")
@pytest.mark.parametrize(("times", "slugs"), [(50, set()), (51, {"count-range"})])
def test_most_choruses(times: int, slugs: set[str]) -> None:
    found = {*slugs_of(playing(f"play x{times}", "bars 1-12 rest"))}
    assert found - {"lick-unused"} == slugs


@pytest.mark.limit("lesson.model.MOST_ROUNDS")
@pytest.mark.parametrize(("times", "slugs"), [(64, []), (65, ["count-range"])])
def test_most_times_of_a_lick(times: int, slugs: list[str]) -> None:
    text = lesson_text(
        f"lick a on I\n  h 2d -\nplay\n  bars 1-64 a x{times}",
        form=own_form(" | ".join(["I"] * 64)),
    )
    assert slugs_of(text) == slugs
