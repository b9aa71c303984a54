"""Mend a file: apply every edit that is the only one possible for its problem."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from formsheet.lesson.shelves import Shelves
from formsheet.problems.kinds import lines
from formsheet.problems.problem import Edit, Problem, Severity
from formsheet.problems.words import code
from formsheet.source import Source
from formsheet.stages import examine_any

#: Most rounds of checks: an edit can reveal a problem that another edit mends.
_MOST_ROUNDS = 20
#: Most edits that are tried one by one if they cannot all be made.
_MOST_TRIED = 400


class Change(NamedTuple):
    """An applied edit, and the problem that it mends."""

    problem: Problem
    edit: Edit

    @property
    def words(self) -> str:
        """The change in words: "`Title` becomes `title`"."""
        old, new = self.edit.span.text.strip(), self.edit.text.strip()
        if _filled(old) == _filled(new):  # the same lines, the first moved up from below
            return f"moved up: {code(new.splitlines()[0])}"
        if not old:
            return f"added: {code(new)}"
        if not new:
            return f"removed: {code(old)}"
        return f"{code(old)} becomes {code(new)}"


def _filled(text: str) -> list[str]:
    """The lines of a text that are not blank, sorted."""
    return sorted(filter(str.strip, text.splitlines()))


class Mended(NamedTuple):
    """A file with its edits, round by round; the spans of a round are in the same text."""

    source: Source
    problems: tuple[Problem, ...]  # that remain
    rounds: tuple[tuple[Change, ...], ...] = ()

    @property
    def changes(self) -> list[Change]:
        """All edits in order."""
        return [change for each in self.rounds for change in each]

    @property
    def errors(self) -> int:
        """The number of errors that remain."""
        return sum(problem.severity is Severity.ERROR for problem in self.problems)

    def applied(self, text: str) -> str:
        """The edits applied to a text of the same length as `written`, such as that of the file."""
        for changes in self.rounds:
            text = _applied(text, changes)
        return text


def mended(source: Source, shelves: Shelves) -> Mended:
    """A lesson or a shelf with every unambiguous edit applied.

    An edit is kept if its problem is then gone, its line can be read at least as far as before, and
    the file has no more errors than before. The rest of the text is not changed. If a lesson takes
    licks from a shelf, only the lesson is mended.
    """
    start = Mended(source, examine_any(source, shelves).problems)
    end = _together(start, shelves)
    # Mended errors may have hidden more errors than were mended; then each edit is tried alone.
    return end if end.errors <= start.errors else _one_by_one(start, shelves)


def _together(state: Mended, shelves: Shelves) -> Mended:
    """Apply all possible edits at once, round by round."""
    for _ in range(_MOST_ROUNDS):
        changes = _apart(_possible(state))
        while changes:
            after = _after(state, changes, shelves)
            failed = _failed(state, after, changes)
            if not failed:
                state = after
                break
            changes = [change for change in changes if change not in failed]
        if not changes:
            break
    return state


def _one_by_one(state: Mended, shelves: Shelves) -> Mended:
    """Apply one edit after the other, each only if the number of errors does not rise."""
    left = _MOST_TRIED
    at = 0  # edits before this place have failed
    while left:
        change = next((each for each in _possible(state) if each.edit.span.start >= at), None)
        if change is None:
            break
        left -= 1
        after = _after(state, [change], shelves)
        if after.errors <= state.errors and not _failed(state, after, [change]):
            state = after
        else:
            at = change.edit.span.start + 1
    return state


def _possible(state: Mended) -> list[Change]:
    """The unambiguous edits of this file, in the order of the text."""
    changes = [
        Change(problem, hint.edit)
        for problem in state.problems
        for hint in problem.hints()
        if hint.edit and hint.edit.certain and hint.edit.span.source is state.source
    ]
    return sorted(changes, key=lambda change: change.edit.span[1:])


def _apart(changes: Sequence[Change]) -> list[Change]:
    """The edits without those that touch or overlap an earlier one."""
    apart: list[Change] = []
    for change in changes:
        if not apart or change.edit.span.start > apart[-1].edit.span.end:
            apart.append(change)
    return apart


def _applied(text: str, changes: Sequence[Change]) -> str:
    for _, edit in reversed(changes):
        start, end = edit.span.source.written_range(edit.span.start, edit.span.end)
        text = text[:start] + edit.text + text[end:]
    return text


def _after(state: Mended, changes: Sequence[Change], shelves: Shelves) -> Mended:
    text = _applied(state.source.written, changes)
    source = Source(state.source.name, text, state.source.path)
    problems = examine_any(source, shelves).problems
    return Mended(source, problems, (*state.rounds, tuple(changes)))


def _failed(before: Mended, after: Mended, changes: Sequence[Change]) -> list[Change]:
    """Edits whose problem is still there, or whose line can no longer be read."""
    failed = []
    shift = 0  # offset added by the edits so far
    for change in changes:
        problem, edit = change
        start = edit.span.start + shift
        shift += len(edit.text) - (edit.span.end - edit.span.start)
        places = {*range(start, start + len(edit.text)), problem.span.start + shift}
        again = any(each.code == problem.code and each.span.start in places for each in _own(after))
        line = after.source.line_column(start)[0]
        unread = _unread(after, line) - _unread(before, problem.span.line)
        if again or unread:
            failed.append(change)
    return failed


def _unread(state: Mended, line: int) -> set[str]:
    """The codes of problems that keep a line from being read."""
    return {
        problem.code
        for problem in _own(state)
        if type(problem).__module__ == lines.__name__ and problem.span.line == line
    }


def _own(state: Mended) -> list[Problem]:
    """The problems of the file itself, without those of its shelves."""
    return [each for each in state.problems if each.span.source is state.source]
