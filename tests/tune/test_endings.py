"""How the last bar of a play's choruses goes: `ending I`, `last time ending I`."""

from __future__ import annotations

import pytest

from tests.helpers import lesson_text, only_problem, own_form, slugs_of, tune_of

LICKS = """
lick home on I, IV
  h. 2d q -
lick gate on V
  h. 1d q -
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


def chords_of(*lines: str, play: str = "play x2", form: str = "I7 | V7 | I7 | V7") -> list[str]:
    """The chords of each chorus, all its bars at rest."""
    rests = [play, "bars 1-4 rest", *lines]
    tune = tune_of(lesson_text("\n".join([LICKS, *rests]), form=form))
    return [
        " | ".join(" ".join(str(chord) for _, chord in tune.bars[at].chords) for at in chorus.bars)
        for chorus in tune.choruses
    ]


OWN = own_form("I7 | V7 | I7 | V7")


@pytest.mark.parametrize(
    ("lines", "first", "last"),
    [
        (["ending I IV | I V"], "I7 | V7 | I7 IV7 | I7 V7", "I7 | V7 | I7 IV7 | I7 V7"),
        (["last time ending I IV | I"], "I7 | V7 | I7 | V7", "I7 | V7 | I7 IV7 | I7"),
        (["ending I VI7 | ii7 V7", "last time ending I"],
         "I7 | V7 | I7 VI7 | ii7 V7", "I7 | V7 | I7 VI7 | I7"),
        (["ending I", "last time ending I IV | I V"], "I7 | V7 | I7 | I7",
         "I7 | V7 | I7 IV7 | I7 V7"),
        (["ending I | IV | V | I"], "I7 | IV7 | V7 | I7", "I7 | IV7 | V7 | I7"),
        (["ending IV"], "I7 | V7 | I7 | IV7", "I7 | V7 | I7 | IV7"),
    ],
)  # fmt: skip
def test_ending_of_several_bars(lines: list[str], first: str, last: str) -> None:
    assert chords_of(*lines, form=OWN) == [first, last]


def test_ending_of_a_play_after_that_of_the_form() -> None:
    form = OWN.replace('"Own"', '"Own" ending I IV | I V')
    assert chords_of("last time ending I", form=form) == [
        "I7 | V7 | I7 IV7 | I7 V7",
        "I7 | V7 | I7 IV7 | I7",
    ]


@pytest.mark.parametrize("words", ["ending", "last time ending"])
def test_ending_that_the_form_has_no_room_for(words: str) -> None:
    text = lesson_text(f"{LICKS}play\nbars 1-4 rest\n{words} I | I | I | I | V", form=OWN)
    problem = only_problem(text)
    assert (problem.code, problem.span.text) == ("ending-too-long", "I | I | I | I | V")


def test_ending_with_three_chords_in_a_bar() -> None:
    problem = only_problem(lesson_text(f"{LICKS}play\nbars 1-4 rest\nending I IV V", form=OWN))
    assert (problem.code, problem.fields["apart"]) == ("bar-chords", "I | IV | V")


def test_lick_over_a_turnaround_of_two_chords_a_bar() -> None:
    lick = "turnaround turn on I IV | I V\n  h 2d 1b | h 2d 1d\n"
    lines = "play x2\nbars 1-2 rest\nbars 3-4 turn\nlast time bars 3-4 rest\n"
    ends = "ending I IV | I V\nlast time ending I | I"
    assert slugs_of(lesson_text(lick + lines + ends, form=OWN)) == []
    plain = lesson_text(lick + lines, form=OWN)
    assert slugs_of(plain) == ["lick-wrong-chord", "lick-wrong-chord"]


def test_stands_in_a_play_only() -> None:
    text = lesson_text(f"ending I\n{LICKS}play\nbar 1 home\nbar 2 gate\nbars 3-4 home",
                       form=own_form("I | V | I | V"))  # fmt: skip
    assert slugs_of(text) == ["line-misplaced"]  # and bar 4 is read as I


# Common practice, no source: a turnaround is two bars long. A line of play that cannot be read may
# be another ending, so that a lick over the last two bars is not judged.
@pytest.mark.limit("tune.assemble._LONGEST_TURNAROUND")
@pytest.mark.parametrize(("bar", "slugs"), [(10, ["lick-wrong-chord"]), (11, [])])
def test_chords_that_a_line_not_read_may_change(bar: int, slugs: list[str]) -> None:
    text = lesson_text(
        f"lick a on I\n  w 2d\nplay\n  ending IX\n  bars 1-{bar - 1} rest\n  bar {bar} a\n"
        f"  bars {bar + 1}-12 rest",
        form=own_form(" | ".join(["IV7"] * 12)),
    )
    assert slugs_of(text) == ["word-unexpected", *slugs]
