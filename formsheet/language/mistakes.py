"""What a teacher most likely meant by a line or a word that cannot be read."""

from __future__ import annotations

import re
from collections.abc import Iterable

from lark import UnexpectedCharacters, UnexpectedInput, UnexpectedToken

from formsheet.language.expected import expected_words
from formsheet.language.lines import without_comment
from formsheet.language.tree import Mark
from formsheet.problems.problem import Problem, error
from formsheet.source import Span

_WORD_AT = re.compile(r'"[^"\s]*|\S[^\s"]*')
_QUOTES = '"“”'

_NOTE = re.compile(r"\d{1,20}o?[bd]['’′]*")  # bounded: or digits without end are gone over again
_NOTE_LIKE = re.compile(r"(?P<holes>\d+)(\D.*)?")
#: Holes with no breath after them, or with one letter that is none.
_BARE_HOLES = re.compile(r"(\d+o?)[A-Za-z]?")
_COUNT = re.compile(r"x\d+")
_VALUE_LIKE = re.compile(r"[whqes][.\d]*", re.IGNORECASE)
_TOGETHER = re.compile(rf"(?P<value>[whqes]\.{{0,2}})?(?P<notes>({_NOTE.pattern}[,;/–-]?)+)")
_MUSIC_LIKE = re.compile(rf"{_VALUE_LIKE.pattern}|x|{_TOGETHER.pattern}|o?[bd]\d+", re.IGNORECASE)
CHORD_LIKE = re.compile(r"[b#♭♯]?[IViv]+\S*")

#: Marks as other hands write them, and as they are written here.
_OTHER_HANDS = {"X": "x", "—": "-", "−": "-", "_": "-", "~": "=", **{v: v.lower() for v in "WHQES"}}
#: Notes as other hands write them.
_NOTES_MEANT = (
    (re.compile(r"(\d+)(o?[bd])('*)"), r"\1\2\3"),  # 4D
    (re.compile(r"(o?[bd])(\d+)('*)"), r"\2\1\3"),  # d4
    (re.compile(r"(\d+)('+)([bd])"), r"\1\3\2"),  # 4'd
    (re.compile(r"\+(\d+)"), r"\1b"),
    (re.compile(r"[-–−](\d+)('*)"), r"\1d\2"),
    (re.compile(r"(\d+o?[bd]'*)\((\w+)\)"), r"\1{\2}"),  # 4d(wah)
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
    found = _WORD_AT.match(line.source.text, at)
    span = Span(line.source, at, min(found.end() if found else at + 1, line.end))
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
    usage = USAGE["|"] if CHORD_LIKE.fullmatch(keyword) else USAGE.get(keyword)
    return {"wanted": expected_words(terminals), "usage": usage}


#: How each line goes, by its first word: the hint where one cannot be read.
USAGE = {
    "title": "title Night Train Home",
    "teacher": "teacher The Tuesday Class",
    "rights": "rights Copy it for your own students",
    "date": "date May 2026",
    "say": "say Tap your foot on all four beats.",
    "harp": "harp C",
    "tuning": "tuning natural minor",
    "position": "position 2nd",
    "form": "form 12-bar standard ending I",
    "meter": "meter 12/8",
    "tempo": "tempo 104",
    "learn": "learn 60",
    "feel": "feel swing",
    "count-in": "count-in 2",
    "level": "level beginner",
    "use": "use home, walk as stroll from turnarounds",
    "blow": "blow C E G C E G C E G C",
    "draw": "draw D G B D F A B D F A",
    "rhythm": "rhythm trot q x e x x h x",
    "lick": 'lick porch "Front porch" on I, IV',
    "turnaround": "turnaround home on I | V",
    "pickup": "pickup e 1d 2b",
    "tip": "tip Let the 2 draw ring.",
    "play": 'play "Second chorus" x2',
    "every": "every I porch x2",
    "bars": "bars 1-4 porch x4",
    "bar": "bar 9 gate",
    "last": "last time bars 11-12 home",
    "ending": "ending I",
    "|": "| I7 | IV7 | I7 IV7 | V7 |",
}


def _last_word(line: Span) -> str:
    return line.text.split()[-1] if line.text.strip() else ""


def looks_like_music(word: str) -> bool:
    """Whether a word that is no mark is more likely a misspelt mark than a misspelt keyword."""
    return not word[0].isalpha() or bool(_MUSIC_LIKE.fullmatch(word))


def stray_mistakes(strays: Iterable[Mark]) -> list[Problem]:
    """The problems of words in music that are no marks; words in a row are told as one."""
    problems: list[Problem] = []
    for stray in strays:
        problem = _stray_mistake(stray.span)
        if problems and _in_a_row(problems[-1], problem):
            problem = _no_mark(problems.pop().span.to(problem.span))
        problems.append(problem)
    return problems


def _in_a_row(first: Problem, second: Problem) -> bool:
    between = first.span.source.text[first.span.end : second.span.start]
    plain = all(p.slug == "mark-unknown" and not p.facts["guess"] for p in (first, second))
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
    together = _TOGETHER.fullmatch(text)
    notes = _NOTE.findall(text)
    if together and (len(notes) > 1 or together["value"]):
        breaths = {note.rstrip("'’′")[-1] for note in notes}
        mixed = together["notes"] == text == "".join(notes) and len(breaths) > 1
        apart = " ".join([*filter(None, [together["value"]]), *notes])
        if mixed:
            return error("note-mixed", span, found=text, apart=apart)
        block = re.sub(r"[bd](?=\d)", "", text)
        chord = block if block[:-1].isdecimal() and len(breaths) == 1 else None
        return error("marks-together", span, found=text, apart=apart, chord=chord)
    if note := _NOTE_LIKE.fullmatch(text):
        if "0" in note["holes"].replace("10", ""):
            return error("note-hole", span, found=text)
        guess, bare = _note_meant(text), _BARE_HOLES.fullmatch(text)
        holes = bare[1] if bare and not guess else None
        return error("note-breath", span, found=text, holes=holes, guess=guess)
    if _COUNT.fullmatch(text):
        return error("count-stray", span, found=text)
    if _VALUE_LIKE.fullmatch(text):
        return error("value-unknown", span, found=text, guess=_OTHER_HANDS.get(text))
    return _no_mark(span)


def _no_mark(span: Span) -> Problem:
    text = span.text
    guess = _OTHER_HANDS.get(text) or _note_meant(text)
    words = text if not guess and re.search(r"[^\W\d_]{2}", text) else None
    return error("mark-unknown", span, found=text, guess=guess, words=words)


def _note_meant(text: str) -> str | None:
    plain = re.sub(r"[´`’′]", "'", text.lower().replace("”", "''")).rstrip(",.;:")
    pairs = ((pattern.fullmatch(plain), written) for pattern, written in _NOTES_MEANT)
    return next((found.expand(written) for found, written in pairs if found), None)


def _bend_meant(span: Span) -> str | None:
    """`3d''` where a quote stands for two ticks: `3d"`."""
    before = span.source.text[: span.start].split()[-1:]
    note = before and span.text == '"' and _NOTE.fullmatch(before[0])
    return f"{note[0]}''" if note else None
