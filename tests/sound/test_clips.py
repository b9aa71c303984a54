"""The clips of a pack: which there are, their names, tempos and titles."""

from __future__ import annotations

import wave
from fractions import Fraction
from io import BytesIO

import pytest
from soundfile import SoundFile

from formsheet.engine.parts import PARTS
from formsheet.file_names import file_names
from formsheet.judge.joins import ALWAYS, find_joins
from formsheet.judge.practice import practice_of
from formsheet.sheet.options import Options
from formsheet.sound.clips import (
    JOIN_TIMES,
    LICK_TIMES,
    Clip,
    clip_midi,
    clip_samples,
    clip_sound,
    clips_of,
    contents,
)
from formsheet.sound.grooves import CRASH
from formsheet.sound.mix import AFTER, BEFORE
from formsheet.tune.timeline import Tune
from tests.helpers import examined, lesson_text, own_form, tune_of
from tests.lessons import NAMES, demo
from tests.parts import part_files
from tests.sound.heard import cents_off, onset_near


def demo_tune(name: str) -> Tune:
    tune = demo(name).tune
    assert tune
    return tune


def clip(tune: Tune, name: str) -> Clip:
    return next(clip for clip in clips_of(tune) if clip.name == name)


def test_a_lesson_has_each_lick_twice_and_the_tune_with_and_without_its_band() -> None:
    licks = [f"lick-{name}-{speed}" for name in ("porch", "chug", "creek", "gate", "home")
             for speed in ("slow", "full")]  # fmt: skip
    loops = ["move-1-inside-home", "move-2-inside-home", "join-3-chug-to-creek",
             "join-4-gate-to-home", "join-5-creek-to-porch"]  # fmt: skip
    found = clips_of(demo_tune("back-step-shuffle"))
    names = [clip.name for clip in found]
    assert names == [
        "band-alone-slow",
        "band-alone-full",
        *loops,
        *licks,
        "tune-slow",
        "tune-full",
        "tune-with-band",
    ]
    words = [f"inside turnaround T, The way home, bar {bar}" for bar in (11, 12)]
    assert [clip.words for clip in found[2:4]] == words
    assert [clip.tempo for clip in found[2:7]] == [63, 66, 92, 92, 92]


def test_a_move_inside_a_lick_of_one_bar_is_practised_with_the_lick() -> None:
    """The hardest move of the tune is inside a lick of two bars, the next inside one of one."""
    tune = demo_tune("gantry-crane")
    first, second, *_ = practice_of(tune).moves
    assert [len(each.first_lick.bars) for each in (first, second)] == [2, 1]
    names = [clip.name for clip in clips_of(tune) if clip.name.startswith("move")]
    assert names[0] == "move-1-inside-spire"
    assert "down" not in "".join(names)


def test_joins_are_looped_the_hardest_first() -> None:
    """One of them is hard; the others are easy at the tempo of the tune."""
    tune = demo_tune("mill-in-winter")
    found = find_joins(tune)
    assert [join.easy_tempo < tune.lesson.facts.tempo for join in found[:2]] == [True, False]
    joins = [join for join in found if not join.loops]
    looped = [clip for clip in clips_of(tune) if clip.name.startswith("join-")]
    assert len(looped) == ALWAYS
    for number, (each, join) in enumerate(zip(looped, joins, strict=False), start=1):
        names = f"{join.first_lick.name}-to-{join.second_lick.name}"
        assert each.name == f"join-{number}-{names}"
        assert each.tempo <= join.easy_tempo
        counted = sum(event.voice == "click" for event in each.taken.events)  # one a beat
        rounds = (each.taken.beats - counted) / JOIN_TIMES
        assert rounds % tune.lesson.facts.meter.beats == 0


@pytest.mark.parametrize("name", NAMES)
def test_slow_is_where_the_lick_is_easy_or_where_the_tune_starts(name: str) -> None:
    """A lick that is easy at full tempo is slow where the tune starts, so that it can be heard."""
    tune = demo_tune(name)
    practice = practice_of(tune)
    target = tune.lesson.facts.tempo
    tempos = {c.name: c.tempo for c in clips_of(tune) if c.name.startswith(("lick", "tune-s"))}
    assert tempos["tune-slow"] == practice.ladder[0]
    for each in practice.licks:
        lick = file_names([each.lick.name])[0]
        assert tempos[f"lick-{lick}-full"] == target
        if each.ladder[0] < target:
            assert tempos[f"lick-{lick}-slow"] == each.ladder[0]
            assert each.ladder[0] <= max(40, each.easy_tempo(float(target)))
        else:
            assert tempos[f"lick-{lick}-slow"] == practice.ladder[0]


def test_a_lick_is_played_twice() -> None:
    taken = clip(demo_tune("back-step-shuffle"), "lick-chug-full").taken
    guide = [event for event in taken.events if event.voice == "guide"]
    assert len(guide) == 3 * LICK_TIMES


def test_another_lick_before_them_changes_letters_and_no_name_of_a_file() -> None:
    """Students have the files already, and a page may link to them."""
    body = (
        'lick a "Porch" on I\n w 2d\nlick b "Creek" on I\n q 4d 5d 4d 5d\n'
        "play\n bars 1-2 a, b\n bar 3 a\n"
    )
    before = tune_of(lesson_text(body + " bar 4 rest", form=own_form("I | I | I | I")))
    later = body.replace("bars 1-2 a, b\n bar 3 a", "bars 2-4 a, b, a\n bar 1 new")
    after = tune_of(
        lesson_text(f"lick new on I\n h. 1d q -\n{later}", form=own_form("I | I | I | I"))
    )
    old, new = ({c.name: c.words for c in clips_of(tune)} for tune in (before, after))
    assert {name for name in old if name.startswith("lick")} <= set(new)
    assert (old["lick-a-full"], new["lick-a-full"]) == ("lick A, Porch", "lick B, Porch")
    assert old["join-2-a-to-b"] == "lick A, Porch, into lick B, Creek"
    (join,) = (words for name, words in new.items() if name.endswith("-a-to-b"))
    assert join == "lick B, Porch, into lick C, Creek"


def test_a_tune_at_its_slowest_has_no_slow_clips() -> None:
    tune = tune_of(
        lesson_text("lick run on I\n w 2d\nplay\n every I run", form=own_form("I"), tempo="40")
    )
    assert [c.name for c in clips_of(tune)] == [
        "band-alone-full", "lick-run-full", "tune-full", "tune-with-band",
    ]  # fmt: skip


def test_a_lesson_without_a_count_is_counted_in_all_the_same() -> None:
    tune = tune_of(
        lesson_text("lick run on I\n w 2d\nplay\n every I run", form=own_form("I"), count_in="0")
    )
    assert all(any(e.voice == "click" for e in c.taken.events) for c in clips_of(tune))


def test_names_that_would_be_one_file_are_kept_apart() -> None:
    body = (
        "\n".join(f"lick {name} on I\n w 2d" for name in ("its", "it's", "Its"))
        + "\nplay\n bars 1-3 its, it's, Its"
    )
    tune = tune_of(lesson_text(body, form=own_form("I | I | I")))
    licks = [c.name for c in clips_of(tune) if c.name.startswith("lick")]
    assert len({name.casefold() for name in licks}) == 3
    assert not any("'" in name for name in licks)


def test_files_are_as_long_as_what_is_played_and_carry_their_title() -> None:
    tune = demo_tune("slow-barge")
    found = clip(tune, "lick-flood-slow")
    sound, midi = clip_sound(found, tune, wav=True), clip_midi(found, tune)
    with wave.open(BytesIO(sound)) as file:
        seconds = file.getnframes() / file.getframerate()
    assert seconds == pytest.approx(BEFORE + found.taken.beats * 60 / 40 + AFTER, abs=0.01)
    for data in (sound, midi):
        assert b"Slow Barge, Low Water: lick A, Flood (40 beats a minute)" in data


@pytest.mark.parametrize(("options", "kind"), [(Options(), "mp3"), (Options(wav=True), "wav")])
def test_the_part_makes_every_clip_in_its_folder(options: Options, kind: str) -> None:
    text = lesson_text("lick run on I\n w 2d\nplay\n every I run", form=own_form("I"), tempo="120")
    made = part_files("clips", examined(text), options)
    tune = tune_of(text)
    assert tune.lesson.facts.tempo == Fraction(120)
    wanted = {f"clips/{c.name}.{each}" for c in clips_of(tune) for each in (kind, "mid")}
    assert set(made) == wanted
    assert all(made.values())


def test_mp3_is_small_of_the_same_length_in_time_and_in_tune() -> None:
    tune = demo_tune("back-step-shuffle")
    found = clip(tune, "lick-porch-full")
    small, large = clip_sound(found, tune), clip_sound(found, tune, wav=True)
    assert len(small) * 7 < len(large)
    assert small == clip_sound(found, tune)
    with SoundFile(BytesIO(small)) as file:
        assert (file.title, file.samplerate) == (
            "Back Step Shuffle: lick A, On the porch (92 beats a minute)",
            44_100,
        )
        heard = file.read()
    assert len(heard) == len(clip_samples(found))
    first = next(event for event in found.taken.events if event.voice == "guide")
    start = BEFORE + first.start * 60 / 92
    assert onset_near(heard, start) == pytest.approx(start, abs=0.005)
    assert abs(cents_off(heard, first.midi[0], start + 0.1, start + 0.5)) < 3


@pytest.mark.parametrize(("choruses", "played"), [(1, 3), (2, 3), (3, 3), (4, 4)])
def test_the_band_alone_plays_three_choruses_and_ends_once(choruses: int, played: int) -> None:
    """Each chorus goes on into the next; only the last has the ending of the last time."""
    text = lesson_text(
        "lick run on I\n w 2d\nlick turn on V\n w 1d\n"
        f"play x{choruses}\n every I run\n every V turn\n last time ending I\n"
        " last time bar 2 run",
        form=own_form("I | V"),
        tempo="40",
    )
    found = clip(tune_of(text), "band-alone-full")
    assert found.taken.beats == 4 + played * 2 * 4
    crashes = [e.start for e in found.taken.events if e.midi == (CRASH,)]
    assert crashes == [4 + 8 * number for number in range(1, played)] + [4 + 8 * played - 4]
    assert {event.voice for event in found.taken.events} == {"click", "bass", "chord", "drum"}


def test_a_lick_that_has_moved_is_the_same_sound_and_one_that_has_changed_is_not() -> None:
    lick = 'lick a "Porch" on I\n [ e 2d 3d ]x4\n'
    one = tune_of(
        lesson_text(f"{lick}play\n bar 1 a\n bar 2 rest", form=own_form("I | I"), tempo="160")
    )
    moved = tune_of(
        lesson_text(f"{lick}play\n bar 1 rest\n bar 2 a", form=own_form("I | I"), tempo="160")
    )
    other = tune_of(
        lesson_text(f"{lick}play\n bar 1 a\n bar 2 rest".replace("2d", "2d'"),
                    form=own_form("I | I"), tempo="160")
    )  # fmt: skip
    texts = [contents(clip(tune, "lick-a-full"), tune) for tune in (one, moved, other)]
    assert texts[0] == texts[1] != texts[2]
    assert len({contents(clip(one, name), one) for name in ("lick-a-slow", "lick-a-full")}) == 2


def test_a_pack_is_8_megabytes_at_most() -> None:
    """The job's own bound, by the largest of the demos: slow, so that its clips are long."""
    parts = [part_files(part, demo("slow-barge")) for part in PARTS]
    assert sum(len(content) for files in parts for content in files.values()) < 8_000_000
