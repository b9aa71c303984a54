"""Facts: every value that is read, every range, what is absent, what is given twice."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

import pytest

from formsheet.lesson.model import Facts
from formsheet.music.harp import HARP_KEYS
from formsheet.music.key import POSITIONS
from tests.helpers import (
    examined,
    lesson_of,
    lesson_text,
    only_problem,
    problems_of,
    slugs_of,
)

RESTS = "play\n  bars 1-12 rest"


def facts_of(**facts: str | None) -> Facts:
    return lesson_of(lesson_text(RESTS, **facts)).facts


def wrong(fact: str, words: str) -> tuple[str, str, dict[str, Any]]:
    problem = only_problem(lesson_text(RESTS, **{fact: words}))
    return problem.code, problem.span.text, problem.fields


# ---- Harp and position -------------------------------------------------------------------


@pytest.mark.parametrize("key", HARP_KEYS)
@pytest.mark.parametrize("register", ["", "low", "high"])
def test_harp(key: str, register: str) -> None:
    harp = facts_of(harp=f"{register} {key}").harp
    assert (harp.key, harp.register) == (key, register)


@pytest.mark.parametrize(("written", "key"), [("B♭", "Bb"), ("F♯", "F#"), ("low E♭", "Eb")])
def test_signs_of_a_harp(written: str, key: str) -> None:
    assert facts_of(harp=written).harp.key == key


@pytest.mark.parametrize(
    ("written", "slug", "spot", "near"),
    [
        ("H", "harp-unknown", "H", "B"),
        ("bb", "harp-unknown", "bb", "Bb"),
        ("low f#", "harp-unknown", "f#", "F#"),
        ("E#", "harp-unknown", "E#", None),
        ("hihg F", "harp-register", "hihg", "high"),
        ("very low F", "harp-register", "very low", None),
        ("C major", "harp-unknown", "C major", "C"),
        ("C minor", "harp-unknown", "C minor", None),
    ],
)
def test_harp_that_is_none(written: str, slug: str, spot: str, near: str | None) -> None:
    found = wrong("harp", written)
    assert found[:2] == (slug, spot)
    assert found[2]["near"] == near


# The trade's twelve positions. Common practice, no source.
def test_positions_are_twelve() -> None:
    assert POSITIONS == (
        "1st", "2nd", "3rd", "4th", "5th", "6th", "7th", "8th", "9th", "10th", "11th", "12th",
    )  # fmt: skip


@pytest.mark.parametrize(("number", "written"), list(enumerate(POSITIONS, start=1)))
def test_position(number: int, written: str) -> None:
    assert facts_of(position=written).position == number


@pytest.mark.parametrize("written", ["0th", "13th", "second", "2nd 3rd", "99th", "-1", "2.5"])
def test_position_that_is_none(written: str) -> None:
    assert wrong("position", written)[:2] == ("position-unknown", written)


@pytest.mark.parametrize(
    ("facts", "key"),
    [
        ({"harp": "C", "position": "1st"}, "C"),
        ({"harp": "C", "position": "2nd"}, "G"),
        ({"harp": "low F", "position": "2nd"}, "C"),
        ({"harp": "Bb", "position": "3rd"}, "C"),
        ({"harp": "C", "position": "12th"}, "F"),
        ({"harp": "C", "position": "3rd", "form": "12-bar minor"}, "D minor"),
        ({"harp": "C", "position": "4th", "form": "12-bar minor"}, "A minor"),
    ],
)
def test_key_of_the_song(facts: dict[str, str], key: str) -> None:
    assert lesson_of(lesson_text(RESTS, **facts)).key.name == key


# ---- Meter, tempo, feel, count-in --------------------------------------------------------


@pytest.mark.parametrize(
    ("meter", "bar"),
    [("4/4", Fraction(4)), ("12/8", Fraction(6)), ("3/4", Fraction(3)), ("6/8", Fraction(3))],
)
def test_meter(meter: str, bar: Fraction) -> None:
    assert facts_of(meter=meter).meter.bar == bar


@pytest.mark.parametrize("written", ["5/4", "4", "4/4 6/8", "44"])
def test_meter_that_is_none(written: str) -> None:
    assert wrong("meter", written)[:2] == ("meter-unknown", written)


# From 20 to 300: what a metronome offers. Common practice, no source.
@pytest.mark.limit("vocabulary.facts.SLOWEST", "vocabulary.facts.FASTEST")
@pytest.mark.parametrize(
    ("written", "beats"),
    [("20", Fraction(20)), ("104", Fraction(104)), ("92.5", Fraction(185, 2)),
     ("300", Fraction(300))],
)  # fmt: skip
def test_tempo_and_learn(written: str, beats: Fraction) -> None:
    assert facts_of(tempo=written).tempo == beats
    assert facts_of(learn=written).learn == beats


@pytest.mark.limit("vocabulary.facts.SLOWEST", "vocabulary.facts.FASTEST")
@pytest.mark.parametrize("fact", ["tempo", "learn"])
@pytest.mark.parametrize(
    "written", ["19", "19.9", "301", "300.5", "0", "fast", "104 120", "1e2", "-60", "104bpm"]
)
def test_tempo_that_is_none(fact: str, written: str) -> None:
    slug, spot, facts = wrong(fact, written)
    assert (slug, spot, facts["fact"]) == ("tempo-unknown", written, fact)


@pytest.mark.parametrize(
    ("written", "share"),
    [
        ("straight", Fraction(1, 2)),
        ("swing", Fraction(2, 3)),
        ("swing 2:1", Fraction(2, 3)),
        ("swing 3:2", Fraction(3, 5)),
        ("swing 60%", Fraction(3, 5)),
        ("swing 3:1", Fraction(3, 4)),
        ("swing 50%", Fraction(1, 2)),
        ("swing 99%", Fraction(99, 100)),
    ],
)
def test_feel(written: str, share: Fraction) -> None:
    assert facts_of(feel=written, tempo="20").feel.share == share


@pytest.mark.parametrize(
    ("written", "slug", "near"),
    [
        ("swing 1:2", "feel-ratio", None),
        ("swing 49%", "feel-ratio", None),
        ("swing 100%", "feel-ratio", None),
        ("swing 0:0", "feel-ratio", None),
        ("swing hard", "feel-ratio", None),
        ("swing 2:1 3:1", "feel-ratio", None),
        ("straight 2:1", "feel-unknown", "straight"),
        ("swings", "feel-unknown", "swing"),
        ("lazy", "feel-unknown", None),
    ],
)
def test_feel_that_is_none(written: str, slug: str, near: str | None) -> None:
    found = wrong("feel", written)
    assert (*found[:2], found[2].get("near")) == (slug, written, near)


# Four bars at most: our own choice.
@pytest.mark.limit("vocabulary.facts.MOST_COUNT_IN")
@pytest.mark.parametrize("bars", [0, 1, 2, 4])
def test_count_in(bars: int) -> None:
    assert facts_of(count_in=str(bars)).count_in == bars


@pytest.mark.limit("vocabulary.facts.MOST_COUNT_IN")
@pytest.mark.parametrize("written", ["5", "-1", "1.5", "two", "1 2", "²"])
def test_count_in_that_is_none(written: str) -> None:
    assert wrong("count-in", written)[:2] == ("count-in-unknown", written)


# ---- Texts, defaults, what is absent -----------------------------------------------------


def test_texts() -> None:
    facts = facts_of(teacher="The class", rights="Copy it", date="May 2026", say="One\nsay Two")
    assert (facts.teacher, facts.rights, facts.date) == ("The class", "Copy it", "May 2026")
    assert (facts.title, facts.says) == ("Test Blues", ("One", "Two"))


def test_defaults() -> None:
    facts = facts_of(position=None)
    assert (facts.position, facts.harp.tuning.name, facts.meter.text) == (2, "richter", "4/4")
    assert (facts.feel.swings, facts.learn, facts.count_in) == (False, None, 1)
    assert (facts.teacher, facts.rights, facts.date, facts.says) == ("", "", "", ())


def test_facts_in_any_order() -> None:
    lines = lesson_text(RESTS).partition("\n\n")[0].splitlines()
    turned = "\n".join([*reversed(lines), RESTS])
    assert lesson_of(turned).facts.title == "Test Blues"


@pytest.mark.parametrize("fact", ["title", "harp", "form", "tempo"])
def test_fact_that_a_lesson_needs(fact: str) -> None:
    problem = only_problem(lesson_text(RESTS, **{fact: None}))
    assert (problem.code, problem.span.place) == (f"{fact}-missing", ("test.lesson", 1, 1))


def test_all_missing_facts_are_told_at_once() -> None:
    slugs = slugs_of("")
    assert sorted(slugs) == [
        "form-missing", "harp-missing", "play-missing", "tempo-missing", "title-missing",
    ]  # fmt: skip


@pytest.mark.parametrize(
    "line",
    ["title B", "teacher B", "rights B", "date B", "harp D", "tuning richter", "position 3rd",
     "form 12-bar standard", "meter 4/4", "tempo 61", "learn 60", "feel swing", "count-in 2"],
)  # fmt: skip
def test_fact_given_twice(line: str) -> None:
    fact = line.split(maxsplit=1)[0]
    problem = only_problem(
        lesson_text(f"{line}\n{line}\n{RESTS}", **{fact.replace("-", "_"): None})
    )
    assert (problem.code, problem.span.text) == ("fact-twice", fact)
    assert problem.related[0].span.line == problem.span.line - 1


def test_first_of_two_facts_counts() -> None:
    found = examined(lesson_text(f"tempo 80\n{RESTS}"))
    assert found.lesson is not None
    assert found.lesson.facts.tempo == 60


def test_where_a_fact_stands_is_kept() -> None:
    places = facts_of(harp="low F").places
    assert (places["harp"].text, places["tempo"].text) == ("low F", "60")


@pytest.mark.parametrize(
    ("facts", "near"),
    [({"feel": "shuffle"}, "swing"), ({"feel": "swung"}, "swing"),
     ({"form": "minor blues"}, "12-bar minor"), ({"form": "quick-change"}, "12-bar quick-change")],
)  # fmt: skip
def test_what_players_say_is_answered_with_our_word(facts: dict[str, str], near: str) -> None:
    (problem,) = [p for p in problems_of(lesson_text("", **facts)) if p.fields.get("near")]
    assert problem.fields["near"] == near
