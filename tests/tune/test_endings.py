"""How the last bar of a play's choruses goes: `ending I`, `last time ending I`."""

from __future__ import annotations

import pytest

from tests.helpers import lesson_text, own_form, slugs_of, tune_of

LICKS = """
lick home on I, IV
  w 2d
lick gate on V
  w 1d
"""


def last_chords(*lines: str, play: str = "play x2", form: str = "I | V | I | V") -> str:
    """The chord of the last bar of each chorus."""
    text = lesson_text("\n".join([LICKS, play, *lines]), form=own_form(form))
    tune = tune_of(text)
    return " ".join(str(tune.bars[chorus.bars[-1]].chords[0][1]) for chorus in tune.choruses)


EVERY = ("every I home", "every V gate")


@pytest.mark.parametrize(
    ("lines", "chords"),
    [((), "V V"), (("ending I",), "I I"), (("last time ending I",), "V I"),
     (("ending I", "last time ending V"), "I V")],
)  # fmt: skip
def test_last_bar(lines: tuple[str, ...], chords: str) -> None:
    assert last_chords(*EVERY, *lines) == chords


def test_only_its_own_play_ends_so() -> None:
    lines = (*EVERY, "play", *EVERY, "ending I")
    assert last_chords(*lines, play="play") == "V I"


def test_the_ending_takes_the_seventh_of_its_degree() -> None:
    assert last_chords(*EVERY, "ending I", form="I7 | V | I7 | V") == "I7 I7"


def test_an_every_line_may_be_for_the_other_times_only() -> None:
    """V stands in no bar of the last chorus; it does in the first."""
    text = lesson_text(f"{LICKS}play x2\nevery I home\nevery V gate\nlast time ending I",
                       form=own_form("I | V"))  # fmt: skip
    assert slugs_of(text) == []


@pytest.mark.parametrize(("ending", "slugs"), [("V", []), ("I", ["lick-wrong-chord"])])
def test_a_lick_must_fit_the_ending(ending: str, slugs: list[str]) -> None:
    lines = f"play\nbar 1 home\nbar 2 gate\nending {ending}"
    assert slugs_of(lesson_text(LICKS + lines, form=own_form("I | V"))) == slugs


@pytest.mark.parametrize("chord", ["IV", "bVI"])
def test_ends_on_home_or_on_the_fifth(chord: str) -> None:
    text = lesson_text(f"{LICKS}play\nevery I home\nevery V gate\nending {chord}",
                       form=own_form("I | V | I | V"))  # fmt: skip
    assert slugs_of(text) == ["ending-unknown"]


def test_stands_in_a_play_only() -> None:
    text = lesson_text(f"ending I\n{LICKS}play\nevery I home\nevery V gate",
                       form=own_form("I | V | I | V"))  # fmt: skip
    assert slugs_of(text) == ["line-misplaced"]
