"""The same music on another layout: the plan, and the text that is written."""

from __future__ import annotations

from pathlib import Path

import pytest

from formsheet.arrange.retab import Asked, Retabbed, other_layouts, retabbed, target
from formsheet.arrange.rewrite import doubts, rewritten
from formsheet.arrange.sounds import lick_line
from formsheet.language.parse import parse
from formsheet.lesson.model import Facts, Lesson, Lick
from formsheet.lesson.shelves import Shelves
from formsheet.music.harp import Harp
from formsheet.music.key import harp_key, position_of, song_key
from formsheet.music.rhythm import METERS
from formsheet.music.tunings import TUNINGS
from formsheet.report.retab import retab_report
from formsheet.source import Source
from formsheet.stages import examine
from tests.helpers import NO_FOLDER, lesson_of, lesson_text, over, told
from tests.lessons import LESSONS, NAMES, demo

_KEYS = ["C", "Db", "D", "Eb", "E", "F", "F#", "G", "Ab", "A", "Bb", "B"]


def retab(lesson: Lesson, **asked: object) -> Retabbed:
    return retabbed(lesson.facts, lesson.key, lesson.licks, Asked(**asked))  # type: ignore[arg-type]


def tabs(lick: Lick) -> str:
    return " ".join(str(mark.tab) for bar in (lick.pickup, *lick.bars) for mark in bar if mark.tab)


def sounding(lick: Lick, facts: Facts, harp: Harp) -> list[tuple[int, ...]]:
    return [sound.midi for sound in lick_line(lick, harp, facts.meter.bar)]


def test_a_split_in_another_octave_is_called_so() -> None:
    lesson = demo("last-tram-but-one").lesson
    assert lesson
    lines = list(retab_report(retab(lesson, position=12), METERS["4/4"], (), ()))
    assert "clatter, bar 1, beat 1: the chord F4 F5 becomes 59d, an octave higher" in lines


# ---- Harp, position and key ----------------------------------------------------------------


@pytest.mark.parametrize("tonic", _KEYS)
@pytest.mark.parametrize("position", range(1, 13))
def test_the_harp_of_a_position_gives_the_key(tonic: str, position: int) -> None:
    harp = harp_key(tonic, position)
    assert position_of(harp, tonic) == position
    assert song_key(harp, position).pitch_class == song_key(tonic, 1).pitch_class


IN_G = over("I", "q 2d 3d 4d 2d")  # a C harp in second position: the key of G


@pytest.mark.parametrize(
    ("asked", "harp", "position"),
    [
        (Asked(position=1), "G", 1),
        (Asked(position=3), "F", 3),
        (Asked(harp=Harp("D")), "D", 12),
        (Asked(harp=Harp("F", "low")), "low F", 3),
        (Asked(harp=Harp("A"), position=2), "A", 2),
        (Asked(tuning=TUNINGS["country"]), "C", 2),
        (Asked(position=2), "C", 2),
    ],
)
def test_target(asked: Asked, harp: str, position: int) -> None:
    lesson = lesson_of(IN_G)
    found, where = target(lesson.facts, lesson.key, asked)
    assert (found.name, where) == (harp, position)


def test_harp_and_position_together_move_the_key() -> None:
    done = retab(lesson_of(IN_G), harp=Harp("A"), position=2)
    assert (done.old_key.name, done.key.name, done.half_steps) == ("G", "E", -3)
    assert tabs(done.lick("run")) == "2d 3d 4d 2d"


# ---- Pitches -------------------------------------------------------------------------------


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("position", [1, 2, 3, 12])
def test_what_is_kept_sounds_as_it_did(name: str, position: int) -> None:
    """Every note of every demo: as it was but for the octave, or told as missing or changed."""
    lesson = demo(name).lesson
    assert lesson
    done = retab(lesson, position=position)
    for each, lick in lesson.licks.items():
        laid = done.laid[each]
        before = sounding(lick, lesson.facts, lesson.facts.harp)
        after = sounding(done.lick(each), lesson.facts, done.harp)
        shift = 12 * done.arranged.octaves
        for index, (old, new) in enumerate(zip(before, after, strict=True)):
            same = tuple(midi + shift for midi in old) == new
            assert same is (index not in laid.missing + laid.replaced)


@pytest.mark.parametrize(
    "music",
    [
        "q 4b 5b 6b 6d | e 6d 6b 5b 4d h 4b",
        "e 4b 5b q 6b 6d 7b | q 7b 6d h 6b",
        "e3 6b 6d 7b q 6b 5b 4d | w 4b",
    ],
)
def test_there_and_back_again(music: str) -> None:
    """First to second to first position, and first to twelfth to first: the same pitches."""
    text = over("I | I", music, position="1st")
    lesson = lesson_of(text)
    for position in (2, 12):
        done = retab(lesson, position=position, octaves=0)
        assert not done.arranged.missing
        there = lesson_of(new_text(text, done))
        back = retab(there, position=1, octaves=0)
        assert back.harp == lesson.facts.harp
        lick = back.lick("run")
        was = sounding(lesson.licks["run"], lesson.facts, lesson.facts.harp)
        assert sounding(lick, lesson.facts, back.harp) == was


def test_missing_notes_send_to_other_harps() -> None:
    lesson = lesson_of(over("I", "q 2d 3d' 3d 4d", harp="C"))
    asked = Asked(position=1, octaves=0)
    done = retabbed(lesson.facts, lesson.key, lesson.licks, asked)
    assert done.arranged.missing == 1
    found = other_layouts(done, asked, lesson.facts.harp)
    assert found
    assert all(layout.harp not in (done.harp, lesson.facts.harp) for layout in found)


# ---- Text ----------------------------------------------------------------------------------


def new_text(text: str, done: Retabbed, folder: Path = NO_FOLDER) -> str:
    tree, _ = parse(Source("test.lesson", text, folder / "test.lesson"))
    rhythms = Shelves(folder).used(tree, done_facts(text, folder)).rhythms
    return rewritten(tree, done, rhythms)


def done_facts(text: str, folder: Path) -> Facts:
    found = examine(Source("test.lesson", text, folder / "test.lesson"), Shelves(folder))
    assert found.lesson
    return found.lesson.facts


def test_only_tab_and_layout_change() -> None:
    text = lesson_text(
        'rhythm trot  q x x [ e x x ]x2  # a comment\n'
        'lick run on I in trot\n  2d{wah} 3d"ka" 4d! 3d 4d 3d  # and one more\n'
        "  tip Softly.\nplay\n  bars 1-12 rest",
        title="2d or not 2d",
    )  # fmt: skip
    found = new_text(text, retab(lesson_of(text), position=1))
    wanted = (
        text.replace('2d{wah} 3d"ka" 4d! 3d 4d 3d', '4b{wah} 5b"ka" 6b! 5b 6b 5b')
        .replace("harp C", "harp G")
        .replace("position 2nd", "position 1st")
    )
    moved = "# Moved from harp C, position 2nd; comments below may speak of that.\n\n"
    assert found == moved + wanted


def test_texts_that_speak_of_playing_are_to_be_read_again() -> None:
    tips = "  tip Let the 2 draw ring.\n  tip Softly.\n"
    text = lesson_text(f"say Breathe out.\nlick run on I\n  w 2d\n{tips}play\n bars 1-12 rest")
    lines = new_text(text, retab(lesson_of(text), position=1)).splitlines()
    again = [line.split("#")[0].strip() for line in lines if "read again" in line]
    assert again == ["say Breathe out.", "tip Let the 2 draw ring."]


def test_moving_back_and_forth_remarks_once() -> None:
    text = lesson_text("lick run on I\n  w 2d  # low\n  tip 2 draw.\nplay\n bars 1-12 rest")
    there = new_text(text, retab(lesson_of(text), position=1))
    back = new_text(there, retab(lesson_of(there), position=2))
    assert (back.count("read again"), back.count("# Moved")) == (1, 1)


def test_a_group_is_written_once() -> None:
    text = over("I", "[ e 2d 3d ]x4")
    assert "[ e 4b 5b ]x4" in new_text(text, retab(lesson_of(text), position=1))


def test_a_position_that_goes_without_saying_is_written() -> None:
    text = over("I", "w 2d", position=None)
    assert "harp G\nposition 1st\n" in new_text(text, retab(lesson_of(text), position=1))


def test_an_own_tuning_gives_way() -> None:
    tuning = (
        "tuning campfire\n  blow C E G C E G C E G C\n  draw D G B D F# A B D F# A\n"
        "lick run on I\n  w 2d\nplay\n  every I run\n  every IV rest\n  every V rest"
    )
    text = lesson_text(tuning)
    found = new_text(text, retab(lesson_of(text), tuning=TUNINGS["country"]))
    assert "tuning country\nlick run" in found


def test_what_stands_in_is_told_in_the_text() -> None:
    text = over("I", "q 2d 3d' 3d 4d  # mine")
    found = new_text(text, retab(lesson_of(text), position=1, octaves=0))
    assert "q 4b 5b 5b 6b  # mine; not on this harp: 5b for Bb4" in found
    text = over("I", 'q 2d"no #1" 3d\' 3d 4d')
    found = new_text(text, retab(lesson_of(text), position=1, octaves=0))
    assert 'q 4b"no #1" 5b 5b 6b  # not on this harp: 5b for Bb4' in found


def test_licks_and_rhythms_of_a_shelf_are_written_out(tmp_path: Path) -> None:
    (tmp_path / "corner.licks").write_text(
        "rhythm walk  q x x h x\nturnaround home on I in walk\n  2d 3d 4d\n  tip Draw.\n",
        encoding="utf-8",
    )
    text = lesson_text(
        "use walk, home as end from corner\n\nlick run on I in walk\n  4d 3d 2d\n\n"
        "play\n  every I run\n  every IV rest\n  every V rest\n"
    )
    found = examine(Source("test.lesson", text, tmp_path / "test.lesson"), Shelves(tmp_path))
    assert found.lesson, told(found.problems)
    new = new_text(text, retab(found.lesson, position=1), tmp_path)
    assert "use " not in new
    lesson = lesson_of(new)
    assert tabs(lesson.licks["end"]) == "4b 5b 6b"
    assert tabs(lesson.licks["run"]) == "6b 5b 4b"
    assert new.index("turnaround end") < new.index("play")


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("position", [1, 3])
def test_every_demo_is_read_again_as_planned(name: str, position: int) -> None:
    lesson = demo(name).lesson
    assert lesson
    done = retab(lesson, position=position)
    path = LESSONS / f"{name}.lesson"
    text = path.read_text(encoding="utf-8")
    again = lesson_of(new_text(text, done, LESSONS))
    assert {each: tabs(lick) for each, lick in again.licks.items()} == {
        each: tabs(done.lick(each)) for each in lesson.licks
    }
    assert (again.facts.harp, again.facts.position) == (done.harp, position)
    assert again.form == lesson.form


def test_texts_that_speak_of_playing_are_pointed_out() -> None:
    text = over("I", "w 2d\n  tip Let the 2 draw ring.\n  tip Be calm.", say="Tap your foot.")
    tree, _ = parse(Source("test.lesson", text))
    found = list(doubts(tree, retab(lesson_of(text), position=1)))
    assert [(each.text, each.why) for each in found] == [
        ("Let the 2 draw ring.", "the holes have changed (2 draw is now 4b)")
    ]
