"""Shelves: where they are found, what may be taken, and what they must have in common."""

from __future__ import annotations

from pathlib import Path

import pytest

from formsheet.lesson.shelves import Shelves
from formsheet.problems.kinds import BreathRunsOut, NoteOverChord
from formsheet.problems.problem import Problem, Severity
from formsheet.stages import Examined, examine_file
from tests.helpers import lesson_text, told

HOME = "lick home on I, IV, V\n  q 2d 3d 4d 2d\n"
PLAYED = "play\n  every I {0}\n  every IV {0}\n  every V {0}"


def using(use: str, lick: str = "home", **facts: str) -> str:
    return lesson_text(f"{use}\n{PLAYED.format(lick)}", **facts)


class Folder:
    """A lessons folder."""

    def __init__(self, path: Path) -> None:
        self.path = path
        (path / "shelf").mkdir(parents=True)

    def write(self, name: str, text: str) -> Path:
        path = self.path / name
        path.parent.mkdir(exist_ok=True)
        path.write_text(text, encoding="utf-8")
        return path

    def examined(self, text: str, name: str = "tune.lesson") -> Examined:
        return examine_file(self.write(name, text), name, Shelves(self.path))

    def only_problem(self, text: str) -> Problem:
        problems = self.examined(text).problems
        assert len(problems) == 1, told(problems)
        return problems[0]

    def titles(self, text: str, name: str = "tune.lesson") -> dict[str, str]:
        """The licks of a lesson without errors, by name, with their titles."""
        found = self.examined(text, name)
        assert found.tune, told(found.problems)
        return {name: lick.title for name, lick in found.tune.lesson.licks.items()}


@pytest.fixture
def lessons(tmp_path: Path) -> Folder:
    return Folder(tmp_path / "lessons")


# ---- Where a shelf is found --------------------------------------------------------------


@pytest.mark.parametrize("place", ["corner.licks", "shelf/corner.licks"])
@pytest.mark.parametrize("written", ["corner", "corner.licks", '"corner"'])
def test_shelf_beside_the_lesson_or_in_the_shelf_folder(
    lessons: Folder, place: str, written: str
) -> None:
    lessons.write(place, HOME)
    assert lessons.titles(using(f"use home from {written}")) == {"home": "Home"}


def test_shelf_beside_the_lesson_comes_first(lessons: Folder) -> None:
    lessons.write("corner.licks", HOME.replace("on", '"Near" on', 1))
    lessons.write("shelf/corner.licks", HOME.replace("on", '"Far" on', 1))
    assert lessons.titles(using("use home from corner")) == {"home": "Near"}


def test_lesson_in_a_folder_of_its_own(lessons: Folder) -> None:
    lessons.write("shelf/corner.licks", HOME)
    assert lessons.titles(using("use home from corner"), "winter/tune.lesson") == {"home": "Home"}


def test_shelf_in_a_lessons_own_folder(lessons: Folder) -> None:
    lessons.write("winter/corner.licks", HOME)
    assert lessons.titles(using("use home from corner"), "winter/tune.lesson") == {"home": "Home"}


def test_lick_under_another_name(lessons: Folder) -> None:
    lessons.write("shelf/corner.licks", HOME.replace("on", '"Way home" on', 1))
    text = using("use home as stroll from corner", "stroll")
    assert lessons.titles(text) == {"stroll": "Way home"}


def test_lick_under_another_name_is_called_by_it(lessons: Folder) -> None:
    lessons.write("corner.licks", "lick home on I, IV\n  q 2d 3d 4d 2d\n")
    each = lessons.examined(using("use home as door from corner", "door"))
    (problem,) = [problem for problem in each.problems if problem.code == "lick-wrong-chord"]
    assert problem.fields["lick"] == "door"


def test_lick_under_another_name_is_offered_by_it(lessons: Folder) -> None:
    lessons.write("corner.licks", HOME)
    text = lesson_text("use home as door from corner\nplay\n  every I door\n  every IV door")
    assert lessons.only_problem(text).fields["offers"].written == ["door"]


def test_lick_taken_on_another_line_is_not_left_on_its_shelf(lessons: Folder) -> None:
    lessons.write("corner.licks", HOME + HOME.replace("home", "stay"))
    each = lessons.examined(using("use home from corner\nuse stay from corner"))
    assert each.lesson
    assert each.lesson.shelved == ()


def test_lick_under_two_names(lessons: Folder) -> None:
    lessons.write("shelf/corner.licks", HOME)
    text = using("use home, home as stroll from corner", "home, stroll")
    text = text.replace("every I home, stroll", "bars 1-4 home x2, stroll x2\n  every I home")
    text = text.replace("every IV home, stroll", "every IV home")
    text = text.replace("every V home, stroll", "every V home")
    assert lessons.titles(text) == {"home": "Home", "stroll": "Home"}


def test_rhythm_of_the_shelf(lessons: Folder) -> None:
    lessons.write("shelf/corner.licks", "rhythm trot h x x\nlick home on I, IV, V in trot\n 2d 3d")
    assert lessons.titles(using("use home from corner")) == {"home": "Home"}


def test_rhythm_taken_from_the_shelf(lessons: Folder) -> None:
    lessons.write("shelf/corner.licks", "rhythm trot h x x\n")
    lick = "lick own on I, IV, V in step\n  2d 3d\n"
    text = using(f"use trot as step from corner\n{lick}", lick="own")
    assert lessons.titles(text) == {"own": "Own"}


@pytest.mark.parametrize(("use", "name"), [("trot", "trot"), ("trot as walk", "walk")])
def test_rhythm_taken_from_a_shelf(lessons: Folder, use: str, name: str) -> None:
    lessons.write("shelf/corner.licks", "rhythm trot h x x\n")
    text = using(f"use {use} from corner\nlick home on I, IV, V in {name}\n  2d 4d")
    assert lessons.titles(text) == {"home": "Home"}


def test_shelf_that_uses_a_shelf(lessons: Folder) -> None:
    lessons.write("shelf/corner.licks", "use walk as home from deep\n")
    lessons.write("shelf/deep.licks", HOME.replace("home", "walk"))
    assert lessons.titles(using("use home from corner")) == {"home": "Walk"}


def test_rhythm_through_a_shelf_that_takes_it(lessons: Folder) -> None:
    lessons.write("shelf/deep.licks", "rhythm trot h x x\n")
    lessons.write(
        "shelf/corner.licks", "use trot as step from deep\nlick home on I, IV, V in step\n 2d 3d"
    )
    assert lessons.titles(using("use home from corner")) == {"home": "Home"}


def test_shelf_for_another_position_than_the_shelf_that_uses_it(lessons: Folder) -> None:
    lessons.write("shelf/deep.licks", f"position 3rd\n{HOME}")
    lessons.write("shelf/corner.licks", "use home from deep\n")
    problem = lessons.only_problem(using("use home from corner"))
    assert (problem.code, problem.fields["theirs"]) == ("shelf-unlike", "3rd")
    assert problem.span.source.name.endswith("corner.licks")


def test_link_out_of_the_folder_from_a_shelf(lessons: Folder) -> None:
    outside = lessons.write("../outside.licks", HOME)
    (lessons.path / "shelf" / "deep.licks").symlink_to(outside)
    lessons.write("shelf/corner.licks", "use home from deep\n")
    assert lessons.only_problem(using("use home from corner")).code == "shelf-outside"


def test_each_shelf_is_read_once(lessons: Folder) -> None:
    lessons.write("shelf/corner.licks", HOME)
    path = lessons.write("tune.lesson", using("use home from corner"))
    shelves = Shelves(lessons.path)
    first, second = (examine_file(path, "tune.lesson", shelves) for _ in range(2))
    assert first.lesson is not None
    assert second.lesson is not None
    assert first.lesson.licks["home"] is second.lesson.licks["home"]


# ---- What is not there -------------------------------------------------------------------


def test_unknown_shelf_names_the_nearest(lessons: Folder) -> None:
    lessons.write("shelf/corner.licks", HOME)
    problem = lessons.only_problem(using("use home from korner"))
    assert (problem.code, problem.span.text) == ("shelf-unknown", "korner")
    assert problem.fields["near"] == "corner"


def test_unknown_lick_names_the_nearest(lessons: Folder) -> None:
    lessons.write("shelf/corner.licks", HOME)
    problem = lessons.only_problem(using("use homme from corner", "homme"))
    assert (problem.code, problem.span.text) == ("lick-not-on-shelf", "homme")
    assert (problem.fields["near"], problem.fields["known"]) == ("home", ["home"])


@pytest.mark.parametrize(
    "use", ["use home, home from corner", "use home, walk as home from corner"]
)
def test_name_taken_twice(lessons: Folder, use: str) -> None:
    lessons.write("shelf/corner.licks", HOME + HOME.replace("home", "walk"))
    problem = lessons.only_problem(using(use))
    assert (problem.code, problem.span.text) == ("lick-twice", "home")


def test_name_of_an_own_lick_taken_from_a_shelf(lessons: Folder) -> None:
    lessons.write("shelf/corner.licks", HOME)
    problem = lessons.only_problem(using("use home from corner\n" + HOME))
    assert (problem.code, problem.span.text) == ("lick-twice", "home")
    assert problem.related[0].label == "taken here"


def test_name_of_an_own_rhythm_taken_from_a_shelf(lessons: Folder) -> None:
    lessons.write("shelf/corner.licks", "rhythm trot h x x\n")
    own = "rhythm trot q x x x x\nlick home on I, IV, V in trot\n  2d 3d 4d 2d\n"
    problem = lessons.only_problem(using(f"use trot from corner\n{own}"))
    assert (problem.code, problem.span.text) == ("rhythm-twice", "trot")
    assert [(r.label, r.span.line) for r in problem.related] == [("taken here", 7)]


def test_shelf_that_holds_a_lick_and_takes_another_of_that_name(lessons: Folder) -> None:
    lessons.write("shelf/deep.licks", HOME)
    lessons.write("shelf/corner.licks", f"use home from deep\n{HOME}")
    problem = lessons.only_problem(using("use home from corner"))
    assert (problem.code, problem.span.text) == ("lick-twice", "home")
    assert problem.span.source.name.endswith("corner.licks")
    assert [r.span.line for r in problem.related] == [1]


def test_name_taken_from_two_shelves_shows_both(lessons: Folder) -> None:
    lessons.write("shelf/corner.licks", HOME)
    lessons.write("shelf/deep.licks", HOME)
    problem = lessons.only_problem(using("use home from corner\nuse home from deep"))
    assert problem.code == "lick-twice"
    assert [(problem.span.line, r.span.line) for r in problem.related] == [(8, 7)]


def test_mistake_on_a_shelf_is_told_at_its_place(lessons: Folder) -> None:
    lessons.write("shelf/corner.licks", "# mine\n" + HOME.replace("4d", "4x"))
    problem = lessons.only_problem(using("use home from corner"))
    assert (problem.code, problem.span.line, problem.span.text) == ("note-breath", 3, "4x")
    assert problem.span.source.name.endswith("corner.licks")


@pytest.mark.parametrize(
    ("more", "slug"),
    [("form 12-bar standard", "shelf-form"), ("play\n every I home", "shelf-play")],
)
def test_shelf_holds_licks_only(lessons: Folder, more: str, slug: str) -> None:
    text = f"{more}\n{HOME}" if slug == "shelf-form" else f"{HOME}{more}\n"
    lessons.write("shelf/corner.licks", text)
    assert lessons.only_problem(using("use home from corner")).code == slug


# ---- Circles -----------------------------------------------------------------------------


def test_circle_of_two(lessons: Folder) -> None:
    lessons.write("shelf/one.licks", "use home from two\n")
    lessons.write("shelf/two.licks", "use home from one\n")
    found = lessons.examined(using("use home from one"))
    assert [p.fields["circle"] for p in found.problems if p.code == "shelf-circle"] == [
        "one -> two -> one"
    ]


def test_circle_that_the_lesson_only_leads_to(lessons: Folder) -> None:
    for name, other in (("way", "one"), ("one", "two"), ("two", "three"), ("three", "one")):
        lessons.write(f"shelf/{name}.licks", f"use home from {other}\n")
    (found,) = [
        problem
        for problem in lessons.examined(using("use home from way")).problems
        if problem.code == "shelf-circle"
    ]
    assert found.fields["circle"] == "one -> two -> three -> one"
    assert found.span.source.name.endswith("three.licks")


@pytest.mark.limit("lesson.shelves._MOST_IN_A_CHAIN")
@pytest.mark.parametrize(
    ("shelves", "slugs"), [(8, []), (9, ["shelf-chain"]), (600, ["shelf-chain"])]
)
def test_chain(lessons: Folder, shelves: int, slugs: list[str]) -> None:
    """Each shelf takes from the next; the last one holds the lick."""
    for number in range(1, shelves):
        lessons.write(f"s{number}.licks", f"use home from s{number + 1}\n")
    lessons.write(f"s{shelves}.licks", HOME)
    each = lessons.examined(using("use home from s1"))
    assert [p.code for p in each.problems if p.severity is Severity.ERROR] == slugs


def test_shelf_that_uses_itself(lessons: Folder) -> None:
    lessons.write("shelf/one.licks", "use home from one\n")
    found = lessons.examined(using("use home from one"))
    assert "shelf-circle" in [problem.code for problem in found.problems]


def test_circle_seen_from_a_shelf(lessons: Folder) -> None:
    lessons.write("shelf/two.licks", "use home from one\n")
    path = lessons.write("shelf/one.licks", "use home from two\n")
    found = examine_file(path, "one.licks", Shelves(lessons.path))
    assert "shelf-circle" in [problem.code for problem in found.problems]


# ---- Paths never leave the lessons folder ------------------------------------------------


@pytest.mark.parametrize(
    "written",
    ["../outside", "..", "shelf/../../outside", "../lessons/../outside", "shelf/corner", "./corner",
     "/etc/outside", "~/outside", "C:\\outside", "..\\outside", '".hidden"', '""'],
)  # fmt: skip
def test_path_is_no_name_of_a_shelf(lessons: Folder, written: str) -> None:
    lessons.write("shelf/corner.licks", HOME)
    lessons.write("../outside.licks", HOME)
    problem = lessons.only_problem(using(f"use home from {written}"))
    assert (problem.code, problem.span.text) == ("shelf-outside", written)


def test_absolute_path(lessons: Folder) -> None:
    outside = lessons.write("../outside.licks", HOME)
    problem = lessons.only_problem(using(f'use home from "{outside}"'))
    assert problem.code == "shelf-outside"


@pytest.mark.parametrize("place", ["corner.licks", "shelf/corner.licks"])
def test_link_out_of_the_folder(lessons: Folder, place: str) -> None:
    outside = lessons.write("../outside.licks", HOME)
    (lessons.path / place).symlink_to(outside)
    problem = lessons.only_problem(using("use home from corner"))
    assert (problem.code, problem.span.text) == ("shelf-outside", "corner")


def test_linked_folder_out_of_the_folder(lessons: Folder, tmp_path: Path) -> None:
    lessons.write("../elsewhere/corner.licks", HOME)
    (lessons.path / "shelf").rmdir()
    (lessons.path / "shelf").symlink_to(tmp_path / "elsewhere")
    assert lessons.only_problem(using("use home from corner")).code == "shelf-outside"


def test_link_inside_the_folder(lessons: Folder) -> None:
    inside = lessons.write("shelf/deep.licks", HOME)
    (lessons.path / "corner.licks").symlink_to(inside)
    assert lessons.titles(using("use home from corner")) == {"home": "Home"}


# ---- What shelf and lesson have in common ------------------------------------------------


@pytest.mark.parametrize(
    ("shelf", "facts", "unlike"),
    [
        ("position 3rd", {}, ("position", "3rd", "2nd")),
        ("", {"position": "1st"}, ("position", "2nd", "1st")),
        ("tuning country", {}, ("tuning", "country", "richter")),
        ("", {"tuning": "natural minor"}, ("tuning", "richter", "natural minor")),
        ("meter 12/8", {}, ("meter", "12/8", "4/4")),
    ],
)
def test_shelf_for_another_position_tuning_or_meter(
    lessons: Folder, shelf: str, facts: dict[str, str], unlike: tuple[str, str, str]
) -> None:
    music = HOME if unlike[1] != "12/8" else HOME.replace("q ", "q. ")
    lessons.write("shelf/corner.licks", f"{shelf}\n{music}")
    text = using("use home from corner", **facts)
    unlikes = [p for p in lessons.examined(text).problems if p.code == "shelf-unlike"]
    assert [(p.fields["fact"], p.fields["theirs"], p.fields["ours"]) for p in unlikes] == [unlike]
    assert unlikes[0].span.text == "corner"


@pytest.mark.parametrize(
    ("shelf", "facts"),
    [
        ("harp A\ntempo 200\nfeel swing\ntitle Mine", {}),
        ("position 3rd", {"position": "3rd"}),
        ("position 3rd\ntuning natural-minor", {"position": "3rd", "tuning": "natural minor"}),
    ],
)
def test_shelf_and_lesson_that_agree(lessons: Folder, shelf: str, facts: dict[str, str]) -> None:
    lessons.write("shelf/corner.licks", f"{shelf}\n{HOME}")
    problems = lessons.examined(using("use home from corner", **facts)).problems
    heard = (NoteOverChord, BreathRunsOut)  # one drawn lick over all chords
    assert not [p for p in problems if not isinstance(p, heard)]


def test_position_that_cannot_be_read_is_not_held_against_the_shelf(lessons: Folder) -> None:
    lessons.write("shelf/corner.licks", f"position 3rd\n{HOME}")
    assert lessons.only_problem(using("use home from corner", position="uh")).code == (
        "position-unknown"
    )


OWN = "campfire\n blow C E G C E G C E G C\n draw D G B D F# A B D F# A"


@pytest.mark.parametrize(
    ("ours", "unlike"),
    [
        (OWN, []),
        (OWN.replace("campfire", "ferry town"), []),
        (OWN.replace("F#", "F"), [("another campfire", "campfire")]),
        ("country", [("campfire", "country")]),
    ],
)
def test_own_tunings_are_alike_where_their_reeds_are(
    lessons: Folder, ours: str, unlike: list[tuple[str, str]]
) -> None:
    lessons.write("shelf/corner.licks", f"tuning {OWN}\n{HOME}")
    problems = lessons.examined(using("use home from corner", tuning=ours)).problems
    assert unlike == [
        (p.fields["theirs"], p.fields["ours"]) for p in problems if p.code == "shelf-unlike"
    ]


# Our own choice: more would be slow, and nobody has so many.
@pytest.mark.limit("lesson.shelves._MOST_SEARCHED")
@pytest.mark.parametrize(("number", "shelf"), [(50, "s50"), (51, None)])
def test_fifty_shelves_are_searched_for_a_lick(
    lessons: Folder, number: int, shelf: str | None
) -> None:
    for each in range(1, 52):
        lessons.write(f"shelf/s{each:02}.licks", HOME if each == number else "lick a on I\n w 2d\n")
    problems = lessons.examined(lesson_text("play\n  bars 1-12 home")).problems
    assert [problem.fields["shelf"] for problem in problems] == [shelf]


# Our own choice: a shelf is looked for, to name its folder, in three folders above.
@pytest.mark.limit("lesson.shelves._MOST_ABOVE")
@pytest.mark.parametrize(("levels", "found"), [(3, True), (4, False)])
def test_three_folders_above_are_searched_for_a_shelf(
    tmp_path: Path, levels: int, found: bool
) -> None:
    (tmp_path / "shelf").mkdir()
    (tmp_path / "shelf" / "corner.licks").write_text(HOME, encoding="utf-8")
    folder = tmp_path.joinpath(*"abcd"[:levels])
    folder.mkdir(parents=True)
    path = folder / "tune.lesson"
    path.write_text(using("use home from corner"), encoding="utf-8")
    (problem,) = [
        each
        for each in examine_file(path, path.name, Shelves(folder)).problems
        if each.code == "shelf-unknown"
    ]
    assert bool(problem.fields["whole"]) is found
