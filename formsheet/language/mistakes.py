"""What a teacher most likely meant by a line or a word that cannot be read."""

from __future__ import annotations

import re
from collections.abc import Iterable

from lark import UnexpectedCharacters, UnexpectedInput, UnexpectedToken

from formsheet.language.expected import expected_words
from formsheet.language.lines import without_comment
from formsheet.language.tree import Mark
from formsheet.language.usage import USAGE
from formsheet.problems.problem import Problem, error
from formsheet.source import Span

# Patterns as text: `re` compiles each when it is first asked for, and most files have no mistakes.

_WORD_AT = r'"[^"\s]*|\S[^\s"]*'
_QUOTES = '"“”'

_NOTE = r"\d{1,20}o?[bd]['’′]*"  # bounded: or digits without end are gone over again
_LONGEST_NOTE = 30  # letters that are looked back for a note, the spaces after it included
_NOTE_LIKE = r"(?P<holes>\d+)(\D.*)?"
#: Holes with no breath after them, or with one letter that is none.
_BARE_HOLES = r"(\d+o?)[A-Za-z]?"
_COUNT = r"x\d+"
_VALUE_LIKE = r"(?i:[whqes][.\d]*)"
_TOGETHER = rf"(?P<value>[whqes]\.{{0,2}})?(?P<notes>({_NOTE}[,;/–-]?)+)"
_MUSIC_LIKE = rf"(?i:{_VALUE_LIKE}|x|{_TOGETHER}|o?[bd]\d+)"
_CHORD_LIKE = r"[b#♭♯]?[IViv]+\S*"

#: Marks as other hands write them, and as they are written here.
_OTHER_HANDS = {"X": "x", "—": "-", "−": "-", "_": "-", "~": "=", **{v: v.lower() for v in "WHQES"}}
#: Notes as other hands write them.
_NOTES_MEANT = (
    (r"(\d+)(o?[bd])('*)", r"\1\2\3"),  # 4D
    (r"(o?[bd])(\d+)('*)", r"\2\1\3"),  # d4
    (r"(\d+)('+)([bd])", r"\1\3\2"),  # 4'd
    (r"\+(\d+)", r"\1b"),
    (r"[-–−](\d+)('*)", r"\1d\2"),
    (r"(\d+o?[bd]'*)\((\w+)\)", r"\1{\2}"),  # 4d(wah)
)


def line_mistake(caught: UnexpectedInput, line: Span) -> Problem:
    """The problem of a line that does not follow the grammar."""
    if kept := without_comment(line.text):
        line = Span(line.source, line.start, line.start + len(kept))
    at = caught.pos_in_stream if isinstance(caught, UnexpectedCharacters) else None
    if isinstance(caught, UnexpectedToken) and caught.token.type not in ("$END", "_NL"):
        at = caught.token.start_pos
    if at is None or at >= line.end:
        end = Span(line.source, line.end, line.end)
        return error("line-unfinished", end, last=_last_word(line), **_wanted(caught, line))
    found = re.match(_WORD_AT, line.source.text[at : line.end])
    span = Span(line.source, at, at + (found.end() if found else 1))
    if span.text[0] in _QUOTES:
        return error("quote-open", Span(line.source, at, line.end), found=span.text)
    if span.text[0] in "!{" and line.source.text[at - 1] not in " \t":
        return error("note-order", span, found=span.text)
    return error("word-unexpected", span, found=span.text, **_wanted(caught, line))


def _wanted(caught: UnexpectedInput, line: Span) -> dict[str, object]:
    if isinstance(caught, UnexpectedToken):
        terminals = caught.accepts or caught.expected or ()
    else:
        terminals = getattr(caught, "allowed", None) or ()
    keyword = line.text.split()[0]
    usage = USAGE["|"] if looks_like_chord(keyword) else USAGE.get(keyword)
    return {"wanted": expected_words(terminals), "usage": usage}


def _last_word(line: Span) -> str:
    return line.text.split()[-1] if line.text.strip() else ""


def looks_like_music(word: str) -> bool:
    """Whether a word that is no mark is more likely a misspelt mark than a misspelt keyword."""
    return not word[0].isalpha() or bool(re.fullmatch(_MUSIC_LIKE, word))


def looks_like_chord(word: str) -> bool:
    """Whether a word is meant as the numeral of a chord."""
    return bool(re.fullmatch(_CHORD_LIKE, word))


def stray_mistakes(strays: Iterable[Mark]) -> list[Problem]:
    """The problems of words in music that are no marks; words in a row are told as one."""
    rows: list[list[Problem]] = []
    for stray in strays:
        problem = _stray_mistake(stray.span)
        if rows and _in_a_row(rows[-1][-1], problem):
            rows[-1].append(problem)
        else:
            rows.append([problem])
    return [row[0] if len(row) == 1 else _no_mark(row[0].span.to(row[-1].span)) for row in rows]


def _in_a_row(first: Problem, second: Problem) -> bool:
    plain = all(p.slug == "mark-unknown" and not p.facts["guess"] for p in (first, second))
    between = first.span.source.text[first.span.end : second.span.start]
    return plain and not between.strip(" \t")


def _stray_mistake(span: Span) -> Problem:
    """The problem of one word in music that is no mark."""
    text = span.text
    if text.count('"') % 2 or text[0] in "“”":
        return error("quote-open", span, found=text, bend=_bend_meant(span))
    if text[0] == "{" and "}" not in text:
        return error("brace-open", span, found=text, guess=f"{text}}}")
    if text[0] in "!{":
        return error("note-order", span, found=text)
    together = re.fullmatch(_TOGETHER, text)
    notes = re.findall(_NOTE, text)
    if together and (len(notes) > 1 or together["value"]):
        breaths = {note.rstrip("'’′")[-1] for note in notes}
        mixed = together["notes"] == text == "".join(notes) and len(breaths) > 1
        apart = " ".join([*filter(None, [together["value"]]), *notes])
        if mixed:
            return error("note-mixed", span, found=text, apart=apart)
        block = re.sub(r"[bd](?=\d)", "", text)
        chord = block if block[:-1].isdecimal() and len(breaths) == 1 else None
        return error("marks-together", span, found=text, apart=apart, chord=chord)
    if note := re.fullmatch(_NOTE_LIKE, text):
        if "0" in note["holes"].replace("10", ""):
            return error("note-hole", span, found=text)
        guess, bare = _note_meant(text), re.fullmatch(_BARE_HOLES, text)
        holes = bare[1] if bare and not guess else None
        return error("note-breath", span, found=text, holes=holes, guess=guess)
    if re.fullmatch(_COUNT, text):
        return error("count-stray", span, found=text)
    if re.fullmatch(_VALUE_LIKE, text):
        return error("value-unknown", span, found=text, guess=_OTHER_HANDS.get(text))
    return _no_mark(span)


def _no_mark(span: Span) -> Problem:
    text = span.text
    guess = _OTHER_HANDS.get(text) or _note_meant(text)
    words = text if not guess and re.search(r"[^\W\d_]{2}", text) else None
    return error("mark-unknown", span, found=text, guess=guess, words=words)


def _note_meant(text: str) -> str | None:
    plain = re.sub(r"[´`’′]", "'", text.lower().replace("”", "''")).rstrip(",.;:")
    pairs = ((re.fullmatch(pattern, plain), written) for pattern, written in _NOTES_MEANT)
    return next((found.expand(written) for found, written in pairs if found), None)


def _bend_meant(span: Span) -> str | None:
    """`3d''` where a quote stands for two ticks: `3d"`."""
    if span.text != '"':
        return None
    before = span.source.text[max(0, span.start - _LONGEST_NOTE) : span.start].split()[-1:]
    note = re.fullmatch(_NOTE, before[0]) if before else None
    return f"{note[0]}''" if note else None
