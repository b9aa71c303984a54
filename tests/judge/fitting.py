"""What `check` says of the fit of a lick over some chords, for tests; and bars made by chance."""

from __future__ import annotations

from collections import Counter

from hypothesis import strategies as st

from formsheet.music.harp import Harp
from formsheet.problems import kinds
from formsheet.problems.kinds import NoteOverChord
from formsheet.problems.problem import Edit, Problem, Severity
from formsheet.stages import Examined
from tests.helpers import examined, over, told

CLASH, SUSPENDED, FLAT_FIVE = "note-clash", "note-suspended", "flat-five-stays"
KEY_NOTE, MEANT = "key-note-over-five", "note-clash-deliberate"


def fit_problems(text: str) -> list[NoteOverChord]:
    """All that is said of the fit of a lesson, which has no errors."""
    found = examined(text)
    assert found.tune, told(found.problems)
    return [problem for problem in found.problems if isinstance(problem, NoteOverChord)]


def finding(chords: str, music: str, **facts: str) -> NoteOverChord:
    """The one finding about a lick over some chords."""
    problems = fit_problems(over(chords, music, **facts))
    assert len(problems) == 1, told(tuple(problems))
    return problems[0]


def said(chords: str, music: str, **facts: str) -> list[str]:
    """What is said of a lick over some chords: kind and tab, "note-clash 3d"."""
    problems = fit_problems(over(chords, music, **facts))
    return [f"{problem.code} {problem.sounding.tab}" for problem in problems]


def clashes_of(found: Examined) -> list[kinds.NoteClash]:
    """The warnings of clashes."""
    return [problem for problem in found.problems if isinstance(problem, kinds.NoteClash)]


def edits_of(problem: Problem) -> list[Edit]:
    """Every edit of the hints of a problem."""
    return [hint.edit for hint in problem.hints() if hint.edit]


def tried(before: tuple[Problem, ...], problem: kinds.NoteClash, after: Examined) -> str:
    """Why an edit that was applied is no good: its finding is still there, or there are others."""
    if after.tune is None:
        return told(after.problems)
    same = [
        each
        for each in after.problems
        if isinstance(each, kinds.NoteClash)
        and (each.sounding.lick, each.sounding.tab, each.sounding.letter, each.sounding.held)
        == (problem.sounding.lick, problem.sounding.tab, problem.sounding.letter,
            problem.sounding.held)
    ]  # fmt: skip
    more = Counter(map(_kind, after.problems)) - Counter(map(_kind, before))
    worse = [each for each in more if each[2] >= problem.severity]
    return f"still there: {told(tuple(same))}" if same else f"new: {worse}" if worse else ""


def _kind(problem: Problem) -> tuple[str, str, Severity]:
    lick = problem.sounding.lick if isinstance(problem, NoteOverChord) else ""
    return problem.code, lick, problem.severity


SINGLES = [str(tab) for tab, _ in Harp("C").single_notes(overbends=True)]
MARKS = [*SINGLES, "123d", "123b", "34d", "45d", "14b", "25d", "-", "-"]
_CELLS = {
    "4/4": ["q N", "q N", "q N", "e N N", "e3 N N N", "e. N s N", "e N -"],
    "12/8": ["q. N", "q. N", "q N e N", "e N N N", "e N - -"],
}
#: Chords bar by bar.
FORMS = ["I7 | IV7 | V7", "I | IV | V", "I7 | ii7 | VI7", "i | iv | V7", "I IV | I V | bVI7",
         "I7 | V7 | I7", "IV7 | #IVdim7 | I7", "i7 | ii7b5 V7 | i7"]  # fmt: skip


@st.composite
def bar(draw: st.DrawFn, meter: str = "4/4") -> str:
    """A bar of four beats, of quarters, eighths, triplets and rests."""
    cells = [draw(st.sampled_from(_CELLS[meter])) for _ in range(4)]
    marks = st.sampled_from(MARKS)
    return " ".join(draw(marks) if word == "N" else word for word in " ".join(cells).split())


def bars(meter: str = "4/4") -> st.SearchStrategy[str]:
    """The music of three bars."""
    return st.lists(bar(meter), min_size=3, max_size=3).map(" | ".join)
