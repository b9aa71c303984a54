"""A lesson to start from checks without a finding, whatever is chosen."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from formsheet.desk.starter import Start, starter_text
from formsheet.language.tidy import tidied
from formsheet.music.form import FORMS, Form, named_form, parse_ending, parse_form, with_ending
from formsheet.music.harp import HARP_KEYS, Harp
from formsheet.music.rhythm import METERS, Meter
from formsheet.music.tunings import RICHTER, TUNINGS
from formsheet.problems.problem import Severity
from formsheet.source import Source
from tests.helpers import examined, told

STANDARD = FORMS["12-bar standard"]
TURNAROUND = with_ending(FORMS["8-bar"], parse_ending("I VI7 | ii7 V"))
TEMPO = Fraction(100)


def start(form: str = "12-bar standard", meter: str = "4/4", position: int = 2) -> Start:
    named = named_form(form)
    assert named
    return Start("New", Harp("C"), position, named, METERS[meter], "straight", TEMPO)


def lick_lines(chosen: Start) -> list[str]:
    lines = starter_text(chosen).splitlines()
    return [f"{a}: {b.strip()}" for a, b in pairwise(lines) if "lick" in a[:5]]


@settings(max_examples=60, derandomize=True, deadline=None, database=None)
@given(
    harp=st.builds(Harp, st.sampled_from(HARP_KEYS), st.sampled_from(["", "low"]),
                   st.sampled_from(list(TUNINGS.values()))),
    position=st.integers(1, 12),
    form=st.sampled_from([*FORMS.values(), TURNAROUND]),
    meter=st.sampled_from(list(METERS.values())),
)  # fmt: skip
def test_has_no_errors_whatever_is_chosen(
    harp: Harp, position: int, form: Form, meter: Meter
) -> None:
    text = starter_text(Start("New", harp, position, form, meter, "straight", TEMPO))
    assert tidied(Source("new", text)) == (text, [])
    found = examined(text)
    assert found.in_order, told(found.problems)
    assert found.tune
    assert found.tune.lesson.facts.harp == harp


@pytest.mark.parametrize("form", FORMS)
@pytest.mark.parametrize("position", [1, 2, 3])
def test_has_nothing_to_be_said_of_in_the_usual_positions(form: str, position: int) -> None:
    found = examined(starter_text(start(form, position=position)))
    assert [p for p in found.problems if p.severity is not Severity.REMARK] == []


# In second position the 2 draw is the root of I, the 1 blow of IV, the 1 draw of V.
# Common practice, no source.
def test_roots_that_need_no_bend() -> None:
    assert lick_lines(start()) == [
        "lick one on I: q 2d - 2d -", "lick four on IV: q 1b - 1b -", "lick five on V: q 1d - 1d -",
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("meter", "music"),
    [("3/4", "q 2d - 2d"), ("12/8", "q. 2d - 2d -"), ("6/8", "q. 2d -")],
)
def test_a_note_and_a_rest_by_turns(meter: str, music: str) -> None:
    assert lick_lines(start(meter=meter))[0] == f"lick one on I: {music}"


def test_two_chords_share_a_bar() -> None:
    form = parse_form("Own", "I7 IV7 | I7 V7")
    chosen = Start("New", Harp("C"), 2, form, METERS["4/4"], "swing", TEMPO)
    assert lick_lines(chosen)[0] == "lick one-four on I IV: q 2d -  q 1b -"


def test_chords_of_one_degree_keep_apart() -> None:
    form = parse_form("Own", "I7 | Imaj7")
    chosen = Start("New", Harp("C"), 1, form, METERS["4/4"], "swing", TEMPO)
    heads = [line.split(":")[0] for line in lick_lines(chosen)]
    assert heads == ["lick one on I7", "lick one_2 on Imaj7"]


def test_the_bars_stand_ready_with_their_chords() -> None:
    lines = starter_text(start()).splitlines()
    assert lines[lines.index("play") + 1 :][:2] == [
        "  bars 1-4     one   # I7, G7", "  bars 5-6     four  # IV7, C7",
    ]  # fmt: skip


def test_the_chords_on_the_harp_are_comments() -> None:
    lines = starter_text(start()).splitlines()
    at = lines.index("#   I7  G7")
    assert lines[at + 1] == "#     roots       2d, 3b, 6b, 9b"
    assert "123d (G)" in lines[at + 2]


def test_another_tuning_is_named() -> None:
    harp = Harp("C", tuning=TUNINGS["country"])
    text = starter_text(Start("New", harp, 2, STANDARD, METERS["4/4"], "swing", TEMPO))
    assert "tuning    country" in text
    assert RICHTER.name not in text
