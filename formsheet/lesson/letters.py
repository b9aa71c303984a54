"""Chords written as letters where numerals are expected: their numerals in the lesson's key."""

from __future__ import annotations

import re
from collections.abc import Sequence

from formsheet.lesson.model import Lesson
from formsheet.music import pitch
from formsheet.music.chord import QUALITY_SPELLINGS, parse_chord
from formsheet.problems import kinds
from formsheet.problems.problem import Problem
from formsheet.source import Span

_NUMERALS = ("I", "bII", "II", "bIII", "III", "IV", "bV", "V", "bVI", "VI", "bVII", "VII")
_QUALITY = f"(?:{'|'.join(map(re.escape, QUALITY_SPELLINGS))})?"
_LETTER = rf"[A-G][b#♭♯]?(?:min|m(?!aj)|-)?{_QUALITY}(?![^\s,|])"
_EVERY = r"every\s"
_MINOR = r"(?P<root>[A-G][b#]?)(?P<minor>min|m(?!aj)|-)?(?P<quality>.*)"


def with_numerals(problems: Sequence[Problem], lesson: Lesson) -> list[Problem]:
    """The problems; those about a chord in letters carry its numeral in the lesson's key.

    Chords that follow it on its line are reported with it.
    """
    facts = lesson.facts
    if not facts.known("harp", "position") or "harp" not in facts.places:
        return list(problems)
    tonic = lesson.key.tonic
    return [_told(each, tonic) if _wants_a_chord(each) else each for each in problems]


def _wants_a_chord(problem: Problem) -> bool:
    """Whether a problem is about a word where a chord was expected."""
    if isinstance(problem, (kinds.WordUnexpected, kinds.LineUnfinished)):
        return problem.chord_expected
    return isinstance(problem, kinds.ChordUnknown)


def _told(problem: Problem, tonic: str) -> Problem:
    span = _all_of_them(problem.span)
    words = re.split(rf"({_LETTER})", span.text)
    numerals = [_numeral(word, tonic) for word in words[1::2]]
    if not numerals or not all(numerals):
        return problem
    words[1::2] = [each or "" for each in numerals]
    numeral_text = "".join(words)
    if isinstance(problem, kinds.ChordUnknown):
        return problem.replaced(span=span, numerals=numeral_text, key=tonic)
    return problem.replaced(span=span, found=span.text, numerals=numeral_text, key=tonic)


def _all_of_them(span: Span) -> Span:
    """The span from a chord in letters to the last one that follows it on its line."""
    text = span.source.text
    end = text.find("\n", span.start)
    line = text[span.start : end if end >= 0 else None]
    begun = text[text.rfind("\n", 0, span.start) + 1 : span.start]
    # After `every` a word with nothing but a space before it is more likely a lick.
    between = r"[ \t]*[,|][ \t]*" if re.match(_EVERY, begun.lstrip()) else r"[ \t]*[,|]?[ \t]*"
    found = re.match(rf"{_LETTER}({between}{_LETTER})*", line)
    return Span(span.source, span.start, span.start + found.end()) if found else span


def _numeral(word: str, tonic: str) -> str | None:
    """The numeral of a chord in letters; None if the chord is unknown."""
    found = re.fullmatch(_MINOR, pitch.plain_signs(word))
    if not found:
        return None
    numeral = _NUMERALS[(pitch.pitch_class(found["root"]) - pitch.pitch_class(tonic)) % 12]
    roman = numeral.lstrip("b")
    sign = numeral.removesuffix(roman)
    try:
        chord = parse_chord(sign + (roman.lower() if found["minor"] else roman) + found["quality"])
    except ValueError:
        return None
    return str(chord)
