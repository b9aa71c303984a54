"""What holds for every tune, whatever is in it."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from formsheet.music.harp import HARP_KEYS, REGISTERS, Harp
from formsheet.music.rhythm import METERS, Meter, Value
from formsheet.music.tunings import TUNINGS
from formsheet.tune.timeline import Tune
from tests.helpers import lesson_text, own_form, tune_of

VALUES = [
    *(Value(letter, dots) for letter in "whqes" for dots in (0, 1, 2)),
    *(Value(letter, triplet=True) for letter in "hqes"),
]
FEELS = ("straight", "swing", "swing 3:2", "swing 60%", "swing 7:2")
few = settings(max_examples=60, derandomize=True, deadline=None, database=None)


@st.composite
def bar(draw: st.DrawFn, meter: Meter) -> str:
    """A bar of any values that fill it exactly, ends filled with what fits."""
    words: list[str] = []
    left = meter.bar
    while left:
        fitting = [v for v in VALUES if can_be_filled(left - length(v))]
        value = draw(st.sampled_from(fitting))
        mark_of_feel = draw(st.sampled_from(["", "", "", "swing", "straight"]))
        words += [mark_of_feel, str(value)] if mark_of_feel else [str(value)]
        for _ in range(3 if value.triplet else 1):
            sounds = words_before(words)
            words.append(draw(st.sampled_from(["2d", "4d", "5b", "-", *(["="] if sounds else [])])))
        left -= length(value)
    return " ".join(words)


def words_before(words: list[str]) -> bool:
    """Whether the last mark before a place sounds, so that it can be held."""
    marks = [word for word in words if word[0].isdigit() or word in "-="]
    return bool(marks) and marks[-1] != "-"


def length(value: Value) -> Fraction:
    """Length of a note, or of the three of a triplet."""
    return value.length * (3 if value.triplet else 1)


def can_be_filled(left: Fraction) -> bool:
    """Whether sixteenths can fill what is left."""
    return left >= 0 and left % Fraction(1, 4) == 0


@st.composite
def pickup(draw: st.DrawFn, meter: Meter) -> str:
    """A pick-up of less than half a bar, in triplets or not: what it leaves can be written."""
    unit = draw(st.sampled_from([Fraction(1, 4), Fraction(1, 6)]))
    values = [v for v in VALUES if v.length < meter.bar / 4 and v.length % unit == 0]
    marks = draw(st.lists(st.tuples(st.sampled_from(values), st.sampled_from(["1d", "2d", "-"])),
                          min_size=1, max_size=2))  # fmt: skip
    return " ".join(f"{value} {mark}" for value, mark in marks)


@st.composite
def lessons(draw: st.DrawFn, meters: tuple[str, ...] = tuple(METERS)) -> str:
    """A lesson of two licks with pick-ups and rests at the end, over several choruses."""
    name = draw(st.sampled_from(meters))
    meter = METERS[name]
    lines = []
    for lick, chord in (("one", "I"), ("two", "IV")):
        music = " | ".join(draw(st.lists(bar(meter), min_size=1, max_size=2)))
        rest = "w. -" if meter.bar == 6 else "w -" if meter.bar == 4 else "h. -"
        lines += [f"lick {lick} on {chord}"]
        if draw(st.booleans()):
            lines += [f" pickup {draw(pickup(meter))}"]
        lines += [f" {music} | {rest}"]
    body = "\n".join([*lines, f"play x{draw(st.integers(1, 3))}", " every I one", " every IV two"])
    six = " | ".join(["I"] * 6 + ["IV"] * 6)
    return lesson_text(
        body,
        form=own_form(six),
        meter=name,
        feel=draw(st.sampled_from(FEELS)),
        tempo=str(draw(st.integers(20, 300))),
    )


def meter_of(tune: Tune) -> Meter:
    return tune.lesson.facts.meter


def length_s(tune: Tune) -> float:
    """Seconds of the whole tune by its bars, its beats and its tempo."""
    beats = len([bar for bar in tune.bars if bar.number]) * meter_of(tune).beats
    return float(beats * 60 / tune.lesson.facts.tempo)


@few
@given(lessons())
def test_bars_sum_to_the_meter(text: str) -> None:
    tune = tune_of(text)
    for bar in tune.bars:
        at = Fraction(0)
        for played in bar.marks:
            assert played.onset == at
            at = played.end
        assert at == meter_of(tune).bar


@few
@given(lessons())
def test_bars_follow_one_another(text: str) -> None:
    tune = tune_of(text)
    assert all(b.start - a.start == meter_of(tune).bar for a, b in pairwise(tune.bars))
    assert [i for chorus in tune.choruses for i in chorus.bars] == [
        index for index, bar in enumerate(tune.bars) if bar.number
    ]


@few
@given(lessons())
def test_notes_are_in_order_and_never_overlap(text: str) -> None:
    tune = tune_of(text)
    for first, second in pairwise(tune.notes):
        end = tune.bars[first.bar].start + first.onset + first.duration
        assert end <= tune.bars[second.bar].start + second.onset
        assert first.start_s < first.end_s <= second.start_s


@few
@given(lessons())
def test_swing_stays_inside_the_tune(text: str) -> None:
    """The last mark of a bar ends on its bar line, whatever the swing."""
    tune = tune_of(text)
    assert all(-length_s(tune) < note.start_s < note.end_s for note in tune.notes)
    assert all(note.end_s <= length_s(tune) + 1e-9 for note in tune.notes)


@few
@given(st.sampled_from(["4/4", "3/4"]), st.integers(20, 300), st.integers(1, 6), st.data())
def test_whole_length_and_beats_whatever_the_swing(
    name: str, tempo: int, bars: int, data: st.DataObject
) -> None:
    """Eighths all through, under any feel: every beat starts where it would unswung."""
    beats = METERS[name].beats
    music = " | ".join([" ".join(["e 2d 4d"] * beats)] * bars)
    chords = " | ".join(["I"] * bars)
    feel = data.draw(st.sampled_from(FEELS))
    body = f"lick run on {chords}\n{music}\nplay\n bars 1-{bars} run"
    tune = tune_of(
        lesson_text(body, form=own_form(chords), meter=name, tempo=str(tempo), feel=feel)
    )
    assert tune.notes[-1].end_s == pytest.approx(bars * beats * 60 / tempo)
    assert [n.start_s for n in tune.notes[::2]] == pytest.approx(
        [beat * 60 / tempo for beat in range(bars * beats)]
    )
    assert all(
        second.end_s - first.start_s == pytest.approx(60 / tempo)
        for first, second in zip(tune.notes[::2], tune.notes[1::2], strict=True)
    )


@few
@given(
    st.sampled_from(HARP_KEYS),
    st.sampled_from(list(REGISTERS)),
    st.sampled_from(list(TUNINGS)),
    st.data(),
)
def test_tab_to_pitch_to_tab(key: str, register: str, tuning: str, data: st.DataObject) -> None:
    """What a note of a lesson sounds is found again among the harp's single notes."""
    harp = Harp(key, register, TUNINGS[tuning])
    tab, midi = data.draw(st.sampled_from(list(harp.single_notes(overbends=True))))
    body = f"lick run on I\n w {tab}\nplay\n every I run"
    facts = {"harp": harp.name, "tuning": tuning, "form": own_form("I")}
    (note,) = tune_of(lesson_text(body, **facts)).notes
    assert note.midi == (midi,)
    assert note.tab in [t for t, m in harp.single_notes(overbends=True) if m == note.midi[0]]
