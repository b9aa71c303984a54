"""What is said of a lick on other chords, as text and as data."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from formsheet.cli import main
from formsheet.lesson.model import Lesson
from formsheet.music.chord import parse_chord
from formsheet.music.form import FormBar
from formsheet.recast.trial import Tried
from formsheet.report.recast import Way, offers_lines, reasons, said
from tests.helpers import lesson_of, lesson_text, over
from tests.recast.demos import all_offers, by_hand
from tests.report.test_schema import validator


def asked(music: str, numeral: str, name: str = "run") -> tuple[Lesson, list[FormBar]]:
    lesson = lesson_of(over("I7", music).replace("lick run", f"lick {name}"))
    return lesson, [(parse_chord(numeral),)]


def lines(music: str, numeral: str, name: str = "run") -> list[str]:
    """What is printed of a lick on I7 in G, C harp, without the text to paste."""
    lesson, chords = asked(music, numeral, name)
    found = all_offers(lesson, lesson.licks["run"], chords)
    return offers_lines(found, [Way(each, "") for each in found.shown()], lesson)


@pytest.mark.parametrize(
    ("music", "numeral", "first"),
    [
        (
            "q 2d 3d 4d -",
            "IV7",
            "# run cannot stay as it is on IV7 (C7): `3d` is the major 7 of C7",
        ),
        (
            "q 123d 3d 3d 5d",
            "IV7",
            "# run cannot stay as it is on IV7 (C7): `123d` is 9 5 7 of C7 and "
            "`3d` is the major 7 of C7, 1 more",
        ),
        (
            "q 36b - 36b -",
            "V7",
            "# run as it is on V7 (D7): no warning, but only 0% fits: `36b` is the 4 of D7",
        ),
    ],
)  # fmt: skip
def test_why_it_cannot_stay(music: str, numeral: str, first: str) -> None:
    found = lines(music, numeral)
    before = found[: next(at for at, line in enumerate(found) if line.startswith("# 1."))]
    assert " ".join(before).replace(" #      ", " ") == first


def test_as_it_is_with_what_to_write() -> None:
    assert lines("q 2d e 3d' 4b q 4d -", "IV7")[:3] == [
        "# 1. IV7 (C7), as it is: fits well",
        "#    fit 83%; write `on I7, IV` in its first line",
        "",
    ]
    assert "#    fit 92%; its `on` allows it already" in lines("q 2d e 3d' 4b q 4d -", "I7")


def test_a_poor_recast_is_called_poor() -> None:
    """The best of them, where nothing is good and the lick cannot stay."""
    facts = {"tempo": "112", "level": "beginner"}
    lesson = lesson_of(over("I7", "e 2d 4d 3d 5d 4d 6b 5d 3d", **facts))
    found = all_offers(lesson, lesson.licks["run"], [(parse_chord("bVI7"),)])
    assert found.as_it_is.clashes
    assert not found.good
    (best,) = found.shown()
    assert isinstance(best, Tried)
    said_of = offers_lines(found, [Way(best, "")], lesson)
    assert said_of[1] == f"# no recast is good; the best is {' '.join(map(str, best.tabs))}"
    assert "#    poor: its bends come too fast" in said_of


def test_where_the_lick_stays_a_poor_recast_is_only_named() -> None:
    found = lines("[ e 12d 12d 12b 12b ]x2", "IV7")
    head, more, first = found[:3]
    assert head.startswith("# no recast is good; the best is ")
    assert f"{head} {more[7:].lstrip()}".endswith(", but the mouth moves 2 holes to and fro")
    assert first == "# 1. IV7 (C7), as it is: fits well"
    assert len(found) == 5


def of(music: str, numeral: str, tabs: str, name: str = "run") -> list[str]:
    """Why a recast with these tabs is not good."""
    lesson, chords = asked(music, numeral, name)
    return list(reasons(by_hand(lesson, lesson.licks["run"], chords, tabs), lesson))


def test_what_is_lost_is_said() -> None:
    """A train's breath, a chug's, a note by name, a note on which the lick rests."""
    assert of("[ e 12d 12d 12b 12b ]x2", "IV7", " ".join(["34b 34b 23b 23b"] * 2)) == [
        "the breath pattern of the lick is lost: draw draw blow blow"
    ]
    assert "the one breath of the lick is lost: draw" in of(
        "q 123d 123d 123d -", "V7", "14d 14d 12b"
    )
    assert ("the b5 that the lick is named for is lost: bar 1, beat 1 1/2 has 5b, E5 (9)") in of(
        "e 4d 4d' 4b 3d' q 2d -", "V7", "6d 5b 6b 5d 4d", 'run "The flat five"'
    )
    assert (
        "the b3 that the lick is made by is lost: bar 1, beat 1 has 5b, E5 (3)"
    ) in of("h 3d' q 2d -", "IV7", "5b 4b")  # fmt: skip


def test_draw_and_blow_that_change_places_are_named() -> None:
    lesson, chords = asked("[ e 123d 123b ]x3 q -", "IV7")
    found = by_hand(lesson, lesson.licks["run"], chords, " ".join(["345b 234d"] * 3))
    assert "draw and blow change places" in list(said(found, lesson))


def replaced(music: str, numeral: str, tabs: str) -> list[str]:
    """What is said of a recast with these tabs."""
    lesson, chords = asked(music, numeral)
    return list(said(by_hand(lesson, lesson.licks["run"], chords, tabs), lesson))


@pytest.mark.parametrize(
    ("music", "tabs", "words"),
    [
        ("w 123d", "14d", "14d, D4 D5 (R R), is the root doubled: no block"),
        ("w 123d", "14b", "14b, C4 C5 (b7 b7), is the b7 doubled: no block"),
        ("w 123d", "4d", "4d, D5 (R), is the root alone: no block"),
        ("w 123d", "4b", "4b, C5 (b7), is the b7 alone: no block"),
        ("w 36b", "48d", "48d, D5 D6 (R R), is the root doubled: 14d would be the split"),
    ],
)
def test_a_doubled_note_is_named_by_its_degree(music: str, tabs: str, words: str) -> None:
    """Two b7 are no doubled root; a split is no block."""
    assert any(words in line for line in replaced(music, "V7", tabs))


def test_a_note_that_stays_at_its_pitch() -> None:
    """The blue third of I is the b7 of IV."""
    found = replaced("h. 3d' q 2d", "IV7", "3d' 1b")
    assert any("3d', Bb4 (b7), stays at its pitch, where Eb" in line for line in found)


# ---- As data ---------------------------------------------------------------------------------


def data(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], *words: str
) -> list[dict[str, object]]:
    path = tmp_path / "a.lesson"
    body = (
        "lick run on I\n q 2d 3d 4d -\nlick riff on I\n q 2d e 3d' 4b q 4d -\nplay\n bars 1-12 rest"
    )
    path.write_text(lesson_text(body, form="12-bar standard"), encoding="utf-8")
    assert main(["recast", str(path), *words, "--json"]) == 0
    found: list[dict[str, object]] = json.loads(capsys.readouterr().out)
    validator("recast").validate(found)
    return found


def test_one_entry_a_chord(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    four, five = data(tmp_path, capsys, "run", "--on", "IV", "--on", "V")
    assert (four["chords"], four["stays"]) == ([["IV7"]], "no")
    assert four["why_not"] == "run cannot stay as it is on IV7 (C7): `3d` is the major 7 of C7"
    assert five["stays"] == "hardly"
    assert [each["as_it_is"] for each in _ways(five)] == [False] * len(_ways(five))


def test_the_lick_as_it_is(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (four,) = data(tmp_path, capsys, "riff", "--on", "IV")
    assert (four["stays"], four["why_not"]) == ("yes", None)
    first, *others = _ways(four)
    assert first["as_it_is"]
    assert (first["lick"], first["on"], first["verdict"]) == ("riff", "I, IV", "fits well")
    assert str(first["text"]).startswith("lick riff on I, IV\n")
    assert others
    assert not any(each["as_it_is"] for each in others)


def test_each_field_of_a_way_is_required(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    found = data(tmp_path, capsys, "riff", "--on", "IV")
    for way in _ways(found[0])[:2]:
        for field, value in list(way.items()):
            del way[field]
            assert not validator("recast").is_valid(found), field
            way[field] = value


def _ways(entry: dict[str, object]) -> list[dict[str, object]]:
    ways = entry["ways"]
    assert isinstance(ways, list)
    return ways
