"""A problem as data: one class a kind, with its code, severity, typed fields and words.

The kinds are in `formsheet/problems/kinds/`. The constructor of a kind takes the span, other
places that belong to it, and its fields by name; the type checker knows them all.
"""

# Annotations are no texts here: as texts, those of named tuples are compiled at every start.
from abc import abstractmethod
from collections.abc import Iterable, Iterator, Sequence
from enum import IntEnum
from typing import Any, NamedTuple, Self, dataclass_transform

from formsheet.source import Span

#: Problems of one lesson that are shown: more than anybody mends before the next look. A file
#: that is no lesson at all would have one in every word.
MOST_SHOWN = 200


class Severity(IntEnum):
    """How grave a problem is. Only errors keep a handout from being made."""

    REMARK = 0
    WARNING = 1
    ERROR = 2

    @property
    def word(self) -> str:
        """The severity as it is printed."""
        return self.name.lower()


REMARK, WARNING, ERROR = Severity


class Related(NamedTuple):
    """Another place that belongs to a problem, with the words to put there."""

    span: Span
    label: str


class Edit(NamedTuple):
    """A change of the text: `text` in place of the span; an empty span is a place to insert at.

    `certain`: it is the only change that can be meant, so that it may be made without a question.
    """

    span: Span
    text: str
    certain: bool = True


class Hint(NamedTuple):
    """What the teacher can do, in words; with the edit itself where there is exactly one."""

    text: str
    edit: Edit | None = None


class Sample(NamedTuple):
    """A sample that is more than a piece of a lesson, or less.

    The text is completed to a whole lesson if the name ends in `.lesson` and it is not bytes.
    """

    text: str | bytes | None  # of the file that is checked; None: there is no such file
    name: str = "sample.lesson"  # of that file
    beside: tuple[tuple[str, str], ...] = ()  # other files of the folder: name and text
    without: tuple[str, ...] = ()  # blocks of the frame to leave out: `title`, `lick creek`
    locked: bool = False  # the file may not be read


def _positional(*, kw_only: bool = False, default: Any = ...) -> Any:
    """A field that is given by its place; seen by the type checker alone."""
    return default


@dataclass_transform(frozen_default=True, kw_only_default=True, field_specifiers=(_positional,))
class _Fields:
    """Subclasses have typed fields and a constructor that takes them by name (PEP 681).

    Plain classes: a data class costs ten times as much to define, and there are 150 kinds.
    """


class Problem(_Fields):
    """One problem of a lesson. A kind is a subclass; its docstring says what the problem means.

    A kind has `code` (its name for good), `severity`, `bad` (a sample that has the problem),
    `good` (the sample without it), `message` and, as a rule, `hints`. Samples are pieces of a
    lesson, completed by `formsheet/problems/samples.py`.
    """

    span: Span = _positional(kw_only=False)
    related: tuple[Related, ...] = _positional(kw_only=False, default=())

    def __init__(self, span: Span, related: tuple[Related, ...] = (), **fields: object) -> None:
        self.__dict__.update(fields, span=span, related=related)

    @property
    @abstractmethod
    def code(self) -> str:
        """The name of the kind, printed with each problem: `bend-too-deep`."""

    @property
    @abstractmethod
    def severity(self) -> Severity:
        """How grave problems of this kind are."""

    @property
    @abstractmethod
    def bad(self) -> str | Sample:
        """A piece of a lesson that has the problem, and as far as possible no other."""

    @property
    @abstractmethod
    def good(self) -> str | Sample:
        """The same piece without the problem."""

    @abstractmethod
    def message(self) -> str:
        """What is wrong, in the words of the trade."""

    def hints(self) -> Iterator[Hint]:
        """What to do about it, the likeliest first."""
        return iter(())

    def to_player(self) -> str:
        """What a player should know of it, as a sentence after "Bar 9: "; "" as a rule.

        It goes on the sheet, where nobody can change the tune any more.
        """
        return ""

    @property
    def bars_heard(self) -> Sequence[int]:
        """Numbers of the bars in which it is heard; none where it belongs to no bar."""
        bars = self.__dict__.get("bars")
        return bars if isinstance(bars, (list, tuple)) else ()

    @property
    def weight(self) -> float:
        """How much it matters among problems of its severity; 1 as a rule."""
        return 1.0

    @property
    def explains_others(self) -> bool:
        """Whether it is the cause of many problems, such as a wrong position."""
        return False

    def replaced(self, **fields: object) -> Self:
        """The same problem with other values for some fields."""
        return type(self)(**(self.__dict__ | fields))

    @property
    def fields(self) -> dict[str, Any]:
        """The fields of the kind by name, without the places."""
        return {n: v for n, v in self.__dict__.items() if n not in ("span", "related")}

    def __eq__(self, other: object) -> bool:
        """Whether the other is of the same kind, at the same place, with the same fields."""
        return type(other) is type(self) and self.__dict__ == other.__dict__

    def __hash__(self) -> int:
        """By kind and place."""
        return hash((type(self), self.span.start, self.span.end))

    def __repr__(self) -> str:
        """The kind, the place and the fields, for a failing test."""
        fields = "".join(f", {name}={value!r}" for name, value in self.fields.items())
        return f"{type(self).__name__}({':'.join(map(str, self.span.place))}{fields})"


def in_order(problems: Iterable[Problem]) -> list[Problem]:
    """The problems sorted by file and place, each one once."""
    alike: dict[tuple[object, ...], list[Problem]] = {}
    for problem in problems:
        span = problem.span
        key = (problem.code, span.source.name, span.start, span.end)
        known = alike.setdefault(key, [])
        if all(problem.fields != other.fields for other in known):
            known.append(problem)
    unique = [problem for known in alike.values() for problem in known]
    return sorted(unique, key=lambda p: (p.span.place, -p.severity))


def most_shown(problems: Iterable[Problem]) -> list[Problem]:
    """The problems in order; of too many the gravest, and how many are left."""
    ordered = in_order(problems)
    if len(ordered) <= MOST_SHOWN:
        return ordered
    from formsheet.problems.kinds import ProblemsLeft

    gravest = sorted(ordered, key=lambda problem: -problem.severity)
    left = gravest[MOST_SHOWN:]
    more = ProblemsLeft(left[0].span, count=len(left), gravest=left[0].severity)
    return in_order([*gravest[:MOST_SHOWN], more])


def has_errors(problems: Iterable[Problem]) -> bool:
    """Whether any of the problems is an error."""
    return any(problem.severity is ERROR for problem in problems)
