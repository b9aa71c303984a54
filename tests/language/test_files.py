"""Files: encodings, line ends, spaces, comments, and what cannot be read at all."""

from __future__ import annotations

from pathlib import Path

import pytest

from formsheet.language.files import read_source
from formsheet.language.parse import parse
from formsheet.source import Source
from tests.language.samples import KETTLE_CREEK, LATE_TRAM, LATE_TRAM_LESSON
from tests.language.trees import tree_of

PLAIN = "title Ärger im Hof\nharp C\nlick a on I\n  q 4d 5d | w 3d'\nplay x2\n  every I a\n"


def read(folder: Path, data: bytes) -> Source:
    path = folder / "a.lesson"
    path.write_bytes(data)
    source, problems = read_source(path, "a.lesson")
    assert source is not None
    assert problems == []
    return source


def shape(source: Source) -> object:
    """What a file says, places left out."""
    tree, problems = parse(source)
    assert problems == []
    facts = [[word.text for word in fact.words] for fact in tree.facts]
    licks = [[mark.span.text for mark in lick.marks] for lick in tree.licks]
    plays = [[e.placed[0].name.text for e in play.every] for play in tree.plays]
    return facts, licks, plays


@pytest.mark.parametrize("bom", [b"", b"\xef\xbb\xbf"])
@pytest.mark.parametrize("line_end", ["\n", "\r\n"])
@pytest.mark.parametrize("indent", ["  ", "\t", "      ", "", "\u00a0 "])
@pytest.mark.parametrize("last", ["\n", "", "\n\n\n", "   "])
def test_same_lesson(tmp_path: Path, bom: bytes, line_end: str, indent: str, last: str) -> None:
    text = PLAIN.replace("  ", indent).removesuffix("\n") + last
    data = bom + text.replace("\n", line_end).encode()
    assert shape(read(tmp_path, data)) == shape(Source("plain", PLAIN))


@pytest.mark.parametrize("text", ["", "\n", "   ", "# only a comment", "\n\n# one\n\t\n# two"])
def test_nothing_but_comments(text: str) -> None:
    tree = tree_of(text)
    assert (tree.facts, tree.licks, tree.plays) == ([], [], [])


@pytest.mark.parametrize(
    "line",
    ["# a comment", "   # a comment", "#a comment", '# "an open quote', "# lick a on I"],
)
def test_comment_line_between_lines_of_music(line: str) -> None:
    tree = tree_of(f"lick a on I\n  q 4d 5d\n{line}\n  q 6d 6b\n")
    assert [mark.span.text for mark in tree.licks[0].marks] == [
        "q", "4d", "5d", "q", "6d", "6b",
    ]  # fmt: skip


def test_comment_at_the_end_of_every_kind_of_line() -> None:
    commented = "\n".join(f"{line}  # so" if line else "# so" for line in PLAIN.splitlines())
    assert shape(Source("commented", commented)) == shape(Source("plain", PLAIN))


def test_hash_inside_a_word_is_no_comment() -> None:
    assert tree_of("harp F#").facts[0].words[0].text == "F#"


def test_line_and_column_are_counted_after_the_bom(tmp_path: Path) -> None:
    source = read(tmp_path, b"\xef\xbb\xbftitle A\r\nharp C\r\n")
    fact = parse(source)[0].facts[1]
    assert fact.words[0].span.place == ("a.lesson", 2, 6)


@pytest.mark.parametrize("text", [KETTLE_CREEK, LATE_TRAM, LATE_TRAM_LESSON])
def test_sample_reads_without_a_slip(text: str) -> None:
    assert tree_of(text).forms


def test_the_whole_sample() -> None:
    tree = tree_of(KETTLE_CREEK)
    assert [fact.keyword.text for fact in tree.facts] == [
        "title", "teacher", "harp", "position", "tempo", "learn", "feel", "say",
    ]  # fmt: skip
    assert [rhythm.name.text for rhythm in tree.rhythms] == ["trot"]
    assert [lick.name.text for lick in tree.licks] == ["porch", "creek", "gate", "home"]
    assert (len(tree.plays[0].every), len(tree.plays[0].bars)) == (2, 2)


# ---- What cannot be read -----------------------------------------------------------------


def slug_and_place(path: Path) -> tuple[str, int, int]:
    source, (problem,) = read_source(path, "a.lesson")
    assert source is None
    return (problem.code, *problem.span.place[1:])


def test_file_that_is_not_there(tmp_path: Path) -> None:
    assert slug_and_place(tmp_path / "no.lesson") == ("file-missing", 1, 1)


def test_folder_called_like_a_lesson(tmp_path: Path) -> None:
    (tmp_path / "a.lesson").mkdir()
    assert slug_and_place(tmp_path / "a.lesson") == ("file-missing", 1, 1)


@pytest.mark.parametrize(
    ("data", "place"),
    [
        ("title A\nsay Nachmittags fünf".encode("latin-1"), (2, 18)),
        ("title Aé".encode("utf-16"), (1, 1)),
        (b"\xef\xbb\xbftitle \xff", (1, 7)),
    ],
)
def test_file_that_is_not_utf8(tmp_path: Path, data: bytes, place: tuple[int, int]) -> None:
    (tmp_path / "a.lesson").write_bytes(data)
    assert slug_and_place(tmp_path / "a.lesson") == ("file-not-utf8", *place)


@pytest.mark.limit("language.files.LARGEST_FILE")
def test_file_that_is_too_large(tmp_path: Path) -> None:
    path = tmp_path / "a.lesson"
    path.write_bytes(b"#" * 100_000)
    assert read_source(path, "a.lesson")[1] == []
    path.write_bytes(b"#" * 100_001)
    assert slug_and_place(path) == ("file-too-large", 1, 1)
