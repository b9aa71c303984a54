"""What could not be read: kept where it would be, and nothing that depends on it is reported."""

from __future__ import annotations

from pathlib import Path

import pytest

from formsheet.language.parse import parse
from formsheet.language.recovery import LENGTHS, LINE, READ, Unread
from formsheet.language.tree import FileTree, FormBlock, LickBlock, PlayBlock, RhythmBlock
from formsheet.lesson.licks import known_notes
from formsheet.lesson.model import Lick
from formsheet.lesson.shelves import Shelves
from formsheet.source import Source
from formsheet.stages import examine_file
from tests.helpers import examined, lesson_text, slugs_of

LICKS = "lick porch on I, IV, V\n  q 2d 3d h 4d\n"
PLAY = "play\n  every I porch\n  every IV porch\n  every V porch\n"


def read(text: str) -> FileTree:
    return parse(Source("test.lesson", text))[0]


def test_nothing_is_lost_where_all_is_read() -> None:
    assert not READ
    assert read(lesson_text(LICKS + PLAY)).unread == READ


@pytest.mark.parametrize("one", [Unread.of_names(["a"]), Unread.of_facts("harp"), LENGTHS, LINE])
def test_each_loss_is_a_loss_alone_and_with_others(one: Unread) -> None:
    assert one
    assert one | READ == READ | one == one | one == one
    assert one | LINE | LENGTHS == Unread(one.names, one.facts, lengths=True, line=True)


def test_a_name_like_a_lost_one_may_be_meant() -> None:
    lost = Unread.of_names(["porch"])
    assert [lost.may_name(name) for name in ("porch", "porh", "creek")] == [True, True, False]
    assert not READ.may_name("porch")


def test_a_lost_line_use_may_have_named_anything() -> None:
    assert Unread.of_facts("use").may_name("creek")


def test_a_file_keeps_the_facts_and_the_names_of_its_unread_lines() -> None:
    tree = read("title A\ntempo\nrhythm pump walk q x x x x\nlick creek no I\n  w 2d\n")
    assert tree.unread.facts == {"tempo"}
    assert tree.unread.names >= {"walk", "creek"}


@pytest.mark.parametrize(
    ("text", "unread"),
    [
        ("form\n  | I7 | H7 |\n", LINE),
        ("rhythm trot q x x wild x\n", LINE),
        ("lick porch no I\n  w 2d\n", LINE),
        ("lick porch on I\n  q 2x h. 3d\n", LINE),
        ("play\n  every I\n", LINE),
        ("play\n  every I porch\n", READ),
    ],
)
def test_a_block_knows_that_it_has_unread_lines(text: str, unread: Unread) -> None:
    tree = read(text)
    blocks: list[FormBlock | RhythmBlock | LickBlock | PlayBlock]
    blocks = [*tree.forms, *tree.rhythms, *tree.licks, *tree.plays]
    assert [block.unread for block in blocks] == [unread]


def test_a_lick_of_unread_lengths_is_judged_but_not_laid_out() -> None:
    text = lesson_text(LICKS.replace("h 4d", "q 5d''") + PLAY)
    lesson = examined(text).lesson
    assert lesson
    assert lesson.licks == {}
    unread = lesson.unread["porch"]
    assert unread.lengths
    assert isinstance(unread.rest, Lick)
    assert known_notes({"porch": unread}) == [unread.rest]
    assert sorted(slugs_of(text)) == ["bar-too-short", "bend-missing"]


def test_a_play_knows_what_is_unread_of_it() -> None:
    def play(text: str) -> Unread:
        lesson = examined(lesson_text(LICKS + text)).lesson
        assert lesson
        return lesson.plays[0].unread

    assert play(PLAY) == READ
    assert play("play\n  every I creek\n") == Unread.of_names(["creek"])
    assert play("play\n  every I porch x99\n") == LENGTHS
    assert play("play\n  bars 4-1 porch\n") == LINE
    assert play("play\n  bars 1 - 4 porch\n").line


def test_what_an_unread_line_of_a_shelf_may_have_named_is_reported_on_the_shelf_alone(
    tmp_path: Path,
) -> None:
    shelf = tmp_path / "odds.licks"
    shelf.write_text("lick home no I\n  w 2d\n\nrhythm trot e x x walk h x =\n", encoding="utf-8")
    lesson = tmp_path / "a.lesson"
    facts = "use home, walk from odds\n"
    play = "play\n  every I home\n  every IV walk\n  every V walk\n"
    lesson.write_text(facts + lesson_text(play), encoding="utf-8")
    found = examine_file(lesson, "a.lesson", Shelves(tmp_path))
    assert {problem.span.source.path for problem in found.problems} == {shelf}
    assert [problem.code for problem in found.problems] == ["word-unexpected", "mark-unknown"]
