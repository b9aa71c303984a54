"""Small helpers of the tests: lesson text in, values out."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

from formsheet.lesson.model import Lesson, Lick
from formsheet.lesson.shelves import Shelves
from formsheet.problems.drawing import drawn
from formsheet.problems.problem import Problem, has_errors
from formsheet.source import Source
from formsheet.stages import Examined, examine
from formsheet.tune.timeline import Tune

#: A folder that is not there: lessons in these tests use no shelf unless they say so.
NO_FOLDER = Path("no-such-folder")

_FACTS = {
    "title": "Test Blues",
    "harp": "C",
    "position": "2nd",
    "form": "12-bar standard",
    "tempo": "60",
}


def lesson_text(body: str, **facts: str | None) -> str:
    """A lesson on a C harp in 2nd position (key of G) at 60, unless `facts` say otherwise.

    `count_in` stands for `count-in`; a fact that is None is left out.
    """
    lines = [
        f"{fact.replace('_', '-')} {words}"
        for fact, words in (_FACTS | facts).items()
        if words is not None
    ]
    return "\n".join([*lines, "", body, ""])


def own_form(chords: str) -> str:
    """The words after `form` for an own form: `own_form("I7 | IV7")`."""
    return f'"Own"\n  | {chords} |'


def over(chords: str, music: str, **facts: str | None) -> str:
    """A lesson whose form is these chords and whose one lick fills them all."""
    last = chords.count("|") + 1
    body = f"lick run on {chords}\n{music}\nplay\n  bars 1-{last} run"
    return lesson_text(body, form=own_form(chords), **facts)


def examined(text: str, folder: Path = NO_FOLDER) -> Examined:
    """The lesson as far as the stages could take it."""
    return examine(Source("test.lesson", text), Shelves(folder))


def problems_of(text: str) -> tuple[Problem, ...]:
    """All problems of a lesson."""
    return examined(text).problems


def slugs_of(text: str) -> list[str]:
    """The kinds of the problems of a lesson, in order."""
    return [problem.code for problem in problems_of(text)]


def only_problem(text: str) -> Problem:
    """The one problem of a lesson; fails where there are none or more."""
    problems = problems_of(text)
    assert len(problems) == 1, told(problems)
    return problems[0]


def told(problems: tuple[Problem, ...]) -> str:
    """Problems as they are printed, for the message of an assertion."""
    return "\n".join(map(drawn, problems)) or "no problems"


def lesson_of(text: str) -> Lesson:
    """The lesson of a text without errors."""
    found = examined(text)
    assert found.lesson, told(found.problems)
    assert not has_errors(found.problems), told(found.problems)
    return found.lesson


def lick_of(text: str, name: str = "run") -> Lick:
    """One lick of a lesson without errors."""
    return lesson_of(text).licks[name]


def tune_of(text: str) -> Tune:
    """The tune of a lesson without errors."""
    found = examined(text)
    assert found.tune, told(found.problems)
    return found.tune


def notes_of(text: str) -> list[tuple[str, Fraction, Fraction]]:
    """Each sounding note of a tune: its tab, its onset in the whole tune, its length."""
    tune = tune_of(text)
    return [(str(n.tab), tune.bars[n.bar].start + n.onset, n.duration) for n in tune.notes]


def licks_played(tune: Tune) -> str:
    """What each bar plays, with which time round: "porch1 porch2 rest"."""
    return " ".join(f"{bar.lick.name}{bar.slot.round}" if bar.lick else "rest" for bar in tune.bars)
