"""Forms against published ones, written out here as degrees."""

from __future__ import annotations

from fractions import Fraction

import pytest

from formsheet.music.chord import parse_chord
from formsheet.music.form import (
    BARS_A_LINE,
    FORMS,
    Form,
    chord_at,
    chord_places,
    parse_form,
    with_ending,
)

# From memory of the articles; the last bar is left open, since it takes the turnaround.
TWELVE = 'Wikipedia, "Twelve-bar blues"'
EIGHT = 'Wikipedia, "Eight-bar blues"'
SIXTEEN = 'Wikipedia, "Sixteen-bar blues"'
PRACTICE = "common practice, no source"
PUBLISHED = {
    "12-bar standard": (TWELVE, "I I I I  IV IV I I  V IV I"),
    "12-bar quick-change": (TWELVE, "I IV I I  IV IV I I  V IV I"),
    "12-bar long five": (TWELVE, "I I I I  IV IV I I  V V I"),
    "12-bar minor": (TWELVE, "i i i i  iv iv i i  bVI V i"),
    "8-bar": (EIGHT, "I V IV IV  I V I"),
    "8-bar late change": (EIGHT, "I I IV IV  I V I"),
    "8-bar long home": (PRACTICE, "I I I I  IV V I"),
    "16-bar": (SIXTEEN, "I I I I  I I I I  IV IV I I  V IV I"),
}
BARS = {"12": 12, "8": 8, "16": 16}

OWN = parse_form(
    "own",
    """
    I7  | IV7 | I7     | I7
    ii7 | V7  | I7 IV7 | I7 V7
    """,
)


def degrees(form: Form) -> list[str]:
    """The form's chords without their sevenths, one word a bar."""
    return [" ".join(str(chord).removesuffix("7") for chord in bar) for bar in form.bars]


def written(form: Form) -> list[str]:
    """The form's chords as written, one word a bar."""
    return [" ".join(map(str, bar)) for bar in form.bars]


@pytest.mark.parametrize("name", FORMS)
def test_bars_before_the_last_as_published(name: str) -> None:
    source, roots = PUBLISHED[name]
    assert degrees(FORMS[name])[:-1] == roots.split(), source


@pytest.mark.parametrize("name", FORMS)
def test_last_bar_turns_to_the_top(name: str) -> None:
    """V in the last bar: common practice, no source."""
    assert written(FORMS[name])[-1] == "V7"


@pytest.mark.parametrize("name", FORMS)
def test_form_has_the_bars_of_its_name_in_lines_of_four(name: str) -> None:
    form = FORMS[name]
    bars = BARS[name.split("-", maxsplit=1)[0]]
    assert [len(line) for line in form.lines] == [BARS_A_LINE] * (bars // BARS_A_LINE)


@pytest.mark.parametrize("name", FORMS)
def test_form_goes_by_its_name(name: str) -> None:
    assert FORMS[name].name == name


@pytest.mark.parametrize("name", FORMS)
def test_every_chord_is_a_seventh_chord(name: str) -> None:
    assert {chord.quality for chord in FORMS[name].chords} == {"7"}


def test_no_two_forms_are_alike() -> None:
    assert len({form.lines for form in FORMS.values()}) == len(FORMS)


@pytest.mark.parametrize("name", FORMS)
def test_minor_forms(name: str) -> None:
    assert FORMS[name].minor is (name == "12-bar minor")


@pytest.mark.parametrize(
    ("text", "minor"),
    [("i | IV7", True), ("IV7 | i7", True), ("I7 | iv7", False), ("ii7 | I", False)],
)
def test_mode_is_that_of_the_home_chord(text: str, minor: bool) -> None:
    assert parse_form("own", text).minor is minor


# How the last bar goes: common practice, no source.
@pytest.mark.parametrize(
    ("name", "ending", "last"),
    [("12-bar standard", "I", "I7"), ("12-bar standard", "V", "V7"), ("8-bar", "I", "I7"),
     ("12-bar minor", "I", "i7"), ("12-bar minor", "V", "V7"), ("16-bar", "I", "I7")],
)  # fmt: skip
def test_ending(name: str, ending: str, last: str) -> None:
    assert written(with_ending(FORMS[name], parse_chord(ending)))[-1] == last


@pytest.mark.parametrize("ending", ["I", "V"])
@pytest.mark.parametrize("name", FORMS)
def test_ending_changes_nothing_but_the_last_bar(name: str, ending: str) -> None:
    form = FORMS[name]
    assert with_ending(form, parse_chord(ending)).bars[:-1] == form.bars[:-1]


def test_ending_on_a_degree_that_the_form_lacks_is_a_seventh_chord() -> None:
    assert written(with_ending(parse_form("own", "I7 | IV7"), parse_chord("V"))) == ["I7", "V7"]


def test_ending_takes_the_place_of_a_shared_bar() -> None:
    assert written(with_ending(OWN, parse_chord("I")))[-2:] == ["I7 IV7", "I7"]


def test_own_form_is_read_line_by_line() -> None:
    assert [len(line) for line in OWN.lines] == [4, 4]


def test_own_form_has_shared_bars() -> None:
    assert written(OWN) == ["I7", "IV7", "I7", "I7", "ii7", "V7", "I7 IV7", "I7 V7"]


def test_chords_in_order_of_appearance() -> None:
    assert [str(chord) for chord in OWN.chords] == ["I7", "IV7", "ii7", "V7"]


def test_form_with_a_bar_that_is_no_chord() -> None:
    with pytest.raises(ValueError, match="not a chord numeral: 'X7'"):
        parse_form("own", "I7 | X7")


@pytest.mark.parametrize(
    ("length", "half"), [(Fraction(4), Fraction(2)), (Fraction(3), Fraction(3, 2))]
)
def test_two_chords_share_a_bar_halfway(length: Fraction, half: Fraction) -> None:
    one, four = parse_chord("I7"), parse_chord("IV7")
    assert chord_places((one,), length) == ((Fraction(0), one),)
    places = chord_places((one, four), length)
    assert places == ((Fraction(0), one), (half, four))
    just_before = half - Fraction(1, 24)
    assert [chord_at(places, Fraction(at)) for at in (0, just_before, half)] == [one, one, four]
