"""Files mended: what can be meant in one way only is corrected, and nothing else is touched."""

from __future__ import annotations

from codecs import BOM_UTF8
from collections.abc import Sequence
from pathlib import Path
from random import Random

import pytest

from formsheet.lesson.shelves import Shelves
from formsheet.mend import Mended, mended
from formsheet.problems.problem import Severity
from formsheet.problems.registry import KINDS
from formsheet.problems.samples import bad_and_good, completed, files_of
from formsheet.source import Source
from formsheet.stages import examine, examine_any
from tests.faults.altering import altered_lesson, altered_shelf
from tests.mend.golden import MENDED, PASTE, SAID, mended_paste
from tests.problems.golden import ERRORS

COLLEAGUE = Path(__file__).parents[1] / "colleague"
SEEDS = range(100)


def mend(text: str, name: str = "a.lesson") -> Mended:
    return mended(Source(name, text), Shelves(Path("nowhere")))


def words(found: Mended) -> list[str]:
    return [change.words for change in found.changes]


def codes(found: Mended) -> list[str]:
    return [problem.code for problem in found.problems]


# ---- What comes of a paste --------------------------------------------------------------------


def test_paste_of_a_word_processor_has_no_error_left() -> None:
    text = PASTE.read_bytes().removeprefix(BOM_UTF8).decode()
    before = examine(Source("a.lesson", text), Shelves(PASTE.parent)).problems
    assert len([each for each in before if each.severity is Severity.ERROR]) >= 22
    found = mend(text)
    assert found.errors == 0
    assert len(found.changes) == len(before)


def test_paste_is_printed_and_written_as_it_was() -> None:
    assert mended_paste() == (SAID.read_text(encoding="utf-8"), MENDED.read_bytes())


def test_line_ends_and_byte_order_mark_stay() -> None:
    data = MENDED.read_bytes()
    assert data.startswith(BOM_UTF8)
    assert data.count(b"\n") == data.count(b"\r\n") > 0


# ---- Single edits -----------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("piece", "said"),
    [
        ("Feel swing", ["`Feel` becomes `feel`"]),
        ("lick creek on IV\n  q 4B 5b, 6b 4b", ["`4B` becomes `4b`", "`5b,` becomes `5b`"]),
        ("lick creek on IV\n  q 4b\"ka\"! 5b 6b 4b", ["`4b\"ka\"!` becomes `4b!\"ka\"`"]),
        ("lick porch on I\n  q 2d \" 3d 4d 2d", ["`\"` becomes `''`"]),
        ("lick gate on V\n  q 4d 5d 4d 1d\nlearn 60", ["moved up: `learn 60`"]),
        (
            "lick porch on I\n  q 2d 3d 4d -\nlick creek on IV\n  pickup e 4b | 5b\n"
            "  q 4b 5b 6b -\nlick gate on V\n  q 4d 5d 4d -",
            ["removed: `|`"],
        ),
    ],
)  # fmt: skip
def test_edit_is_made_and_said(piece: str, said: list[str]) -> None:
    found = mend(completed(piece))
    assert words(found) == said
    assert found.errors == 0


def test_forgotten_play_is_added() -> None:
    lesson = completed("tempo 100").replace("play\n", "")
    found = mend(lesson)
    assert words(found) == ["added: `play`"]
    assert found.source.text == completed("tempo 100")


def test_edit_that_brings_another_to_light_is_followed_by_it() -> None:
    found = mend(completed("tempo 100").replace("lick creek", "Lick creek").replace("4b", "4B"))
    assert found.errors == 0
    assert found.source.text == completed("tempo 100")


def test_shelf_is_mended() -> None:
    found = mend("Position 2nd\nTurnaround home on I | V\n  Q 2d 3d 4D 2d | w 1d\n", "a.licks")
    assert found.source.text == ("position 2nd\nturnaround home on I | V\n  q 2d 3d 4d 2d | w 1d\n")
    assert not found.problems


def test_lesson_is_mended_but_not_its_shelf(tmp_path: Path) -> None:
    shelf = tmp_path / "turnarounds.licks"
    shelf.write_text("position 2nd\nturnaround home on I | V\n  q 2d 3d 4D 2d | w 1d\n")
    lesson = tmp_path / "a.lesson"
    text = completed("use home from turnarounds\nbars 11-12 home")
    found = mended(Source("a.lesson", text, lesson), Shelves(tmp_path))
    assert found.source.text == text
    assert codes(found) == ["note-capital"]


# ---- What is left alone -----------------------------------------------------------------------


@pytest.mark.parametrize(
    "piece",
    [
        "lick creek on IV\n  q 4b5b 6b 4b -",  # two notes, or a chord
        "lick creek on IV\n  q 4 5b 6b 4b",  # blow or draw
        "lick creek on IV\n  q 4b ~ 6b 4b",  # a hold, or a shake
        "lick porch on I\n  q 2d''' 3d 4d 2d",  # another bend, or another hole
        "bars 1-4 porch x3",  # another count, or other bars
        "tempo slow",
        "form 12-bar blues",
    ],
)
def test_what_may_be_meant_otherwise_is_left(piece: str) -> None:
    text = completed(piece)
    found = mend(text)
    assert found.problems
    assert found.source.text == text
    assert found.changes == []


def test_remark_that_begins_like_a_keyword_is_left() -> None:
    """`Play it slow` could not be read with a small letter either."""
    text = completed("say Tap your foot.\nPlay it slow, and listen.")
    found = mend(text)
    assert found.source.text == text


def test_fact_that_would_be_given_twice_is_left() -> None:
    text = completed("tempo 100").replace("tempo 100", "tempo 100\nTempo 96")
    assert mend(text).source.text == text


def test_edit_that_leaves_more_errors_is_not_made() -> None:
    text = completed("tempo 100").replace("lick creek", "Lick creek").replace("q 4b 5b 6b -", (
        "q 4b 5b 6b | 4b 5b 6b | 4b 5b 6b | 4b 5b 6b"
    ))  # fmt: skip
    text = text.replace("title     Kitchen Shuffle", "Title     Kitchen Shuffle")
    found = mend(text)
    assert words(found) == ["`Title` becomes `title`"]


# ---- Over many texts --------------------------------------------------------------------------


def texts() -> Sequence[tuple[str, str]]:
    paths = [*ERRORS.glob("*.lesson"), *COLLEAGUE.glob("*.lesson")]
    found = [(path.name, path.read_bytes().decode("utf-8", "replace")) for path in sorted(paths)]
    for code, kind in KINDS.items():
        files = files_of(bad_and_good(kind)[0])
        found += [
            (f"{code} {name}", data.decode("utf-8", "replace")) for name, data in files.items()
        ]
    found += [(f"{seed}.lesson", altered_lesson(Random(seed))) for seed in SEEDS]
    found += [(f"{seed}.licks", altered_shelf(Random(seed))) for seed in SEEDS[::5]]
    return [(name, text) for name, text in found if len(text) < 20_000]


def errors_of(source: Source) -> int:
    problems = examine_any(source, Shelves(Path("nowhere"))).problems
    return sum(problem.severity is Severity.ERROR for problem in problems)


@pytest.mark.parametrize(("name", "text"), texts())
def test_mending_is_careful(name: str, text: str) -> None:
    """No more errors than before; the same again changes nothing; the rest of the text stays."""
    source = Source(name, text)
    found = mended(source, Shelves(Path("nowhere")))
    assert mended(found.source, Shelves(Path("nowhere"))).changes == []
    assert found.errors <= errors_of(source)
    assert found.applied(text) == found.source.written
    if not found.changes:
        assert found.source.written == text
