"""What is offered: the lick as it is, and recasts that a player would play, best first.

Whether a lick may stay is the verdict of the fit (tests/judge); that this comes first is common
practice, no source: a blues riff is often left over IV and V. All limits are our own choice.
"""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise
from types import SimpleNamespace
from typing import Any, cast

import pytest

from formsheet.judge.where import Placement
from formsheet.judge.where import over as judged_over
from formsheet.music.chord import parse_chord
from formsheet.recast.offered import AsItIs, Offers
from formsheet.recast.trial import Tried
from tests.helpers import lesson_of, over
from tests.judge.test_effort import tab
from tests.recast.demos import HOME_LICKS, all_offers, all_tried, offered, on, tried

BOTH = [(*each, numeral) for each in HOME_LICKS for numeral in ("IV", "V")]


def of(music: str, numeral: str, **facts: str) -> Offers:
    """The offers for a lick on I7 in G, C harp."""
    lesson = lesson_of(over("I7", music, **facts))
    lick = lesson.licks["run"]
    return all_offers(lesson, lick, [(parse_chord(numeral),)] * len(lick.bars))


def tabs(way: AsItIs | Tried) -> str:
    return " ".join(map(str, way.tabs)) if isinstance(way, Tried) else "as it is"


def shown(music: str, numeral: str, **facts: str) -> list[str]:
    return [tabs(way) for way in of(music, numeral, **facts).shown()]


# ---- As it is --------------------------------------------------------------------------------


@pytest.mark.parametrize(("name", "lick", "numeral"), BOTH)
def test_it_may_stay_where_the_command_fit_says_so(name: str, lick: str, numeral: str) -> None:
    lesson, wanted, chords = on(name, lick, numeral)
    found = offered(name, lick, numeral)
    fits = judged_over(wanted, chords, lesson)
    placement = Placement(wanted, tuple(chords), (1,), fits)
    assert found.as_it_is.played.placement.verdict == placement.verdict
    assert found.as_it_is.played.placement.score == placement.score
    assert (found.as_it_is in found.shown(everything=True)) is not bool(placement.clashes)
    if placement.verdict == "fits well":
        assert found.shown()[0] is found.as_it_is


@pytest.mark.parametrize(
    ("music", "numeral", "first"),
    [
        ("q 2d e 3d' 4b q 4d -", "IV7", "as it is"),  # a riff
        ("q 2d e 3d' 4b q 4d -", "V7", "as it is"),  # it goes
        ("e 4d 4d' 4b 3d' q 2d -", "IV7", "as it is"),
        ("w 4d", "V7", "as it is"),  # the root of V
        ("q 2d 3d 4d -", "IV7", "4b 5b 6b"),  # its third is the 7 of IV
        ("q 123d - 123d -", "IV7", "123b 123b"),
        ("e 2d 3d 4d 5b 5d 5b 4d 3d", "V7", "4d 5d 6d 7d 7b 7d 6d 5d"),  # a walk moves with V
    ],
)
def test_as_it_is_comes_first_or_not(music: str, numeral: str, first: str) -> None:
    """C harp in second position, key of G. Common practice, no source."""
    assert shown(music, numeral)[0] == first


def test_a_walk_that_draws_no_warning_comes_behind_the_recasts() -> None:
    """It has avoid notes in passing, and is not of the blues scale: our own choice."""
    assert shown("e 2d 3d 4d 5b 5d 5b 4d 3d", "V7")[-1] == "as it is"
    assert shown("e 4d 4d 4d 5b 4d 4d q 3d'", "IV7")[0] == "as it is"  # no avoid note


def test_the_blues_scale() -> None:
    """Over V in G all of it rides over the change, a note beside it does not. Common practice."""
    for note in ("2d", "3d'", "4b", "4d'", "4d", "5d"):
        assert of(f"q {note} - h -", "V7").as_it_is.rides, note
    assert not of("e 3d''' 2d q - h -", "IV7").as_it_is.rides  # Ab over C7
    assert not of("e 3d 2d q - h -", "IV7").as_it_is.rides


# Over D7 in G 2 draw is the 4 and 4 draw the root: half of the time fits, or three fifths.
@pytest.mark.limit("recast.offered.MOSTLY")
@pytest.mark.parametrize(("music", "first"), [("q 2d 4d h -", False), ("q 2d q. 4d e - q -", True)])
def test_a_riff_of_which_more_than_half_fits_comes_first(music: str, first: bool) -> None:
    found = of(music, "V7")
    assert found.as_it_is.hardly is not first
    assert (found.shown()[0] is found.as_it_is) is first
    assert (found.as_it_is in found.shown()) is first  # else it is only named


def test_what_to_write() -> None:
    lesson = lesson_of(over("I7 | I7", "q 2d 4d h - | w 4d"))
    v, iv = parse_chord("V7"), parse_chord("IV7")
    found = all_offers(lesson, lesson.licks["run"], [(v,), (iv,)]).as_it_is
    assert found.on
    assert [[[str(each) for each in slot] for slot in bar] for bar in found.on] == [
        [["I7", "V"]], [["I7", "IV"]],
    ]  # fmt: skip
    own = all_offers(lesson, lesson.licks["run"], lesson.form.bars).as_it_is
    assert own.written
    assert own.on == lesson.licks["run"].on
    divided = all_offers(lesson, lesson.licks["run"], [(v, iv), (iv,)]).as_it_is
    assert divided.on is None  # a bar on one chord cannot be asked for on two as well


# ---- Recasts ---------------------------------------------------------------------------------


@pytest.mark.parametrize(("name", "lick", "numeral"), BOTH)
def test_the_best_come_first(name: str, lick: str, numeral: str) -> None:
    """Nothing with a warning stands before something without, then the fit decides, then ease."""
    found = tried(name, lick, numeral)
    warned = [each.warned for each in found]
    assert warned == sorted(warned)
    for first, second in pairwise(found):
        assert first.rank <= second.rank
        if first.rank[:3] == second.rank[:3]:
            assert first.short <= second.short


@pytest.mark.parametrize(("name", "lick", "numeral"), BOTH)
def test_nothing_is_wrong_with_what_is_offered(name: str, lick: str, numeral: str) -> None:
    """Unless nothing else is there: then it is one, and it is said why."""
    found = offered(name, lick, numeral)
    recasts = [way for way in found.shown() if isinstance(way, Tried)]
    if found.good:
        assert recasts == found.good
        assert len(recasts) <= 3
        for each in recasts:
            assert not each.placement.clashes
            assert not each.objections
    else:
        assert len(recasts) <= 1


def test_the_fit_decides_before_the_ease() -> None:
    """No recast need fit better than the lick at home: 4 blow for the 6 gains nothing."""
    found = all_tried(*_on("q 2d 3d e 4d 5b q 4d", "IV7"))
    fitting = [each for each in found if each.short == 0]
    assert found[: len(fitting)] == fitting
    assert tabs(found[0]) == "4b 5b 6b 6d 6b"


def _on(music: str, numeral: str) -> Any:
    lesson = lesson_of(over("I7", music))
    return lesson, lesson.licks["run"], [(parse_chord(numeral),)]


@pytest.mark.limit("recast.trial.STEP")
@pytest.mark.parametrize(("score", "steps"), [(Fraction(4, 5), 1), (Fraction(5, 6), 0)])
def test_a_fifth_of_the_time_is_heard(score: Fraction, steps: int) -> None:
    def placed(fit: Fraction) -> Any:
        return SimpleNamespace(placement=SimpleNamespace(score=fit))

    one = Tried(cast("Any", None), placed(Fraction(1)), placed(score))
    assert one.short == steps


# ---- How many --------------------------------------------------------------------------------


def way(against: float, notes: str, good: bool = True) -> Tried:
    """A recast of which no more is known."""
    home = SimpleNamespace(tabs=tuple(map(tab, ["10d"] * len(notes.split()))))
    each = SimpleNamespace(
        good=good, against=against, tabs=tuple(map(tab, notes.split())), home=home
    )
    return cast("Tried", each)


def good(*ways: Tried) -> list[Tried]:
    cannot_stay = cast("AsItIs", SimpleNamespace(clashes=[1]))
    return Offers(cannot_stay, ways).good


@pytest.mark.limit("recast.offered.MOST_OFFERED")
def test_three_recasts_are_offered() -> None:
    ways = [way(0, each) for each in ("1b 1b", "2b 2b", "3b 3b", "4b 4b")]
    assert good(*ways) == ways[:3]


@pytest.mark.limit("recast.offered.MOST_WORSE")
def test_recasts_up_to_six_bends_worse_are_offered() -> None:
    ways = [way(1, "1b 1b"), way(7, "2b 2b"), way(7.5, "3b 3b")]
    assert good(*ways) == ways[:2]


@pytest.mark.limit("recast.offered.LEAST_NEW")
def test_an_offer_differs_in_more_than_a_third_of_its_notes() -> None:
    """A third is as good as the same; two fifths are not."""
    first = way(0, "1b 2b 3b")
    assert good(first, way(0, "1b 2b 4b")) == [first]
    both = [way(0, "1b 2b 3b 4b 5b"), way(0, "1b 2b 3b 5b 4b")]
    assert good(*both) == both


def test_where_the_lick_may_stay_an_offer_differs_from_it_too() -> None:
    may_stay = cast("AsItIs", SimpleNamespace(clashes=[]))
    ways = (way(0, "10d 10d 4b"), way(0, "1b 2b 4b"))
    assert Offers(may_stay, ways).good == [ways[1]]


def test_a_bad_recast_ends_the_row() -> None:
    ways = [way(0, "1b 1b"), way(0, "2b 2b", good=False), way(0, "3b 3b")]
    assert good(*ways) == ways[:1]


# ---- What a lick lives by ---------------------------------------------------------------------

TRAIN = "[ e 12d 12d 12b 12b ]x2"


def test_a_train_keeps_its_draw_and_blow() -> None:
    """On V one hole group up; over IV it stays, and says so. Common practice, no source."""
    five = of(TRAIN, "V7")
    assert tabs(five.shown()[0]) == "45d 45d 45b 45b 45d 45d 45b 45b"
    assert all(not each.breath_lost for each in five.good)
    four = of(TRAIN, "IV7")
    assert tabs(four.shown()[0]) == "as it is"
    assert all(not each.breath_lost for each in four.good)
    lost = [each for each in four.recasts if each.breath_lost]
    assert lost  # the faithful one blows all the way


def test_a_recast_that_loses_the_breath_stands_behind_one_that_keeps_it() -> None:
    found = of(TRAIN, "V7").recasts
    free = [each for each in found if not each.warned]
    assert [each.breath_lost for each in free] == sorted(each.breath_lost for each in free)


def test_a_flat_five_is_kept() -> None:
    """The b5 of V, or the lick's own note. Common practice, no source."""
    lesson = lesson_of(
        over("I7", "e 4d 4d' 4b 3d' q 2d -").replace("lick run", 'lick run "The flat five"')
    )
    for numeral, first in (("V7", "6d 6d' 6b 5d 4d"), ("IV7", "as it is")):
        found = all_offers(lesson, lesson.licks["run"], [(parse_chord(numeral),)])
        assert tabs(found.shown()[0]) == first
        assert all(not each.note_lost for each in found.good)
    assert any(each.note_lost for each in found.recasts)  # on IV without the bend


def test_the_demos_offer_something() -> None:
    for name, lick, numeral in BOTH:
        assert offered(name, lick, numeral).shown(), (name, lick, numeral)
