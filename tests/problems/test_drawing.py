"""How a problem is shown: the line, the mark under the exact span, other files, plain data."""

from __future__ import annotations

import unicodedata
from pathlib import Path

import pytest

from formsheet.language.files import read_source
from formsheet.problems import kinds
from formsheet.problems.drawing import as_data, drawn, marked_line
from formsheet.problems.problem import Related
from formsheet.source import Source, Span

GUTTER = len("    1 | ")


def span_of(text: str, part: str, name: str = "a.lesson") -> Span:
    start = text.index(part)
    return Span(Source(name, text), start, start + len(part))


def shown(text: str, part: str) -> list[str]:
    """The line and its marks, without the gutter."""
    return [line[GUTTER:] for line in marked_line(span_of(text, part))]


def cells(text: str) -> int:
    """Cells of a terminal, reckoned for the characters of these tests."""
    return sum(
        0 if unicodedata.category(char) in ("Mn", "Cf") else 2 if char in "口琴音🎵" else 1
        for char in text
    )


# ---- The mark stands under the span ----------------------------------------------------------


@pytest.mark.limit("problems.drawing._TAB_WIDTH")
@pytest.mark.parametrize(
    ("text", "part", "line", "marks"),
    [
        ("q 4d 4x 5d", "4x", "q 4d 4x 5d", "     ^^"),
        ("4x", "4x", "4x", "^^"),
        ("\tq 4d\t4x 5d", "4x", "    q 4d    4x 5d", "            ^^"),
        ("\t\t4x", "4x", "        4x", "        ^^"),
        ("q 4d\t5x\t6d", "5x\t6d", "q 4d    5x    6d", "        ^^^^^^^^"),
        ("title 口琴 4x", "4x", "title 口琴 4x", "           ^^"),
        ("q 4d 音 5d", "音", "q 4d 音 5d", "     ^^"),
        ("q 🎵 4x", "4x", "q 🎵 4x", "     ^^"),
        ("tip Ka\u0301lma\u0301n 4x", "4x", "tip Ka\u0301lma\u0301n 4x", "           ^^"),
        ("q a\u0301 4d", "a\u0301", "q a\u0301 4d", "  ^"),
        ("x\u200dy 4x", "4x", "x\u200dy 4x", "   ^^"),
    ],
)
def test_mark_under_the_span(text: str, part: str, line: str, marks: str) -> None:
    assert shown(text, part) == [line, marks]


@pytest.mark.parametrize("text", ["q 口琴 4x 5d", "\tq 4x", "e\u0301 音\t4x", "🎵 🎵 4x"])
def test_mark_begins_in_the_cell_of_the_span(text: str) -> None:
    line, marks = shown(text, "4x")
    assert cells(line[: line.index("4x")]) == marks.index("^")


@pytest.mark.parametrize(
    "char",
    ["\x00", "\x07", "\x1b", "\x7f", "\x85", "\u2028", "\u206a", "\u202e"],
)
def test_hidden_character_is_shown_and_takes_a_cell(char: str) -> None:
    assert shown(f"q {char} 4x", "4x") == ["q \N{REPLACEMENT CHARACTER} 4x", "    ^^"]


@pytest.mark.parametrize("char", ["\ufeff", "\u200b", "\u00ad", "\u2060"])
def test_character_that_is_not_read_is_not_shown_but_counted(char: str) -> None:
    source = Source("a.lesson", f"title A\nq{char} {char}4x")
    span = Span(source, source.text.index("4x"), len(source.text))
    assert [line[GUTTER:] for line in marked_line(span)] == ["q 4x", "  ^^"]
    assert span.place == ("a.lesson", 2, 5)
    assert as_data(kinds.MarkUnknown(span, found="4x", guess=None, words=None))["end_column"] == 7


def test_hidden_character_does_not_reach_the_terminal_in_a_message() -> None:
    """Else a lesson from elsewhere could write to the terminal what it likes."""
    text = "q \x1b[31m4x"
    span = Span(Source("a\x1b.lesson", text), 2, len(text))
    assert "\x1b" not in drawn(kinds.MarkUnknown(span, found=span.text, guess="\x1b", words=None))


# ---- Places at the edge ----------------------------------------------------------------------


@pytest.mark.parametrize(
    ("text", "offset", "line", "marks"),
    [
        ("", 0, "", "^"),
        ("\n", 0, "", "^"),
        ("title A", 7, "title A", "       ^"),
        ("title A\n", 7, "title A", "       ^"),
        ("title A\n", 8, "", "^"),
        ("title A   \n", 10, "title A", "          ^"),
    ],
)
def test_empty_span(text: str, offset: int, line: str, marks: str) -> None:
    drawn_lines = marked_line(Span(Source("a.lesson", text), offset, offset))
    assert [each[GUTTER:] for each in drawn_lines] == [line, marks]


def test_span_over_several_lines_is_marked_on_its_first() -> None:
    assert shown("q 4d\n  5d 6d\n", "4d\n  5d") == ["q 4d", "  ^^"]


def test_carriage_return_is_not_shown() -> None:
    assert shown("title A\r\nq 4x\r\n", "4x") == ["q 4x", "  ^^"]


@pytest.mark.parametrize("line_end", [b"\n", b"\r\n", b"\r"])
@pytest.mark.parametrize("bom", [b"", b"\xef\xbb\xbf"])
def test_line_and_column_of_a_file(tmp_path: Path, bom: bytes, line_end: bytes) -> None:
    path = tmp_path / "a.lesson"
    path.write_bytes(bom + line_end.join([b"title A", b"harp C", b"  q 4x"]))
    source, _ = read_source(path, "a.lesson")
    assert source
    at = source.text.index("4x")
    message = drawn(kinds.PlayMissing(Span(source, at, at + 2))).splitlines()
    assert [message[0][:13], *message[1:3]] == ["a.lesson:3:5:", "    3 |   q 4x", "      |     ^^"]


def test_line_number_of_five_figures_keeps_the_gutter() -> None:
    text = "\n" * 12344 + "q 4x"
    assert marked_line(span_of(text, "4x")) == ["12345 | q 4x", "      |   ^^"]


# ---- Very long lines -------------------------------------------------------------------------


def long_line(before: int, after: int) -> list[str]:
    return shown("4d " * before + "4x" + " 5d" * after, "4x")


@pytest.mark.parametrize(
    ("before", "after"), [(0, 500), (10, 500), (16, 500), (17, 500), (300, 300), (500, 0), (500, 1)]
)
def test_long_line_is_shown_around_the_span(before: int, after: int) -> None:
    line, marks = long_line(before, after)
    assert line.index("4x") == marks.index("^")
    assert marks.strip() == "^^"
    assert len(line) <= 104


@pytest.mark.parametrize(
    ("before", "after", "ends"),
    [(0, 500, ("4x", "…")), (300, 300, ("…", "…")), (500, 0, ("…", "4x")), (5, 5, ("4d", "5d"))],
)
def test_what_is_cut_off_is_told(before: int, after: int, ends: tuple[str, str]) -> None:
    line, _ = long_line(before, after)
    assert (line.split()[0], line.split()[-1]) == ends


# Our own choice: a line of 100 characters is shown whole.
@pytest.mark.limit("problems.drawing._WIDEST_LINE")
@pytest.mark.parametrize(("letters", "whole"), [(100, True), (101, False)])
def test_a_line_of_100_characters_is_shown_whole(letters: int, whole: bool) -> None:
    text = "4x".ljust(letters, "a")
    line, _ = shown(text, "4x")
    assert line == (text if whole else text[:100] + " …")


def test_long_span_is_marked_as_far_as_it_is_shown() -> None:
    line, marks = shown("q " + "4d" * 400, "4d" * 400)
    assert (len(line), marks) == (102, "  " + "^" * 98)


@pytest.mark.limit("problems.words._LONGEST")
def test_long_word_is_cut_in_the_message() -> None:
    text = "4x" * 500
    message = drawn(
        kinds.MarkUnknown(span_of(text, text), found=text, guess=None, words=None)
    ).splitlines()[0]
    assert f"`{'4x' * 40}…` is not a mark of music" in message


# ---- Other places that belong to it ----------------------------------------------------------

LESSON = "title A\nlick porch on I\n  w 2d\nlick porch on IV\n"
SHELF = "# shelf\n\tlick home on I\n"


def twice(first: Span) -> list[str]:
    second = Span(first.source, LESSON.rindex("porch"), LESSON.rindex("porch") + 5)
    second = second if first.source.name == "a.lesson" else span_of(LESSON, "porch")
    return drawn(kinds.LickTwice(second, (Related(first, "first here"),), name="porch")).split("\n")


def test_related_place_in_the_same_file() -> None:
    assert twice(span_of(LESSON, "porch"))[1:5] == [
        "    4 | lick porch on IV",
        "      |      ^^^^^",
        "    2 | lick porch on I",
        "      |      ----- first here",
    ]


def test_related_place_in_another_file_is_named() -> None:
    assert twice(span_of(SHELF, "home", "shelf/home.licks"))[2:6] == [
        "      |      ^^^^^",
        "      in shelf/home.licks:2:7",
        "    2 |     lick home on I",
        "      |          ---- first here",
    ]


# ---- The whole message -----------------------------------------------------------------------


def test_whole_message() -> None:
    problem = kinds.BendTooDeep(span_of("q 3d'''' 4d", "3d''''"), hole=3, breath="draw",
                    asked=4, deepest=3, guess="3d'''")  # fmt: skip
    assert drawn(problem).split("\n") == [
        "a.lesson:1:3: error: 3 draw does not bend 4 half steps; on this harp it bends a step and "
        "a half [bend-too-deep]",
        "    1 | q 3d'''' 4d",
        "      |   ^^^^^^",
        "      = write `3d'''`",
    ]


def test_hint_whose_facts_are_not_known_is_left_out() -> None:
    problem = kinds.LickUnknown(
        span_of("poarch", "poarch"), found="poarch", near=None, shelf=None, known=["creek"]
    )
    near = drawn(problem)
    assert near.split("\n")[3:] == ["      = the licks here are `creek`"]


def test_severity_is_named() -> None:
    problem = kinds.GlyphMissing(span_of("harp C", "h"), signs="a", more="")
    assert " warning: " in drawn(problem)


# ---- For editors -----------------------------------------------------------------------------


def place(text: str, part: str) -> tuple[object, ...]:
    data = as_data(kinds.TitleMissing(span_of(text, part)))
    return tuple(data[key] for key in ("line", "column", "end_line", "end_column"))


@pytest.mark.parametrize(
    ("text", "part", "wanted"),
    [
        ("q 4x", "4x", (1, 3, 1, 5)),
        ("title A\r\n\tq 4x\r\n", "4x", (2, 4, 2, 6)),
        ("q 口琴 4x", "4x", (1, 6, 1, 8)),
        ("q 🎵 4x", "4x", (1, 5, 1, 7)),
        ("q 4d\n  5d 6d", "4d\n  5d", (1, 3, 2, 5)),
        ("title A\n", "\n", (1, 8, 2, 1)),
        ("", "", (1, 1, 1, 1)),
    ],
)
def test_places_as_data(text: str, part: str, wanted: tuple[int, ...]) -> None:
    assert place(text, part) == wanted


def test_problem_as_data() -> None:
    first = Related(span_of(SHELF, "home", "shelf/home.licks"), "first here")
    data = as_data(kinds.LickTwice(span_of(LESSON, "porch"), (first,), name="porch"))
    assert data == {
        "code": "lick-twice",
        "severity": "error",
        "file": "a.lesson",
        "line": 2,
        "column": 6,
        "end_line": 2,
        "end_column": 11,
        "message": "there are two licks called `porch`",
        "hints": [{"text": "give one of them another name", "edit": None}],
        "bars": [],
        "related": [
            {"file": "shelf/home.licks", "line": 2, "column": 7, "end_line": 2, "end_column": 11,
             "label": "first here"}
        ],
    }  # fmt: skip
