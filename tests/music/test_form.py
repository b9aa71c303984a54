"""Forms against published ones, written out here as degrees."""

from __future__ import annotations

from fractions import Fraction

import pytest

from formsheet.music.chord import parse_chord
from formsheet.music.form import (
    BARS_A_LINE,
    FORMS,
    Form,
    built_in_form,
    chord_at,
    chord_places,
    ending_text,
    folded_forms,
    named_form,
    parse_ending,
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
    assert written(with_ending(FORMS[name], parse_ending(ending)))[-1] == last


@pytest.mark.parametrize("ending", ["I", "V"])
@pytest.mark.parametrize("name", FORMS)
def test_ending_changes_nothing_but_the_last_bar(name: str, ending: str) -> None:
    form = FORMS[name]
    assert with_ending(form, parse_ending(ending)).bars[:-1] == form.bars[:-1]


def test_ending_takes_the_place_of_a_shared_bar() -> None:
    assert written(with_ending(OWN, parse_ending("I")))[-2:] == ["I7 IV7", "I7"]


# A numeral without a quality is the form's own chord on its degree; where the form has none there,
# it has a seventh if the form's chord on I has one. Common practice, no source.
@pytest.mark.parametrize(
    ("form", "ending", "last"),
    [
        ("I7 | IV7 | I7 | V7", "I IV | I V", "I7 | IV7 | I7 IV7 | I7 V7"),
        ("I7 | IV7 | I7 | V7", "I VI7 | ii7 V7", "I7 | IV7 | I7 VI7 | ii7 V7"),
        ("I7 | IV7 | I7 | V7", "I bIII7 | II7 bII7", "I7 | IV7 | I7 bIII7 | II7 bII7"),
        ("I7 | IV7 | I7 | V7", "I VI | ii V", "I7 | IV7 | I7 VI7 | ii7 V7"),
        ("I7 | IV7 | I7 | V7", "Imaj7", "I7 | IV7 | I7 | Imaj7"),
        ("I7 | IV7 | I7 | V7", "I | IV | I V", "I7 | I7 | IV7 | I7 V7"),
        ("I7 | IV7", "V", "I7 | V7"),
        ("I9 | IV9", "V", "I9 | V7"),
        ("I6 | IV", "V", "I6 | V"),
        ("I | IV", "V", "I | V"),
        ("I | IV", "V7", "I | V7"),
        ("I | IV9 | I | V13", "I IV | I V", "I | IV9 | I IV9 | I V13"),
        ("i7 | iv7 | i7 | V7", "I IV | I V", "i7 | iv7 | i7 iv7 | i7 V7"),
        ("i | iv | i | v", "i iv | i V7", "i | iv | i iv | i V7"),
        ("I7 | IV7 | I7 | V7", "I iv | I V", "I7 | IV7 | I7 iv7 | I7 V7"),  # a minor iv is meant
        ("I | IV | I | V", "I iv | I V", "I | IV | I iv | I V"),
        ("IV7 | iv7 | I7 | V7", "I iv | I IV", "IV7 | iv7 | I7 iv7 | I7 IV7"),
        ("IV7 | V7 | ii7", "vi", "IV7 | V7 | vi7"),  # no I: its first chord decides
    ],
)
def test_chords_of_an_ending(form: str, ending: str, last: str) -> None:
    assert " | ".join(written(with_ending(parse_form("own", form), parse_ending(ending)))) == last


@pytest.mark.parametrize(
    ("form", "ending", "last"),
    [("I7 | V7", "i", "I7"), ("i7 | V7", "v", "V7"), ("i7 | V7", "I", "i7"),
     ("i7 | I7 | V7", "I", "i7"), ("I7 | IV7", "v", "v7")],
)  # fmt: skip
def test_home_or_the_fifth_alone_is_the_forms_own_chord(form: str, ending: str, last: str) -> None:
    assert written(with_ending(parse_form("own", form), parse_ending(ending)))[-1] == last


@pytest.mark.parametrize("name", FORMS)
def test_lines_stay_as_long_under_an_ending(name: str) -> None:
    form = FORMS[name]
    for bars in range(1, len(form.bars) + 1):
        ended = with_ending(form, parse_ending(" | ".join(["I IV"] * bars)))
        assert list(map(len, ended.lines)) == list(map(len, form.lines))
        assert ended.bars[:-bars] == form.bars[:-bars]
        assert {len(bar) for bar in ended.bars[-bars:]} == {2}


def test_ending_longer_than_its_form() -> None:
    two = parse_form("own", "I | V")
    assert written(with_ending(two, parse_ending("IV | I"))) == ["IV", "I"]
    with pytest.raises(ValueError, match="names 3 bars; the form has 2"):
        with_ending(two, parse_ending("I | IV | V"))


def test_shorter_ending_leaves_the_bars_of_the_one_before_it() -> None:
    form = with_ending(OWN, parse_ending("I VI7 | ii V"))
    assert written(with_ending(form, parse_ending("I")))[-2:] == ["I7 VI7", "I7"]
    assert with_ending(form, parse_ending("I IV | I V")).ending == parse_ending("I IV | I V")
    assert with_ending(form, ()) == form


@pytest.mark.parametrize(
    ("text", "again"),
    [("I", "I"), (" I IV | I V ", "I IV | I V"), ("| I7|V7 |", "I7 | V7"), ("i♭", None),
     ("", None), ("I | | V", None), ("I IV V", None), ("I | D7", None)],
)  # fmt: skip
def test_ending_in_words(text: str, again: str | None) -> None:
    if again is None:
        with pytest.raises(ValueError, match=r"is not a chord|a bar has a chord or two"):
            parse_ending(text)
    else:
        assert ending_text(parse_ending(text)) == again


def test_name_is_kept_apart_from_the_ending() -> None:
    form = with_ending(parse_form("The never ending road", "I7 | V7"), parse_ending("I"))
    assert (form.name, form.full_name) == (
        "The never ending road",
        "The never ending road ending I",
    )


@pytest.mark.parametrize(
    ("name", "found"),
    [("12-bar standard", "12-bar standard"), ("12-Bar  STANDARD ", "12-bar standard"),
     ("8\u2011bar", "8-bar"), ("16\u2013Bar", "16-bar"), ("9-bar", None), ("", None)],
)  # fmt: skip
def test_name_of_a_built_in_form_is_folded(name: str, found: str | None) -> None:
    form = built_in_form(name)
    assert (form and form.name) == found


@pytest.mark.parametrize("name", ["24-Bar Ramble", "24-bar  ramble"])
def test_names_of_the_list_are_folded_too(name: str) -> None:
    assert list(folded_forms([parse_form(name, "I7")])) == ["24-bar ramble"]


@pytest.mark.parametrize(
    ("name", "full"),
    [
        ("8-bar", "8-bar"),
        ("8-Bar Ending i", "8-bar ending i"),
        ("8-bar ending I IV | I V", "8-bar ending I IV | I V"),
        ("12-bar  minor   ending i bVI7|V", "12-bar minor ending i bVI7 | V"),
        ("9-bar ending I", None),
        ("8-bar ending", None),
        ("ending I", None),
    ],
)
def test_named_form(name: str, full: str | None) -> None:
    form = named_form(name)
    assert (form and form.full_name) == full


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
