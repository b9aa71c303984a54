"""The writer and the parser are each other's inverse: a lesson written is the lesson read."""

from __future__ import annotations

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from formsheet.lesson.model import Lesson
from formsheet.lesson.shelves import Shelves
from formsheet.lesson.writing import lesson_text, lick_text
from formsheet.music.tunings import Tuning
from formsheet.source import Source
from formsheet.stages import examine
from tests.helpers import NO_FOLDER, examined, lesson_of, lick_of, over
from tests.helpers import lesson_text as small
from tests.language.samples import KETTLE_CREEK, LATE_TRAM_LESSON
from tests.lessons import NAMES, demo
from tests.likeness import placeless
from tests.tune.test_properties import few, lessons


def again(lesson: Lesson) -> Lesson:
    found = examine(Source("again.lesson", lesson_text(lesson)), Shelves(NO_FOLDER)).lesson
    assert found
    return found


def said(lesson: Lesson) -> object:
    """What a lesson says; what is left on its shelves is not of it."""
    licks = {name: lick._replace(name=name) for name, lick in lesson.licks.items()}
    return [placeless(part) for part in (lesson.facts, lesson.form, licks, lesson.plays)]


@pytest.mark.parametrize("name", NAMES)
def test_demo_lesson(name: str) -> None:
    lesson = demo(name).lesson
    assert lesson
    assert said(again(lesson)) == said(lesson)


@pytest.mark.parametrize("text", [KETTLE_CREEK, LATE_TRAM_LESSON])
def test_sample(text: str) -> None:
    lesson = examined(text).lesson
    assert lesson
    assert said(again(lesson)) == said(lesson)


@pytest.mark.parametrize(
    ("ending", "last"), [("I", "V"), ("I IV | I V", "I"), ("ii7 V9 | Imaj7", "I VI7 | ii7 V7")]
)
def test_endings_of_a_play(ending: str, last: str) -> None:
    play = f"play x2\n  bars 1-12 rest\n  ending {ending}\n  last time ending {last}"
    lesson = lesson_of(small(play))
    assert said(again(lesson)) == said(lesson)
    assert lesson_text(lesson).endswith(f"  ending       {ending}\n  last time ending   {last}\n")


@pytest.mark.parametrize("name", ["12-bar standard", "12-BAR standard", '"The never ending road"'])
@pytest.mark.parametrize("ending", ["I", "i", "IV | ii7 V", "I VI7 | ii7 V7", "I IV | I V"])
def test_form_with_an_ending_is_the_same_again(name: str, ending: str) -> None:
    own = "" if "12" in name else "\n | I | V9 | IV6 | I V7 |"
    bars = "1-4" if own else "1-12"
    lesson = lesson_of(small(f"play\n  bars {bars} rest", form=f"{name} ending {ending}{own}"))
    written = again(lesson).form
    assert (written, written.bars) == (lesson.form, lesson.form.bars)


@few
@given(lessons())
def test_any_music(text: str) -> None:
    assert said(again(lesson_of(text))) == said(lesson_of(text))


@few
@given(st.lists(st.integers(0, 60), min_size=10, max_size=10),
       st.lists(st.integers(0, 60), min_size=10, max_size=10))  # fmt: skip
def test_any_tuning(blow: list[int], draw: list[int]) -> None:
    lesson = lesson_of(small("play\n  bars 1-12 rest"))
    tuning = Tuning("odd one", tuple(blow), tuple(draw))
    harp = lesson.facts.harp._replace(tuning=tuning)
    written = lesson._replace(facts=lesson.facts._replace(harp=harp))
    assert again(written).facts.harp.tuning == tuning


# ---- Facts -------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("fact", "words"),
    [
        ("form", "8-bar"),
        ("form", "8-bar ending I"),
        ("form", "8-bar ending I IV | I V"),
        ("form", '"Own" ending I\n | I | V |'),
        ("form", '"The never ending road"\n | I | V |'),
        ("form", '"The never ending road" ending I\n | I | V7 |'),
        ("form", "ending I\n | I | V | I7 | IV V | bVI7 |"),
        ("tuning", "country"),
        ("tempo", "92.5"),
        ("feel", "swing 57%"),
        ("harp", "low F"),
        ("title", '"Tune # 9"'),
        ("say", '"  Twice.  "\nsay Thrice.'),
        ("count-in", "0"),
        ("level", "advanced"),
        ("position", "12th"),
    ],
)
def test_fact(fact: str, words: str) -> None:
    lesson = examined(small("play\n  every I rest", **{fact.replace("-", "_"): words})).lesson
    assert lesson
    assert placeless(again(lesson).facts) == placeless(lesson.facts)


def test_what_goes_without_saying_is_not_said() -> None:
    text = lesson_text(lesson_of(small("play\n  bars 1-12 rest")))
    assert not re.search("^(tuning|learn|count-in|level|teacher|say)", text, re.MULTILINE)


# ---- Licks -------------------------------------------------------------------------------


def test_values_and_swing_marks_stand_where_they_change() -> None:
    lick = lick_of(over("I | I", "swing q 2d q 2d e 3d straight 4d q - | e3 2d 3d 4d h. ="))
    assert lick_text(lick) == (
        "lick run on I\n  swing q 2d 2d  e 3d  straight 4d  q -  |  e3 2d 3d 4d  h. =\n"
    )


def test_lick_with_everything_else() -> None:
    marks = '  q 6ob!{wah}"ta" 123b - 36b{slap}'
    music = f"  pickup e 1d 2b\n{marks}\n  tip Once.\n  tip Twice # not this"
    lick = lick_of(over("I7", music).replace("lick run on", 'turnaround run "Run # 2" on'))
    assert lick_text(lick) == (
        f'turnaround run "Run # 2" on I7\n  pickup e 1d 2b\n{marks}\n  tip Once.\n  tip Twice\n'
    )


def test_return_to_the_feel_of_the_lesson_cannot_be_written() -> None:
    lick = lick_of(over("I", "swing h 2d 3d"))
    first, second = lick.bars[0]
    with pytest.raises(ValueError, match="feel of its lesson"):
        lick_text(lick._replace(bars=((first, second._replace(swings=None)),)))


def test_chords_of_every_bar_where_they_differ() -> None:
    assert lick_text(lick_of(over("I IV | I V", "w 2d | w 2d"))).startswith(
        "lick run on I IV | I V\n"
    )


@pytest.mark.parametrize("once", ["", " once"])
def test_a_pickup_is_written_as_it_is_played(once: str) -> None:
    lick = lick_of(over("I7", f"  pickup{once} e 1d 2b\n  w 2d"))
    assert lick.pickup_once == bool(once)
    assert lick_text(lick) == f"lick run on I7\n  pickup{once} e 1d 2b\n  w 2d\n"
