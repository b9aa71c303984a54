"""What is offered instead of a clash: the nearest chord tones, tried on the tune.

A C harp in 2nd position: G7 is G B D F, C7 is C E G Bb, D7 is D F# A C. That a half step in the
same hole comes first, then the nearest in pitch, then the nearest for the mouth, is our own choice;
what the holes sound follows from the reeds.
"""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from formsheet.lesson.shelves import Shelves
from formsheet.music.harp import HARP_KEYS, Harp
from formsheet.problems import kinds
from formsheet.stages import examine_file
from tests.helpers import examined, lesson_text, over, own_form
from tests.judge.fitting import (
    FORMS,
    MARKS,
    bars,
    clashes_of,
    edits_of,
    finding,
    fit_problems,
    tried,
)
from tests.judge.planted import applied
from tests.random_lessons import random_lesson

few = settings(max_examples=40, derandomize=True, deadline=None, database=None)


def clash(text: str) -> kinds.NoteClash:
    """The one finding of a lesson, a warning of a clash."""
    (problem,) = fit_problems(text)
    assert isinstance(problem, kinds.NoteClash)
    return problem


def offers(chord: str, music: str, **facts: str) -> list[str]:
    """What is offered instead of the one clash of a lick, the best first."""
    return list(clash(over(chord, music, **facts)).offers)


# ---- What is offered ---------------------------------------------------------------------


@pytest.mark.limit(
    "judge.offers.NEAR", "judge.offers.MOST_OFFERS"
)  # our own choice: a fifth, three
@pytest.mark.parametrize(
    ("chord", "music", "offered"),
    [
        # B over C7: Bb in the same hole, then C a half step up, then G four half steps down.
        ("IV7", "h 3d -", ["3d'", "4b", "2d"]),
        # C# over D7: D in the same hole; C; A, which is as near as E is far.
        ("V7", "h 4d' -", ["4d", "4b", "3d''"]),
        # F# over G7: G and F in the same hole, then D.
        ("I7", "h 2d' -", ["2d", "2d''", "1d"]),
        # An octave up there is no bend between B and C: 7 blow, then G, then E.
        ("IV7", "h 7d -", ["7b", "6b", "8b"]),
        # C4 over G: D, and G, which is a fifth away; B is farther.
        ("I", "h 1b -", ["1d", "2d"]),
        # Bb4 over D: A in the same hole, D and F#; D4 is more than a fifth away.
        ("V", "h 3d' -", ["3d''", "4d", "2d'"]),
    ],
)
def test_nearest_chord_tones(chord: str, music: str, offered: list[str]) -> None:
    assert offers(chord, music) == offered


@pytest.mark.limit("judge.offers.NEAR")
def test_no_farther_than_a_fifth() -> None:
    """Bb over D, for a beginner: D and F#, four half steps away; D4 is eight."""
    assert offers("V", "h 3d' -", level="beginner") == ["4d", "2d'"]


def test_words_say_what_each_is() -> None:
    assert clash(over("IV7", "h 3d -")).offers == {
        "3d'": "Bb, the b7", "4b": "C, the root", "2d": "G, the 5",
    }  # fmt: skip


# Our own choice, `judge/level.py`: a beginner bends a half step, and nobody is offered overbends.
@pytest.mark.parametrize(
    ("level", "offered"),
    [
        ("beginner", ["4b", "4d", "2d'"]),
        ("improver", ["3d''", "4b", "4d"]),
        ("advanced", ["3d''", "4b", "4d"]),
    ],
)
def test_only_what_the_level_may_be_asked_for(level: str, offered: list[str]) -> None:
    assert offers("V7", "h 3d' -", level=level) == offered


# Our own choice: no first bend is asked of a beginner in passing.
@pytest.mark.parametrize(
    ("level", "music", "offered"),
    [
        ("beginner", "h 3d -", ["4b", "2d", "5b"]),
        ("beginner", "e 3d' 5b q 5b 3d 5b", ["3d'", "4b", "3b"]),  # the tune has a bend already
        ("improver", "h 3d -", ["3d'", "4b", "2d"]),
    ],
)
def test_a_beginners_tune_without_bends_is_offered_natural_notes_first(
    level: str, music: str, offered: list[str]
) -> None:
    assert offers("IV7", music, level=level) == offered


# 2 draw and 3 blow are one pitch (common practice, no source).
@pytest.mark.parametrize(
    ("music", "offered"),
    [
        ("q 4b 3d 5b 4b", "3b"),  # between blown notes
        ("q 1d 3d 4d 1d", "2d"),  # between drawn ones
    ],
)
def test_one_tab_a_pitch_the_one_that_the_line_makes_easier(music: str, offered: str) -> None:
    found = offers("IV7", music)
    assert found == ["3d'", "4b", offered]


def test_what_is_not_easy_at_the_start_tempo_is_not_offered() -> None:
    """At 60 a sixteenth is too short to get from 5 blow to a bend in tune; a beat is not."""
    assert offers("IV7", "q 5b h. 3d", tempo="60")[0] == "3d'"
    assert offers("IV7", "s 5b 5b 5b 5b h. 3d", tempo="60") == ["4b", "3b", "5b"]


def test_what_clashes_with_another_chord_of_the_lick_is_not_offered() -> None:
    """Bb fits C7, but over D7 it is the b6."""
    lick = "lick a on IV, V\n q 4b 3d 5b 4b\nplay\n bars 1-2 a x2"
    assert next(iter(clash(lesson_text(lick, form=own_form("IV7 | V7"))).offers)) == "4b"
    assert next(iter(clash(lesson_text(lick, form=own_form("IV7 | IV7"))).offers)) == "3d'"


def test_a_note_held_into_a_clash_is_answered_with_what_fits_both_chords() -> None:
    """B, the 3 of G7, is held into C7: Bb is idiomatic over the one and the b7 of the other."""
    problem = clash(over("I7 | IV7", "h. 4d q 3d | q = h. 5b"))
    assert next(iter(problem.offers)) == "3d'"


@pytest.mark.parametrize(
    ("tuning", "chord", "music", "offered"),
    [
        # 5 draw of a country harp is F#: the 7 of G7, and the reason to own that harp.
        ("country", "I7", "h 5d -", False),
        ("country", "IV7", "h 3d -", True),  # this reed is as usual
        ("richter", "I7", "h 2d' -", True),
        # 3 draw of a natural minor harp is Bb, 7 blow is C as usual.
        ("natural minor", "V7", "h 3d -", False),
        ("natural minor", "I7", "h 7b -", True),
    ],
)
def test_a_note_that_the_tuning_changed_is_not_offered_away(
    tuning: str, chord: str, music: str, offered: bool
) -> None:
    problem = clash(over(chord, music, tuning=tuning))
    assert bool(problem.offers) is bool(problem.edit) is offered
    assert [hint.text for hint in problem.hints()][-1].startswith("if it is meant, write")


# Common practice, no source: in second position V has no block on holes 1 to 3, so its root is
# doubled.
@pytest.mark.parametrize("block", ["123d", "12d", "23d"])
@pytest.mark.parametrize("key", ["C", "A", "low F"])
def test_a_block_over_v_is_answered_with_the_doubled_root(block: str, key: str) -> None:
    problem = clash(over("V7", f"h {block} -", harp=key))
    assert next(iter(problem.offers)) == "14d"
    assert problem.edit
    assert problem.edit.text == "14d"


def test_a_block_is_answered_with_blocks() -> None:
    assert clash(over("IV7", "h 123d -")).offers == {"123b": "C", "234b": "C", "345b": "C"}


def test_key_note_over_five_is_answered_without_an_edit() -> None:
    problem = finding("V7", "q 4d 5d h 2d")
    assert isinstance(problem, kinds.KeyNoteOverFive)
    assert list(problem.offers) == ["2d'", "3d''", "4b"]
    assert [hint.edit for hint in problem.hints()] == [None]


# ---- The edit ----------------------------------------------------------------------------

A, B = "lick a on IV\n", "\nplay\n  bars 1-2 a x2"


# Our own choice: all marks of one cause at once, nothing else is touched.
@pytest.mark.parametrize(
    ("music", "mended"),
    [
        (" q 3d 5b 5b 5b", " q 3d' 5b 5b 5b"),
        (" q 3d 5b 3d 5b", " q 3d' 5b 3d' 5b"),
        # Comments, line ends, spaces.
        (" q 3d 5b  # low 3d\n   3d\t5b", " q 3d' 5b  # low 3d\n   3d'\t5b"),
        (" q 3d 5b\r\n 3d 5b", " q 3d' 5b\r\n 3d' 5b"),
        # Technique, syllable, swing marks.
        (' q 3d{wah}"ka" 5b 3d"3d" 5b', ' q 3d\'{wah}"ka" 5b 3d\'"3d" 5b'),
        (" q 3d 5b swing 3d 5b", " q 3d' 5b swing 3d' 5b"),
        # Brackets: one mark, played twice.
        (" [ q 3d 5b ]x2", " [ q 3d' 5b ]x2"),
        (" q 3d [ e 5b 5b ]x2 q 3d", " q 3d' [ e 5b 5b ]x2 q 3d'"),
        # Others of the same hole that are no part of it: short, meant.
        (" q 3d 5b e 3d 5b q 3d!", " q 3d' 5b e 3d 5b q 3d!"),
        # Typographic ticks: Ab to G.
        (" q 3d’’’ 5b 3d’’’ 5b", " q 3b 5b 3b 5b"),
        (" q 3d′′′ 5b 3d''' 5b", " q 3b 5b 3b 5b"),
    ],
)
def test_edit_replaces_all_marks_of_a_cause_and_keeps_what_lies_between(
    music: str, mended: str
) -> None:
    text = lesson_text(A + music + B, form=own_form("IV7 | IV7"))
    (problem,) = (p for p in fit_problems(text) if isinstance(p, kinds.NoteClash))
    assert problem.edit
    assert applied(text, problem.edit) == text.replace(music, mended)


def test_edit_of_a_lick_in_a_rhythm() -> None:
    text = lesson_text(
        "rhythm trot q x x x x\nlick a on IV in trot\n 3d 5b 3d 5b\nplay\n bar 1 a",
        form=own_form("IV7"),
    )
    edit = clash(text).edit
    assert edit
    assert applied(text, edit) == text.replace("3d 5b 3d 5b", "3d' 5b 3d' 5b")


def test_edit_of_a_lick_that_is_played_twice_is_one() -> None:
    text = lesson_text(A + " q 3d 5b 5b 5b" + B, form=own_form("IV7 | IV7"))
    edit = clash(text).edit
    assert edit
    assert (edit.span.text, edit.text, edit.certain) == ("3d", "3d'", False)


def test_edit_of_a_lick_from_a_shelf_is_on_the_shelf(tmp_path: Path) -> None:
    shelf = "position 2nd\nlick walk on IV\n q 3d 5b 3d 5b\n"
    (tmp_path / "walks.licks").write_text(shelf, encoding="utf-8")
    body = "use walk, walk as stroll from walks\nplay\n  bars 1-2 walk, stroll"
    path = tmp_path / "tune.lesson"
    path.write_text(lesson_text(body, form=own_form("IV7 | IV7")), encoding="utf-8")
    found = examine_file(path, path.name, Shelves(tmp_path)).problems
    problems = [p for p in found if isinstance(p, kinds.NoteClash)]
    assert [p.sounding.lick for p in problems] == ["walk", "stroll"]
    for problem in problems:
        assert problem.edit
        assert problem.edit.span.source.name.endswith("walks.licks")
        assert applied(shelf, problem.edit) == shelf.replace("3d", "3d'")


def test_excuse_is_offered_last_and_goes_after_the_tab() -> None:
    text = over("IV7", "q 3d{wah} 5b 5b 5b")
    hint = list(clash(text).hints())[-1]
    assert (hint.text, hint.edit and applied(text, hint.edit)) == (
        "if it is meant, write `3d!`", text.replace("3d{wah}", "3d!{wah}"),
    )  # fmt: skip


def test_excuse_of_several_places_has_no_edit() -> None:
    """It would be one `!` too few."""
    assert list(clash(over("IV7", "q 3d 5b 3d 5b")).hints())[-1].edit is None


# Our own choice: 30,000 notes judged again, less than a second.
@pytest.mark.limit("judge.alternatives.MOST_TRIED")
@pytest.mark.parametrize(
    ("clashes", "times", "fours", "edits"),
    [
        (20, 18, 0, 20),  # each of them tried on 1,500 notes: 30,000
        (19, 20, 2, 18),  # on 1,579: one more
    ],
)
def test_so_many_notes_are_tried(clashes: int, times: int, fours: int, edits: int) -> None:
    licks = "".join(f"lick a{at} on IV\n q 3d 5b 6b 4b\n" for at in range(clashes))
    licks += "lick three on IV\n q 4b 5b 4b -\nlick four on IV\n q 4b 5b 4b 5b\n"
    names = ", ".join(f"a{at}" for at in range(clashes))
    rest = ", ".join(["four"] * fours + ["three"] * (clashes - fours))
    plays = f"play x{times}\n bars 1-{clashes} {names}\nplay\n bars 1-{clashes} {rest}"
    text = lesson_text(licks + plays, form=own_form(" | ".join(["IV7"] * clashes)))
    found = clashes_of(examined(text))
    assert len(found) == clashes
    assert [bool(each.edit) for each in found] == [True] * edits + [False] * (clashes - edits)
    assert all(each.offers for each in found)


# ---- Every edit, applied -----------------------------------------------------------------


@few
@given(bars(), st.sampled_from(FORMS), st.sampled_from(["1st", "2nd", "3rd", "5th", "12th"]),
       st.sampled_from(["richter", "country", "natural minor", "harmonic minor"]),
       st.sampled_from(HARP_KEYS),
       st.sampled_from(["beginner", "improver", "advanced"]))  # fmt: skip
def test_every_edit_removes_its_finding_and_adds_none_as_grave(
    music: str, chords: str, position: str, tuning: str, key: str, level: str
) -> None:
    text = over(chords, music, position=position, harp=key, tuning=tuning, level=level)
    found = examined(text)
    for problem in clashes_of(found):
        for edit in edits_of(problem):
            assert not tried(found.problems, problem, examined(applied(text, edit)))


@pytest.mark.parametrize("seed", range(24))
def test_every_edit_in_a_made_up_lesson(seed: int) -> None:
    text = random_lesson(seed)
    found = examined(text)
    for problem in clashes_of(found):
        for edit in edits_of(problem):
            assert not tried(found.problems, problem, examined(applied(text, edit)))


def test_marks_of_the_made_up_bars_are_all_of_the_harp() -> None:
    assert {*MARKS} >= {str(tab) for tab, _ in Harp("C").single_notes()}
