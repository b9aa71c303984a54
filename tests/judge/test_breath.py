"""Breath: the air that a student has, where it runs out, and the rest that mends it."""

from __future__ import annotations

from pathlib import Path

import pytest

from formsheet.judge.breath import BreathFit, flow, judge_breath
from formsheet.problems.kinds.handling import BreathRunsOut, ChorusWithoutBreath
from formsheet.problems.problem import Problem, Severity
from tests.helpers import examined, lesson_text, over, own_form, problems_of, slugs_of, tune_of

OF_BREATH = {"breath-runs-out", "chorus-without-breath"}


def said(text: str) -> list[str]:
    """What is said of breath."""
    return [slug for slug in slugs_of(text) if slug in OF_BREATH]


def found(text: str) -> BreathRunsOut:
    (problem,) = [each for each in problems_of(text) if isinstance(each, BreathRunsOut)]
    return problem


def judged(music: str, chords: str = "I", tempo: float = 60, **facts: str) -> BreathFit:
    return judge_breath(tune_of(over(chords, music, **facts)), tempo)


def bars(music: str, count: int, **facts: str) -> str:
    """A bar of music so many times."""
    body = f"lick run on I7\n  {music}\nplay\n  bars 1-{count} run"
    return lesson_text(body, form=own_form(" | ".join(["I7"] * count)), **facts)


# ---- Plain cases -----------------------------------------------------------------------------


@pytest.mark.parametrize("level", ["beginner", "improver", "advanced"])
@pytest.mark.parametrize("tempo", ["48", "60", "100"])
def test_twelve_bars_of_drawn_whole_notes_speak(level: str, tempo: str) -> None:
    assert said(bars("w 2d", 12, tempo=tempo, level=level)) == ["breath-runs-out"]


@pytest.mark.parametrize("level", ["beginner", "improver", "advanced"])
@pytest.mark.parametrize("tempo", ["60", "104", "160"])
@pytest.mark.parametrize(
    "music",
    [
        "q 123d e 123d 123d q 123b e 123b 123b",  # a train: what it draws in a bar it blows in it
        "e 12d 12d 12b 12b 12d 12d 12b 12b",
        "e 3b 4d 4b 4d 5b 4d 4b 4d",  # in and out, eighth by eighth
        "e 4b 4d 4b 4d 4b 4d 4b 4d",
        "h 2d -",  # and a rest as long as each note
    ],
)
def test_what_balances_itself_is_silent(music: str, tempo: str, level: str) -> None:
    assert said(bars(music, 12, tempo=tempo, level=level)) == []


def test_a_train_that_draws_more_than_it_blows_speaks() -> None:
    text = bars("e 12d 12d 12d 12d 12d 12d 12d 12b", 12, tempo="104")
    assert found(text).full


def test_blown_blocks_empty_the_student() -> None:
    problem = found(bars("w 456b", 6, tempo="52"))
    assert not problem.full
    assert "is out of air" in problem.message()
    assert "let drawn notes take turns" in " ".join(hint.text for hint in problem.hints())


# ---- The air that a note takes ---------------------------------------------------------------


# Our own choice: a second of middle C counts as a second; an octave and a half above it as 0.71 of
# one; three octaves above as a half, but never less than 0.6 nor more than 1.5.
@pytest.mark.limit("judge.breath.MIDDLE_NOTE", "judge.breath.HALVED_AFTER",
                   "judge.breath.LEAST_FLOW", "judge.breath.MOST_FLOW")  # fmt: skip
@pytest.mark.parametrize(
    ("midi", "air"),
    [(60, 1), (78, 0.5**0.5), (85, 0.6180), (86, 0.6062), (87, 0.6), (100, 0.6), (42, 2**0.5),
     (39, 1.4983), (38, 1.5), (20, 1.5)],
)  # fmt: skip
def test_a_low_reed_takes_more_air(midi: int, air: float) -> None:
    assert flow((midi,)) == pytest.approx(air, abs=0.0001)


# Our own choice: each further hole takes half as much again.
@pytest.mark.limit("judge.breath.FURTHER_HOLE")
def test_a_block_takes_more_air_than_a_single_note() -> None:
    assert flow((60, 60)) == pytest.approx(1.5)
    assert flow((56, 60, 64)) == pytest.approx(2)
    assert flow((55, 60, 60, 65)) == pytest.approx(2.5)


@pytest.mark.parametrize(("more", "less"), [("123d", "2d"), ("1234b", "456b"), ("1d", "4d")])
def test_chords_and_low_reeds_fill_and_empty_sooner(more: str, less: str) -> None:
    assert judged(f"w {more}").peak > judged(f"w {less}").peak


def test_a_low_harp_takes_more_air_and_a_high_one_less() -> None:
    low, middle, high = (judged("w 2d", harp=harp).peak for harp in ("low C", "C", "high C"))
    assert low > middle > high


# ---- Filling, emptying, resting --------------------------------------------------------------

#: Air of a second of 2 draw on a C harp, seven half steps above middle C.
OF_TWO_DRAW = 2 ** (-7 / 36)


def test_draw_and_blow_make_up_for_each_other() -> None:
    breath = judged("h 2d 3b")  # the same pitch
    assert breath.peak == pytest.approx(2 * OF_TWO_DRAW)
    assert breath.drawn == pytest.approx(breath.blown)
    assert breath.drawn_share == pytest.approx(0.5)
    assert judged("h 2d 3b | 2d 3b", "I | I").peak == pytest.approx(breath.peak)
    assert judged("h 2d 3b | 3b 3b", "I | I").peak == pytest.approx(2 * breath.peak)


def test_half_the_tempo_takes_twice_the_air() -> None:
    assert judged("h 2d 2d", tempo=30).peak == pytest.approx(2 * judged("h 2d 2d").peak)


# Our own choice: a tenth of a second goes by before anybody breathes; then a second of rest makes
# good four seconds of playing.
@pytest.mark.limit("judge.breath.SHORTEST_BREATH", "judge.breath.RELEASE")
@pytest.mark.parametrize(
    ("tempo", "kept"),
    [
        (60, 3 * OF_TWO_DRAW - 4 * 0.4),  # half a second of rest
        (100, 3 * 0.6 * OF_TWO_DRAW - 4 * 0.2),
        (240, 3 * 0.25 * OF_TWO_DRAW - 4 * 0.025),
        (299, 3 * 0.5 / (299 / 120) * OF_TWO_DRAW - 4 * (60 / 299 / 2 - 0.1)),  # 0.1003 s
        (301, 3 * 60 / 301 * OF_TWO_DRAW),  # 0.0997 s: no time to breathe
    ],
)
def test_a_rest_makes_good_four_times_its_length_after_a_tenth_of_a_second(
    tempo: float, kept: float
) -> None:
    """Three beats, half a beat of rest, half a beat."""
    last = 60 / tempo / 2 * OF_TWO_DRAW
    first = 3 * 60 / tempo * OF_TWO_DRAW
    assert judged("h. 2d e - 2d", tempo=tempo).peak == pytest.approx(max(first, kept + last))


def test_faster_playing_is_not_worse_by_a_jump_where_a_rest_gets_too_short() -> None:
    """The rest is 0.1 s at 300 beats a minute."""
    peaks = [judged("h. 2d e - 2d | h. 2d e - 2d", "I | I", tempo=t).peak for t in (299.9, 300.1)]
    assert peaks[0] == pytest.approx(peaks[1], rel=0.01)


def test_a_rest_never_makes_good_more_than_was_played() -> None:
    assert judged("q 2d - - 3b").peak == pytest.approx(OF_TWO_DRAW)


def test_a_rest_before_the_first_note_counts_for_nothing() -> None:
    assert judged("h - 2d").peak == pytest.approx(2 * OF_TWO_DRAW)


# ---- What each level holds -------------------------------------------------------------------


# All our own choice: 12, 16 and 22 seconds. A bar of 2 draw takes 240 s / tempo times 0.874.
@pytest.mark.limit("judge.level.LIMITS")
@pytest.mark.parametrize(
    ("level", "count", "enough", "too_slow"),
    [
        ("beginner", 2, "35", "34.9"),  # 11.99, 12.02
        ("improver", 3, "39.4", "39.2"),  # 15.97, 16.05
        ("advanced", 4, "38.3", "38"),  # 21.91, 22.08
    ],
)
def test_the_air_of_each_level(level: str, count: int, enough: str, too_slow: str) -> None:
    assert "breath-runs-out" not in said(bars("w 2d", count, tempo=enough, level=level))
    problem = found(bars("w 2d", count, tempo=too_slow, level=level))
    assert problem.bars == [count]
    assert problem.since == 1


def test_it_is_said_once_for_drawn_air_and_once_for_blown() -> None:
    text = bars("w 2d", 12, tempo="60").replace("bars 1-12 run", "bars 1-6 run\n  bars 7-12 out")
    text = text.replace("play\n", "lick out on I7\n  w 3b\nplay\n")
    assert said(text) == ["breath-runs-out"] * 2


def test_the_bars_are_those_of_the_chorus_in_which_it_happens_first() -> None:
    text = bars("w 2d", 3, tempo="60").replace("play\n", "play x4\n")
    problem = found(text)
    assert (problem.since, problem.chorus, problem.bars) == (1, 2, [2])
    assert "in bar 2 of chorus 2: since bar 1 of chorus 1 the draws" in problem.message()


# ---- At the target, at the tempo to start at -------------------------------------------------


def test_at_the_target_it_is_a_warning_at_the_start_a_remark() -> None:
    """Eight bars drawn and a bar of rest: 16.8 s of air at 100, twice as much at 50."""
    music = "q 2d 2d 2d 2d"
    text = bars(music, 8, tempo="100", level="improver")
    assert found(text).severity is Severity.WARNING
    text = bars(music, 8, tempo="120", level="improver")
    assert said(text) == ["chorus-without-breath"]
    text = bars(music, 8, tempo="120", level="improver", learn="60")
    problem = found(text)
    assert (problem.severity, problem.tempo, problem.starts) == (Severity.REMARK, 60, True)
    assert problem.message().startswith("at 60, where practice starts, the student is full of air")


def test_without_learn_it_is_judged_where_the_hardest_move_is_easy() -> None:
    """The leap at the end is easy at 42; the drawn bars before it last 10 s at 120, 28 s there."""
    leap = "q 2d h 2d s 2d 6d 6d 6d"
    text = bars("q 2d 2d 2d 2d", 5, tempo="120", level="improver")
    assert said(text) == []
    text = text.replace("bars 1-5 run", "bars 1-4 run\n  bar 5 leap")
    problem = found(text.replace("play\n", f"lick leap on I7\n  {leap}\nplay\n"))
    assert (problem.starts, problem.tempo) == (True, 42)


# ---- The rest that mends it ------------------------------------------------------------------


def with_edit(text: str, problem: Problem) -> str:
    """The lesson after the one edit that the hints of a problem offer."""
    (edit,) = [hint.edit for hint in problem.hints() if hint.edit]
    return text[: edit.span.start] + edit.text + text[edit.span.end :]


@pytest.mark.parametrize(
    ("music", "tempo"),
    [
        ("q 2d 3d 4d 2d", "60"),
        ("e 2d 2d 3d 3d 4d 4d q 2d", "90"),
        ("q 123d 123d 123d 123d", "80"),
        ("q 456b 456b 456b 456b", "60"),
    ],
)
def test_the_edit_puts_a_rest_where_one_is_enough(music: str, tempo: str) -> None:
    text = bars(music, 8, tempo=tempo)
    problem = found(text)
    assert f"put a rest in place of `{problem.rest}`" in next(iter(problem.hints())).text
    changed = with_edit(text, problem)
    assert said(changed) == []
    assert changed.count("-") == text.count("-") + 1
    assert f"{music.rpartition(' ')[0]} -" in changed  # the last note of the bar comes first


def test_the_edit_brings_no_clash() -> None:
    """Without the last 4 draw, 4 blow, the 4 of I, would stay over the bar line."""
    text = bars("q 4d 4d 4b 4d", 9, tempo="60", level="beginner")
    assert slugs_of(text.replace("4b 4d", "4b -")) == ["note-clash"]
    changed = with_edit(text, found(text))
    assert "q 4d - 4b 4d" in changed
    assert slugs_of(changed) == []


def test_the_note_is_named_by_its_bar_and_beat() -> None:
    text = over("I7 | I7", "q 2d 3d 2d 2d | h 4d q 4d 4d", tempo="32", level="beginner")
    assert next(iter(found(text).hints())).text == "put a rest in place of `4d` on beat 4 of bar 2"


def test_where_no_single_rest_is_enough_there_is_no_edit() -> None:
    problem = found(bars("w 2d", 12, tempo="60"))
    assert problem.edit is None
    (hint,) = problem.hints()
    assert hint.text.startswith("put a rest in no later than bar 5, or let blown notes")


# Our own choice. Only the half note of bar 1 is long enough to breathe in its place; each eighth
# after it that is not held and not on beat 1 is tried before it.
@pytest.mark.limit("judge.breathing._MOST_TRIED")
@pytest.mark.parametrize(
    ("third_bar", "mended"), [("2d 2d = 2d 2d 2d 2d 2d", True), ("2d = 2d 2d 2d 2d 2d 2d", False)]
)
def test_twelve_notes_are_tried_as_a_rest(third_bar: str, mended: bool) -> None:
    music = f"q 2d h 2d e 2d = | e 2d = 2d 2d 2d 2d 2d 2d | e {third_bar} | h 2d q = -"
    problem = found(over("I7 | I7 | I7 | I7", music, tempo="54", level="beginner"))
    assert problem.bars == [4]
    assert (problem.edit is not None) is mended
    if mended:
        assert (problem.rest_bar, problem.rest_beat) == (1, 2)


def test_a_mark_that_cannot_be_a_rest_is_not_offered() -> None:
    """The only note of a lick, and a note that takes its place in a rhythm."""
    assert found(bars("w 2d", 6, tempo="60")).edit is None
    text = bars("q 2d 3d 4d 2d", 8, tempo="60")
    assert found(text).edit
    in_rhythm = "rhythm even q x x x x\nlick run on I7 in even\n  2d 3d 4d 2d"
    assert found(text.replace("lick run on I7\n  q 2d 3d 4d 2d", in_rhythm)).edit is None


def test_a_lick_of_a_shelf_is_left_alone(tmp_path: Path) -> None:
    """Other lessons use it too."""
    shelf = "position 2nd\n\nlick run on I7\n  q 2d 3d 4d 2d\n"
    (tmp_path / "shelf").mkdir()
    (tmp_path / "shelf" / "runs.licks").write_text(shelf, encoding="utf-8")
    text = bars("q 2d 3d 4d 2d", 8, tempo="60")
    text = text.replace("lick run on I7\n  q 2d 3d 4d 2d", "use run from runs")
    (problem,) = [each for each in examined(text, tmp_path).problems if each.code in OF_BREATH]
    assert problem.fields["edit"] is None


# ---- A chorus without a rest -----------------------------------------------------------------


def chorus_without(text: str) -> list[ChorusWithoutBreath]:
    return [each for each in problems_of(text) if isinstance(each, ChorusWithoutBreath)]


# Our own choice: from 0.6 of what the level holds, 9.6 s of 16 for an improver.
@pytest.mark.limit("judge.breathing.UNEVEN")
@pytest.mark.parametrize(("tempo", "count"), [("87.5", 0), ("87.2", 1)])  # 9.589 s, 9.622 s
def test_a_chorus_without_a_rest_is_worth_a_remark(tempo: str, count: int) -> None:
    assert len(chorus_without(bars("w 2d", 4, tempo=tempo, learn=tempo))) == count


def test_each_chorus_is_named_where_there_are_several() -> None:
    text = bars("w 2d", 2, tempo="87").replace("play\n", "play x2\n")
    assert [each.message().split(" has ")[0] for each in chorus_without(text)] == [
        "chorus 1", "chorus 2",
    ]  # fmt: skip


def test_a_chorus_with_a_rest_is_not() -> None:
    text = bars("h. 2d e 2d -", 5, tempo="100", learn="100")
    assert judge_breath(tune_of(text), 100).peak < 9.6
    assert said(text) == []
    assert len(chorus_without(text.replace("e 2d -", "q 2d"))) == 1
