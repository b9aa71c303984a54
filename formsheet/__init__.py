"""formsheet: from a plain-text harmonica lesson to a handout that a student can learn from.

The functions of the commands, for other programs:

    import formsheet

    checked = formsheet.check("title Kitchen Shuffle\\nharp C\\n...")
    for problem in checked.problems:
        print(formsheet.shown(problem))        # as the terminal shows it
    if checked.in_order:
        for note in checked.tune.notes:
            print(note.tab, note.start_s)      # seconds from the beginning of the tune

    handout = formsheet.build("lessons/kitchen.lesson", "handouts")
    print(handout.folder, handout.files)

A lesson's mistakes are data, never exceptions: `Problem` has `code`, `severity`, `span`,
`message()` and `hints()`; a hint has an `edit` where there is exactly one. `formsheet explain CODE`
prints what a code means. Modules are imported when they are first used.
"""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING, Any, NamedTuple

if TYPE_CHECKING:
    from collections.abc import Sequence
    from os import PathLike
    from pathlib import Path

    from formsheet.music.harp import Harp
    from formsheet.problems.problem import Edit, Hint, Problem, Severity
    from formsheet.sheet.options import Options
    from formsheet.source import Span
    from formsheet.stages import Examined
    from formsheet.tune.timeline import Tune

__version__ = "0.1.0"

__all__ = [
    "Edit", "Examined", "Handout", "Hint", "LessonError", "Options", "Problem", "Severity", "Span",
    "Tune", "build", "check", "check_file", "shown",
]  # fmt: skip

_HOMES = {
    "Edit": "problems.problem",
    "Examined": "stages",
    "Hint": "problems.problem",
    "Options": "sheet.options",
    "Problem": "problems.problem",
    "Severity": "problems.problem",
    "Span": "source",
    "Tune": "tune.timeline",
}


def __getattr__(name: str) -> Any:
    """A class of the interface, from the module that defines it."""
    if name not in _HOMES:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    return getattr(import_module(f"formsheet.{_HOMES[name]}"), name)


class LessonError(ValueError):
    """A lesson has errors, so no handout can be made; `problems` has them."""

    def __init__(self, problems: Sequence[Problem]) -> None:
        self.problems = tuple(problems)  # errors, warnings and remarks in the order of the text
        super().__init__("\n".join(map(shown, self.problems)))


class Handout(NamedTuple):
    """The handout of a lesson, on the disk."""

    folder: Path
    files: tuple[Path, ...]  # written now; empty if nothing changed since the last build
    problems: tuple[Problem, ...]  # warnings and remarks


def check(
    text: str,
    *,
    name: str = "text.lesson",
    folder: str | PathLike[str] = ".",
    harp: str | None = None,
) -> Examined:
    """Read and check the text of a lesson, or of a shelf if `name` ends in `.licks`.

    `name` is how problems call it. Its shelves are looked for in `folder` and in `shelf` there.
    `harp` takes the place of the lesson's own, as it is stamped: `C`, `Bb`, `low F`; ValueError if
    there is no such harp. The result has `problems`, `in_order` (no errors), `lesson`, `tune` and
    `fits`.
    """
    from pathlib import Path

    from formsheet.lesson.shelves import Shelves
    from formsheet.source import Source
    from formsheet.stages import examine_any

    source = Source(name, text.removeprefix("\ufeff"), Path(folder, name))
    return examine_any(source, Shelves(Path(folder)), _harp(harp))


def check_file(path: str | PathLike[str], *, harp: str | None = None) -> Examined:
    """Read and check a lesson or a shelf on the disk; its shelves are searched beside it.

    A file that cannot be read is a problem like any other. `harp` as in `check`.
    """
    from pathlib import Path

    from formsheet.lesson.shelves import Shelves
    from formsheet.source import shown_name
    from formsheet.stages import examine_file

    file = Path(path)
    return examine_file(file, shown_name(file), Shelves(file.parent), _harp(harp))


def build(
    path: str | PathLike[str],
    out: str | PathLike[str] = "handouts",
    *,
    parts: Sequence[str] | None = None,
    options: Options | None = None,
    harp: str | None = None,
) -> Handout:
    """Make the handout of a lesson in a folder of its name below `out`, whole or not at all.

    `parts` are some of `sheet`, `text`, `json`, `notes`, `page`, `cards` and `clips` (default:
    all; ValueError if there is no such part). What is current is not made again. Raises
    LessonError where the lesson has errors (an earlier handout stays) and OSError where a file
    cannot be written. `harp` as in `check`.
    """
    from pathlib import Path

    from formsheet.engine.build import build as built
    from formsheet.engine.event import Outcome
    from formsheet.engine.parts import PARTS
    from formsheet.engine.plan import plan
    from formsheet.engine.target import Target
    from formsheet.engine.tool import Tool
    from formsheet.sheet.options import Options

    if unknown := set(parts or ()) - set(PARTS):
        raise ValueError(f"unknown parts: {', '.join(sorted(unknown))}; known: {', '.join(PARTS)}")
    checked = check_file(path, harp=harp)
    if not checked.in_order:
        raise LessonError(checked.problems)
    file, tool = Path(path), Tool()
    folder = Path(out) / file.stem
    wanted = tuple(part for part in PARTS if parts is None or part in parts)
    target = Target(file, file.parent, folder, wanted, options or Options(), _harp(harp))
    files: tuple[Path, ...] = ()
    for event in built(plan([target], tool), tool):
        if event.outcome is Outcome.WRONG:  # it was changed after it was checked
            raise LessonError(event.problems)
        if event.outcome is Outcome.FAILED:
            raise OSError(event.reason)
        files = event.files
    return Handout(folder, files, checked.problems)


def shown(problem: Problem) -> str:
    """A problem as the terminal shows it: message, line, mark, hints."""
    from formsheet.problems.drawing import drawn

    return drawn(problem)


def _harp(name: str | None) -> Harp | None:
    from formsheet.problems.drawing import hint_texts
    from formsheet.problems.problem import Problem
    from formsheet.vocabulary.facts import HARP
    from formsheet.vocabulary.option import value_of

    if name is None:
        return None
    harp = value_of(HARP, name)
    if isinstance(harp, Problem):
        raise ValueError("; ".join([harp.message(), *hint_texts(harp)]))
    return harp
