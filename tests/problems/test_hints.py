"""A hint is an action: what it gives to write is written, and the problem is gone.

What a hint gives stands in backquotes. Each line of `PASTED` names a kind, which of its words in
backquotes is meant (counted from 0 over all its hints), and where a teacher would put it.
"""

from __future__ import annotations

import re
from collections.abc import Callable

import pytest

from formsheet.language.parse import parse
from formsheet.problems.drawing import hint_texts
from formsheet.problems.problem import Edit, Problem, Severity
from formsheet.problems.registry import KINDS
from formsheet.source import Source, Span
from formsheet.vocabulary.lines import USAGE
from tests.problems.golden import problems_of, problems_with, text_of

Way = Callable[[str, Span, str], str]


def in_place(text: str, span: Span, written: str) -> str:
    """Instead of what is marked."""
    return text[: span.start] + written + text[span.end :]


def before(text: str, span: Span, written: str) -> str:
    return in_place(text, Span(span.source, span.start, span.start), f"{written} ")


def after(text: str, span: Span, written: str) -> str:
    return in_place(text, Span(span.source, span.end, span.end), f" {written}")


def in_braces(text: str, span: Span, written: str) -> str:
    return in_place(text, span, f"{{{written}}}")


def with_keyword(text: str, span: Span, written: str) -> str:
    """Instead of what is marked and the word before it."""
    start = len(text[: span.start].rstrip().rpartition(" ")[0]) + 1
    return in_place(text, Span(span.source, start, span.end), written)


def _line(text: str, span: Span) -> tuple[list[str], int]:
    return text.splitlines(keepends=True), span.line - 1


def instead_of_line(text: str, span: Span, written: str) -> str:
    lines, at = _line(text, span)
    lines[at] = f"{written}\n"
    return "".join(lines)


def rest_of_line(text: str, span: Span, written: str) -> str:
    """Instead of what is marked and all that follows it on the line."""
    end = text.index("\n", span.start)
    return in_place(text, Span(span.source, span.start, end), written)


def end_of_line(text: str, span: Span, written: str) -> str:
    return instead_of_line(text, span, f"{text.splitlines()[span.line - 1]} {written}")


def whole_word(text: str, span: Span, written: str) -> str:
    """Instead of the word that what is marked belongs to."""
    start = text.rindex(" ", 0, span.start) + 1
    return in_place(text, Span(span.source, start, span.end), written)


def line_above(text: str, span: Span, written: str) -> str:
    lines, at = _line(text, span)
    return "".join([*lines[:at], f"{written}\n", *lines[at:]])


def line_below(text: str, span: Span, written: str) -> str:
    lines, at = _line(text, span)
    return "".join([*lines[: at + 1], f"{written}\n", *lines[at + 1 :]])


def at_the_end(text: str, span: Span, written: str) -> str:
    return f"{text}  {written}\n"


def in_first_line_of_creek(text: str, span: Span, written: str) -> str:
    return re.sub(r"(?<=lick creek )on \S+", written, text)


def in_first_line_of_gate(text: str, span: Span, written: str) -> str:
    return re.sub(r"(?<=lick gate )on \S+", written, text)


def as_the_feel(text: str, span: Span, written: str) -> str:
    return re.sub(r"feel .*", written, text)


PASTED: list[tuple[str, int, Way]] = [
    ("link-words", 0, in_place),
    ("link-words", 1, instead_of_line),
    ("link-address", 0, in_place),
    ("language-unknown", 0, instead_of_line),
    ("word-unknown", 0, in_place),
    ("brace-open", 0, in_place),
    ("title-missing", 0, line_above),
    ("harp-missing", 0, line_above),
    ("harp-missing", 1, line_above),
    ("harp-missing", 2, line_above),
    ("form-missing", 0, line_above),
    ("tempo-missing", 0, line_above),
    ("harp-register", 0, in_place),
    ("harp-register", 1, rest_of_line),
    ("harp-register", 2, rest_of_line),
    ("harp-register", 3, rest_of_line),
    ("position-wrong", 0, instead_of_line),
    ("position-unknown", 0, in_place),
    ("position-unknown", 2, in_place),
    ("position-unknown", 4, in_place),
    ("harp-unknown", 0, in_place),
    ("meter-unknown", 0, in_place),
    ("tempo-unknown", 0, instead_of_line),
    ("feel-unknown", 0, in_place),
    ("feel-unknown", 2, in_place),
    ("feel-ratio", 0, in_place),
    ("feel-ratio", 1, in_place),
    ("feel-ratio", 2, in_place),
    ("form-unknown", 0, in_place),
    ("form-unknown", 2, in_place),
    ("form-unknown", 9, line_below),
    ("form-empty", 0, instead_of_line),
    ("form-empty", 1, line_below),
    ("bar-chords", 1, in_place),
    ("chord-unknown", 0, in_place),
    ("tuning-unknown", 0, in_place),
    ("tuning-unknown", 1, in_place),
    ("tuning-holes", 0, instead_of_line),
    ("tuning-note", 0, in_place),
    ("tuning-note", 1, in_place),
    ("tuning-note", 2, in_place),
    ("tuning-names", 0, in_place),
    ("tuning-range", 0, in_place),
    ("note-breath", 0, in_place),
    ("note-breath", 1, in_place),
    ("note-capital", 0, in_place),
    ("note-quote", 0, in_place),
    ("ticks-apart", 0, in_place),
    ("note-accidental", 0, in_place),
    ("note-accidental", 1, in_place),
    ("holes-parted", 0, in_place),
    ("brackets-round", 0, in_place),
    ("note-tail", 0, in_place),
    ("comment-joined", 0, in_place),
    ("name-missing", 0, in_place),
    ("note-mixed", 0, in_place),
    ("marks-together", 0, in_place),
    ("marks-together", 1, in_place),
    ("note-hole", 0, in_place),
    ("note-order", 0, whole_word),
    ("value-unknown", 5, in_place),
    ("mark-unknown", 0, in_place),
    ("technique-unknown", 0, in_braces),
    ("technique-unknown", 2, in_braces),
    ("triplet-broken", 0, in_place),
    ("value-missing", 0, before),
    ("value-missing", 1, before),
    ("hold-nothing", 0, in_place),
    ("bracket-not-closed", 0, end_of_line),
    ("bracket-no-count", 0, in_place),
    ("bracket-times", 0, in_place),
    ("bar-too-long", 0, before),
    ("bar-too-short", 0, after),
    ("lick-without-music", 0, line_below),
    ("rhythm-without-music", 1, end_of_line),
    ("rhythm-note", 0, in_place),
    ("rhythm-unknown", 0, in_place),
    ("rhythm-unknown", 3, line_above),
    ("shelf-unknown", 0, in_place),
    ("lick-not-on-shelf", 0, in_place),
    ("lick-unknown", 0, in_place),
    ("play-missing", 0, line_below),
    ("play-forgotten", 0, line_above),
    ("count-range", 0, in_place),
    ("bars-range", 0, with_keyword),
    ("bar-without-lick", 1, at_the_end),
    ("bar-without-lick", 2, at_the_end),
    ("every-nowhere", 0, in_place),
    ("count-mismatch", 0, in_place),
    ("lick-wrong-chord", 0, in_place),
    ("lick-wrong-chord", 1, in_first_line_of_creek),
    ("bar-line-missing", 0, with_keyword),
    ("third-unlike", 0, with_keyword),
    ("lick-wrong-last", 0, at_the_end),
    ("lick-wrong-last", 1, in_first_line_of_gate),
    ("holes-order", 0, in_place),
    ("holes-gap", 0, in_place),
    ("holes-gap", 1, in_place),
    ("split-too-wide", 0, in_place),
    ("block-too-wide", 0, in_place),
    ("bend-on-chord", 0, in_place),
    ("bend-too-deep", 0, in_place),
    ("bend-missing", 0, in_place),
    ("bend-missing", 1, in_place),
    ("overbend-bent", 0, in_place),
    ("overbend-missing", 0, in_place),
    ("note-clash", 0, in_place),
    ("note-clash", 1, in_place),
    ("note-clash", 2, in_place),
    ("note-clash", 3, in_place),
    ("flat-five-stays", 0, in_place),
    ("key-note-over-five", 0, in_place),
    ("key-note-over-five", 1, in_place),
    ("key-note-over-five", 2, in_place),
    ("swing-short-note", 0, as_the_feel),
    ("swing-short-note", 1, as_the_feel),
    ("lick-unused", 0, at_the_end),
    ("title-for-name", 0, in_place),
    ("lick-in-play", 0, in_place),
    ("name-of-words", 0, in_place),
    ("value-fraction", 0, in_place),
    ("note-held", 0, in_place),
    ("notes-at-once", 0, in_place),
    ("pickup-uncounted", 0, in_place),
    ("value-behind", 0, in_place),
    ("group-round", 0, in_place),
    ("repeat-signs", 0, in_place),
    ("repeat-signs", 2, in_place),
]

#: Kinds whose hint, once followed, lets the next thing to say come to light, and what that is.
NEXT = {
    ("marks-together", 1): "bar-too-short",
    ("value-missing", 1): "bar-too-short",
    ("bar-too-long", 0): "bar-too-short",
    ("rhythm-unknown", 3): "rhythm-count",
    ("play-missing", 0): "bar-without-lick",
    ("count-range", 0): "count-mismatch",
    ("every-nowhere", 0): "bar-twice",
}


def in_backquotes(problem: Problem) -> list[str]:
    """What the hints of a problem give to write."""
    return re.findall(r"`([^`]*)`", " ".join(hint_texts(problem)))


def errors_left(slug: str, text: str) -> set[str]:
    left = problems_with(slug, text)
    return {problem.code for problem in left if problem.severity is Severity.ERROR}


@pytest.mark.parametrize(("slug", "number", "way"), PASTED)
def test_what_a_hint_gives_to_write_helps(slug: str, number: int, way: Way) -> None:
    (problem,) = problems_of(slug)
    text = way(text_of(slug), problem.span, in_backquotes(problem)[number])
    assert slug not in {left.code for left in problems_with(slug, text)}


@pytest.mark.parametrize(("slug", "number", "way"), PASTED)
def test_it_leaves_no_error(slug: str, number: int, way: Way) -> None:
    (problem,) = problems_of(slug)
    text = way(text_of(slug), problem.span, in_backquotes(problem)[number])
    following = NEXT.get((slug, number))
    assert errors_left(slug, text) == ({following} if following else set())


#: The same for edits, by the number of the hint.
NEXT_AFTER_EDIT = {
    ("marks-together", 1): "bar-too-short",
    ("pickup-bar-line", 0): "pickup-no-room",
    ("bar-too-long", 0): "bar-too-short",
    ("value-carried-round", 0): "bar-too-long",
    ("notes-at-once", 1): "bar-too-long",
}

EDITED = [
    (code, number)
    for code in KINDS
    for (problem,) in [problems_of(code)]
    for number, hint in enumerate(problem.hints())
    if hint.edit
]


def applied(edit: Edit, text: str) -> str:
    assert edit.span.source.text == text
    return text[: edit.span.start] + edit.text + text[edit.span.end :]


@pytest.mark.parametrize(("code", "number"), EDITED)
def test_edit_of_a_hint_mends(code: str, number: int) -> None:
    """Applied, it removes its problem and adds none."""
    (problem,) = problems_of(code)
    edit = list(problem.hints())[number].edit
    assert edit
    text = applied(edit, text_of(code))
    left = {p.code for p in problems_with(code, text) if p.severity >= problem.severity}
    following = NEXT_AFTER_EDIT.get((code, number))
    assert left == ({following} if following else set())


def test_edits_are_many() -> None:
    assert len(EDITED) >= 65


#: Kinds whose hints ask for something that cannot be pasted: a line moved or taken out, a
#: choice of the teacher's, a form of writing shown by an example.
NOT_PASTED = set(KINDS) - {slug for slug, _, _ in PASTED}


def test_kinds_that_say_write_are_pasted() -> None:
    """A hint that begins with "write" and names one thing is tried above."""
    says_write = re.compile(r"write `[^`]*`$")
    hints = {slug: hint_texts(problems_of(slug)[0]) for slug in NOT_PASTED}
    assert not [slug for slug, said in hints.items() if any(map(says_write.match, said))]


@pytest.mark.parametrize("line", USAGE.values())
def test_line_shown_as_an_example_can_be_read(line: str) -> None:
    kinds = {problem.code for problem in parse(Source("a.lesson", line))[1]}
    assert kinds <= {"line-misplaced", "play-forgotten", "chords-misplaced"}
