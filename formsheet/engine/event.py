"""The events that a build reports while it runs: one a target."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum
from pathlib import Path
from typing import TYPE_CHECKING

from formsheet.engine.target import Target

if TYPE_CHECKING:
    from formsheet.problems.problem import Problem


class Outcome(Enum):
    """The outcome of a target."""

    BUILT = "built"
    CURRENT = "current"  # another build has made it in the meantime
    WRONG = "not built"  # the lesson has errors; an earlier handout is kept
    FAILED = "failed"  # disk full, folder not writable, worker killed


@dataclass(frozen=True)
class Event:
    """A finished target."""

    target: Target
    outcome: Outcome
    problems: tuple[Problem, ...] = ()  # of the lesson
    files: tuple[Path, ...] = ()  # written by this build
    notices: tuple[str, ...] = ()  # what the teacher should know about these files
    reason: str = ""  # of a failure
    kept: Path | None = None  # an earlier handout, kept because the lesson has errors now
