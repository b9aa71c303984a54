"""What a build tells while it goes on: one event a target."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum
from pathlib import Path
from typing import TYPE_CHECKING

from formsheet.engine.target import Target

if TYPE_CHECKING:
    from formsheet.problems.problem import Problem


class Outcome(Enum):
    """How it went with a target."""

    BUILT = "built"
    CURRENT = "current"  # another build has made it meanwhile
    WRONG = "not built"  # the lesson has errors; what was made of it before stays
    FAILED = "failed"  # the disk is full, the folder may not be written to


@dataclass(frozen=True)
class Event:
    """A target that is done with."""

    target: Target
    outcome: Outcome
    problems: tuple[Problem, ...] = ()  # of a lesson that was examined
    files: tuple[Path, ...] = ()  # that were put in place
    reason: str = ""  # of a failure
    kept: Path | None = None  # the handout that was made before the lesson had errors
