"""What a teacher most likely meant by a word in music that is no mark."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from functools import lru_cache

from formsheet.language.spelling import missing_hole, note_slip
from formsheet.language.tree import Mark
from formsheet.problems import kinds
from formsheet.problems.problem import Edit, Problem
from formsheet.source import Span
from formsheet.vocabulary.quotes import DOUBLE
from formsheet.vocabulary.techniques import TECHNIQUES

# Patterns as text: `re` compiles each when it is first asked for, and most files have no mistakes.

_NOTE = r"\d{1,20}o?[bd]['’′]*"  # bounded: or digits without end are gone over again
#: What may follow a note, in any order.
_SIGN_BEHIND = r'!|\{[^\s{}"]*\}|"[^"\s]*"'
_SIGNS_BEHIND = rf"(?P<note>{_NOTE})(?P<signs>({_SIGN_BEHIND})*)"
_LONGEST_LICK = 2000  # letters above repeat signs in which the name of their lick is looked for
_LONGEST_ROUND = 300  # letters that are looked at for notes in round brackets, or behind a word
_LONGEST_NOTE = 30  # letters that are looked back for a note, the spaces after it included
_NOTE_LIKE = r"(?P<holes>\d+)(\D.*)?"
#: Holes with no breath after them, or with one letter that is none.
_BARE_HOLES = r"(\d+o?)[A-Za-z]?"
#: A mark, and what follows it from a `#` on.
_JOINED = (
    rf"(?P<mark>{_NOTE}!?(\{{[^\s{{}}\"]*\}})?|[whqes](\.\.?|3)?|swing|straight|[-–=])#(?P<rest>.*)"
)
_TICKS = r"['’′´`]+"
_COUNT = r"x\d+"
_VALUE_LIKE = r"(?i:[whqes][.\d]*)"
_TOGETHER = rf"(?P<value>[whqes]\.{{0,2}})?(?P<notes>({_NOTE}[,;/–-]?)+)"
#: Marks run together, each value before what it is for: `qx`, `-x`, `e4b5b`, `xx`.
_MARK = rf"(?:[whqes](?:\.\.?|3)?(?=[x=\d-])|{_NOTE}|[x=-])"
_RUN = rf"{_MARK}{{2,40}}"
_MUSIC_LIKE = rf"(?i:{_VALUE_LIKE}|x|{_TOGETHER}|{_RUN}|o?[bd]\d+)"
#: Whole notes to sixteenths as fractions, dotted ones too.
_FRACTION = r"(?P<above>\d+)/(?P<below>\d+)(?P<dots>\.{0,2})|[¼½⅛]"
_FRACTIONS = {"1/1": "w", "1/2": "h", "1/4": "q", "1/8": "e", "1/16": "s", "3/4": "h.", "3/8": "q.",
              "3/16": "e.", "3/32": "s.", "½": "h", "¼": "q", "⅛": "e"}  # fmt: skip
#: A sign for a hold behind its note.
_HELD = rf"(?P<note>{_NOTE})(?P<hold>[~=_]+)"
_AT_ONCE = rf"{_NOTE}(?:[+&]{_NOTE}){{1,9}}"
_IN_ROUND = rf"\([ \t]*(?P<notes>{_NOTE}(?:[ \t,+]+{_NOTE}){{0,9}})[ \t]*\)"
#: A group in round brackets with its count, and the holes of a chord in such.
_GROUP_ROUND = r"\((?P<marks>[^()\[\]|#\n]{1,200})\)[ \t]*(?P<count>x\d{1,4})(?![^\s|\[\]])"
_HOLES_ROUND = r"\([ \t]*(?P<holes>\d{1,2}(?:[ \t,+/-]*\d{1,2}){0,9})[ \t]*\)(?P<breath>[bd])(?!\w)"
_IN_GROUP = rf"[whqes](\.\.?|3)?|[-=x]|{_NOTE}"
#: A note with its value behind it: `4bq`, `3d'q.`
_VALUE_BEHIND = rf"(?P<note>{_NOTE})(?P<value>[whqes](?:\.\.?|3)?)"
#: A 3 before a value, where it was meant behind: `3e` for triplets of eighths.
_TRIPLET = r"3(?P<value>[hqes])"
_DOTS = r"\.{1,2}"
_DOTTED = r"(?<!\S)[whqes](?=[ \t]+$)"
_NOTE_AND_MORE = r"(?P<note>\d{1,20}o?[bd]['’′]*)(?P<tail>[^\W\d_]+)"
#: A tie: what follows a note on the way to the same note.
_TIED = r"(?P<between>[ \t]*(?:\|\s*)?(?:[whqes](?:\.\.?|3)?[ \t]+)?)"
#: Letters for a breath in other languages. Common practice, no source.
_FOREIGN = {"z": ("d", "draw (ziehen)"), "a": ("d", "draw (aspirar, aspirer)"),
            "s": ("b", "blow (soplar, souffler)")}  # fmt: skip
_LAST_LICK = r"(?m)^[^\S\n]*(lick|turnaround)[^\S\n]+([^\W\d_][\w'’-]*)[^\n]*"

_CHORD_LIKE = r"[b#♭♯]?[IViv]+\S*"

#: Marks as other hands write them, and as they are written here.
_OTHER_HANDS = {
    "X": "x",
    "—": "-",
    "−": "-",
    "_": "-",
    "~": "=",
    "/": "|",
    "\\": "|",
    "¦": "|",
    "│": "|",
    **{v: v.lower() for v in "WHQES"},
}
#: Notes as other hands write them.
_NOTES_MEANT = (
    (r"(o?[bd])(\d+)('*)", r"\2\1\3"),  # d4
    (r"\+(\d+)", r"\1b"),
    (r"[-–−](\d+)('*)", r"\1d\2"),
    (r"(\d+)[↑⇑⬆▲△]('*)", r"\1b\2"),
    (r"(\d+)[↓⇓⬇▼▽]('*)", r"\1d\2"),
    (r"[↑⇑⬆▲△](\d+)('*)", r"\1b\2"),
    (r"[↓⇓⬇▼▽](\d+)('*)", r"\1d\2"),
)


def looks_like_music(word: str) -> bool:
    """Whether a word that is no mark is more likely a misspelt mark than a misspelt keyword."""
    word = word.partition("#")[0] or word
    return not word[0].isalpha() or bool(re.fullmatch(_MUSIC_LIKE, word))


def looks_like_chord(word: str) -> bool:
    """Whether a word is meant as the numeral of a chord."""
    return bool(re.fullmatch(_CHORD_LIKE, word))


def stray_mistakes(strays: Iterable[Mark]) -> list[Problem]:
    """The problems of words in music that are no marks; words in a row are told as one."""
    rows: list[list[Problem]] = []
    for stray in strays:
        if rows and stray.span.end <= rows[-1][-1].span.end:
            continue  # inside round brackets or repeat signs that are reported
        problem = _repeated(stray.span) or _in_round(stray.span) or _stray_mistake(stray.span)
        if rows and _in_a_row(rows[-1][-1], problem):
            rows[-1].append(problem)
        elif not (rows and _in_remark(rows[-1][0], problem)):
            rows.append([problem])
    return [row[0] if len(row) == 1 else _as_one(row) for row in rows]


def _as_one(row: Sequence[Problem]) -> Problem:
    """Words in a row, all no marks, all of marks run together or all with a value behind."""
    span = row[0].span.to(row[-1].span)
    if isinstance(row[0], kinds.ValueBehind):
        return _values_first(span)
    run = [problem.apart for problem in row if isinstance(problem, kinds.MarksTogether)]
    return (
        kinds.MarksTogether(span, found=span.text, apart=" ".join(run), chord=None)
        if run
        else (_no_mark(span))
    )


def _plain(problem: Problem) -> bool:
    return isinstance(problem, kinds.MarkUnknown) and not problem.guess


def _in_a_row(first: Problem, second: Problem) -> bool:
    between = first.span.source.text[first.span.end : second.span.start]
    alike = (
        (_plain(first) and _plain(second))
        or (_run(first) and _run(second))
        or (isinstance(first, kinds.ValueBehind) and isinstance(second, kinds.ValueBehind))
    )
    return alike and not between.strip(" \t")


def _run(problem: Problem) -> bool:
    return isinstance(problem, kinds.MarksTogether) and not problem.chord


def _in_remark(first: Problem, second: Problem) -> bool:
    """Whether a word belongs to a remark whose `#` is told already: `4d#as on the tape`."""
    between = first.span.source.text[first.span.end : second.span.start]
    return isinstance(first, kinds.CommentJoined) and _plain(second) and "\n" not in between


def _joined(word: Span) -> Problem | None:
    """A mark with a `#` right behind it that begins a remark, or that nothing follows."""
    if not (found := re.fullmatch(_JOINED, word.text)):
        return None
    mark, rest = word.text[: found.end("mark")], found["rest"]
    line = word.source.text[word.end :].partition("\n")[0].split()
    remark = bool(rest) or (bool(line) and not _is_music(line[0]))
    if not remark and re.fullmatch(_NOTE, mark):
        return None  # a sharp
    guess = f"{mark} #{rest}" if remark else None
    plain = None if remark else mark
    return kinds.CommentJoined(word, found=word.text, guess=guess, plain=plain)


def _is_music(word: str) -> bool:
    return looks_like_music(word) or word in ("swing", "straight")


def _stray_mistake(span: Span) -> Problem:
    """The problem of one word in music that is no mark."""
    text = span.text
    if problem := _joined(span):
        return problem
    if re.fullmatch(_FRACTION, text):
        dots = len(text) - len(text.rstrip("."))
        value = _FRACTIONS.get(text.rstrip("."))
        guess = value and value + "." * dots
        return kinds.ValueFraction(span, found=text, guess=guess if dots < 3 else None)
    if held := re.fullmatch(_HELD, text):
        return _held(span, held["note"], held["hold"])
    if re.fullmatch(_AT_ONCE, text):
        return _at_once(span, re.findall(_NOTE, text))
    if slip := note_slip(span):
        return slip
    if re.fullmatch(_VALUE_BEHIND, text):
        return _values_first(span)
    if text.count('"') % 2 or text[0] in DOUBLE:
        return kinds.QuoteOpen(span, bend=_bend_meant(span))
    if text[0] == "{" and "}" not in text:
        return kinds.BraceOpen(span, guess=f"{text}}}")
    if text[0] in "!{":
        return note_out_of_order(span)
    if re.fullmatch(_TICKS, text) and (note := _note_before(span)):
        return kinds.TicksApart(note.to(span), guess=note.text + text)
    if re.fullmatch(_DOTS, text) and (undotted := _just_before(span, _DOTTED)):
        whole = undotted.to(span)
        return kinds.ValueUnknown(whole, found=whole.text, guess=undotted.text + text)
    if technique := _technique_behind(span):
        return technique
    if together := _together(span):
        return together
    if triplet := re.fullmatch(_TRIPLET, text):
        meant = f"{triplet['value']}3"
        certain = _marks_until_value(span) == 3 and triplet["value"] not in _FOREIGN
        return kinds.ValueUnknown(span, found=text, guess=meant, certain=certain)
    if more := re.fullmatch(_NOTE_AND_MORE, text):
        return kinds.NoteTail(span, found=text, tail=more["tail"], guess=more["note"])
    if spelt := re.fullmatch(_NOTE_LIKE, text):
        if (hole := missing_hole(spelt["holes"])) is not None:
            return kinds.NoteHole(span, found=text, hole=hole)
        guess, bare = _note_meant(text), re.fullmatch(_BARE_HOLES, text)
        foreign = _FOREIGN.get(text[-1])
        return kinds.NoteBreath(span, found=text, guess=guess,
                     holes=bare[1] if bare and not guess else None,
                     foreign=kinds.ForeignBreath(*foreign) if foreign else None)  # fmt: skip
    if re.fullmatch(_COUNT, text):
        return kinds.CountStray(span, found=text)
    if re.fullmatch(_VALUE_LIKE, text):
        return kinds.ValueUnknown(span, found=text, guess=_OTHER_HANDS.get(text))
    return _no_mark(span)


def note_out_of_order(span: Span) -> Problem:
    """Signs behind a note in another order than the one that is read: `4d"ka"!`."""
    source = span.source
    start = max(source.text.rfind(space, 0, span.start) for space in " \t\n") + 1
    word = Span(source, start, span.end)
    found = re.fullmatch(_SIGNS_BEHIND, word.text)
    signs = re.findall(_SIGN_BEHIND, found["signs"]) if found else []
    if not found or len({sign[0] for sign in signs}) < len(signs):
        return kinds.NoteOrder(span, found=span.text)
    ordered = found["note"] + "".join(sorted(signs, key=lambda sign: '!{"'.index(sign[0])))
    return kinds.NoteOrder(span, found=span.text, ordered=Edit(word, ordered))


def _in_round(span: Span) -> Problem | None:
    """Notes in round brackets, which open in this word."""
    if span.text[0] != "(":
        return None
    line = span.source.text[span.start : span.start + _LONGEST_ROUND].partition("\n")[0]
    if ")" not in line:
        return None
    if group := re.match(_GROUP_ROUND, line):
        marks = group["marks"].split()
        if all(re.fullmatch(_IN_GROUP, mark) for mark in marks):
            whole = Span(span.source, span.start, span.start + group.end())
            guess = f"[ {' '.join(marks)} ]{group['count']}"
            return kinds.GroupRound(whole, found=whole.text, guess=guess)
    chord = re.match(_HOLES_ROUND, line)
    if chord and missing_hole(re.sub(r"\D", "", chord["holes"])) is None:
        whole = Span(span.source, span.start, span.start + chord.end())
        guess = re.sub(r"\D", "", chord["holes"]) + chord["breath"]
        return kinds.HolesParted(whole, found=whole.text, guess=guess)
    if not (found := re.match(_IN_ROUND, line)):
        return None
    notes = re.findall(_NOTE, found["notes"])
    whole = Span(span.source, span.start, span.start + found.end())
    if len(notes) == 1:
        return kinds.MarkUnknown(whole, found=whole.text, guess=notes[0], words=None)
    return _at_once(whole, notes)


def _repeated(span: Span) -> Problem | None:
    """Repeat signs: from `|:` to `:|` on one line, or one of them alone."""
    if span.text[0] != ":":
        return None
    text, start = span.source.text, span.start
    while start and text[start - 1] == "|":
        start -= 1
    line = _rest_of_line(start, span)
    opens = re.match(r"\|+:+", line) if start < span.start else None
    name, placed = _placed_lick(text, start)
    if opens:
        closes = re.search(r":+\|+", line[opens.end() :])
        if closes and (music := line[opens.end() : opens.end() + closes.start()].strip()):
            whole = Span(span.source, start, start + opens.end() + closes.end())
            return kinds.RepeatSigns(whole, music=music, placed=placed if name else None, both=True)
        alone = Span(span.source, start, start + opens.end())
    elif re.fullmatch(r":+", span.text) and (
        bar := re.match(r":+\|+", _rest_of_line(span.start, span))
    ):
        alone = Span(span.source, span.start, span.start + bar.end())
    else:
        return None
    return kinds.RepeatSigns(alone, music="", placed=placed if name else None, both=False)


def _placed_lick(text: str, place: int) -> tuple[str | None, str | None]:
    """The lick whose music an offset is in, and the line of the play that plays it."""
    heads = re.findall(_LAST_LICK, text[max(0, place - _LONGEST_LICK) : place])
    return (heads[-1][1], _playing_line(text, heads[-1][1])) if heads else (None, None)


@lru_cache(maxsize=64)
def _playing_line(text: str, lick: str) -> str | None:
    """The first line `every` of a text that plays a lick alone."""
    line = re.search(rf"(?m)^[^\S\n]*(every[^\n]*[^\S\n]{re.escape(lick)})[^\S\n]*$", text)
    return " ".join(line[1].split()) if line else None


def _rest_of_line(start: int, span: Span) -> str:
    """The line from an offset on."""
    end = span.source.text.find("\n", start)
    return span.source.text[start : end if end >= 0 else None]


def _values_first(span: Span) -> Problem:
    """Notes with their values behind them: each value comes first, where it is not in force."""
    marks: list[str] = []
    force = None
    for word in span.text.split():
        found = re.fullmatch(_VALUE_BEHIND, word)
        assert found
        marks += [found["note"]] if found["value"] == force else [found["value"], found["note"]]
        force = found["value"]
    text = span.source.text
    before = text[text.rfind("\n", 0, span.start) + 1 : span.start].rstrip(" \t")
    after = _rest_of_line(span.end, span).lstrip(" \t")
    whole = (not before or before.endswith("|")) and (not after or after[0] in "|#")
    return kinds.ValueBehind(span, found=span.text, guess=" ".join(marks), whole=whole)


def _held(span: Span, note: str, sign: str) -> Problem:
    """A sign for a hold joined to its note; a tie, where the same note follows."""
    text = span.source.text
    if "~" in sign:
        again = re.match(
            rf"{_TIED}{re.escape(note)}(?![^\s|\[\]])", text[span.end : span.end + 400]
        )
        if again:
            written = f"{note}{again['between']}="
            tied = Edit(Span(span.source, span.start, span.end + again.end()), written)
            return kinds.NoteHeld(span, found=span.text, guess=None, tied=tied)
        if _rest_of_line(span.end, span).lstrip(" \t")[:1] == "|":
            return kinds.NoteHeld(span, found=span.text, guess=None)
    return kinds.NoteHeld(span, found=span.text, guess=f"{note} {' '.join('=' * len(sign))}")


def _technique_behind(span: Span) -> Problem | None:
    """A technique in round brackets, a space behind its note: `4d (wah)`."""
    found = re.fullmatch(r"\(([a-zA-Z]+)\)", span.text)
    note = _note_before(span) if found else None
    if not (found and note and found[1].lower() in TECHNIQUES):
        return None
    whole = note.to(span)
    guess = f"{note.text}{{{found[1].lower()}}}"
    return kinds.BracketsRound(whole, found=whole.text, guess=guess)


def _marks_until_value(span: Span) -> int:
    """How many notes and rests follow a word on its line before another value or a bar line."""
    found = re.match(rf"(?:[ \t]+(?:{_NOTE}|[-=x])(?=\s|$))*", _rest_of_line(span.end, span))
    return len(found[0].split()) if found else 0


def _at_once(span: Span, notes: Sequence[str]) -> Problem:
    """Notes that are meant to sound together, joined by a sign or in brackets."""
    return kinds.NotesAtOnce(
        span,
        found=span.text,
        mixed=len({note.rstrip("'’′")[-1] for note in notes}) > 1,
        bent=any(note[-1] in "'’′" for note in notes),
        chord=_chord_meant(notes),
        apart=" ".join(notes),
    )


def _together(span: Span) -> Problem | None:
    """Marks without spaces between."""
    text = span.text
    if re.fullmatch(_RUN, text) and not re.fullmatch(_TOGETHER, text):
        apart = " ".join(re.findall(_MARK, text))
        return kinds.MarksTogether(span, found=text, apart=apart, chord=None)
    together = re.fullmatch(_TOGETHER, text)
    notes = re.findall(_NOTE, text)
    if not together or (len(notes) < 2 and not together["value"]):
        return None
    breaths = {note.rstrip("'’′")[-1] for note in notes}
    apart = " ".join([*filter(None, [together["value"]]), *notes])
    if together["notes"] == text == "".join(notes) and len(breaths) > 1:
        return kinds.NoteMixed(span, found=text, apart=apart)
    return kinds.MarksTogether(span, found=text, apart=apart, chord=_chord_meant(notes))


def _chord_meant(notes: Sequence[str]) -> str | None:
    """Notes of neighbouring holes on one breath as a chord: `4b5b` is `45b`."""
    plain = [re.fullmatch(r"(10|[1-9])([bd])", note) for note in notes]
    holes = sorted(int(found[1]) for found in plain if found)
    breaths = {found[2] for found in plain if found}
    together = holes == list(range(holes[0], holes[0] + len(notes))) if holes else False
    if not together or len(notes) < 2 or len(breaths) > 1:
        return None
    return "".join(map(str, holes)) + breaths.pop()


def _no_mark(span: Span) -> Problem:
    text = span.text
    guess = _OTHER_HANDS.get(text) or _note_meant(text)
    words = text if not guess and re.search(r"[^\W\d_]{2}", text) else None
    near = span.source.text[span.end : span.end + _LONGEST_ROUND].partition("\n")[0]
    after = near.partition("#")[0].split()
    last = not any(re.fullmatch(_IN_GROUP, word) for word in after)
    return kinds.MarkUnknown(span, found=text, guess=guess, words=words, last=last)


def _note_meant(text: str) -> str | None:
    plain = text.lower().rstrip(",.;:")
    pairs = ((re.fullmatch(pattern, plain), written) for pattern, written in _NOTES_MEANT)
    return next((found.expand(written) for found, written in pairs if found), None)


def _note_before(span: Span) -> Span | None:
    """The note that stands before a word, with nothing but spaces between."""
    return _just_before(span, rf"(?<!\S){_NOTE}(?=\s*$)")


def _just_before(span: Span, pattern: str) -> Span | None:
    """What a pattern finds on the line before a word, not far from it."""
    start = max(0, span.start - _LONGEST_NOTE)
    before = span.source.text[start : span.start].split("\n")[-1]
    found = re.search(pattern, before)
    if not found:
        return None
    start = span.start - len(before)
    return Span(span.source, start + found.start(), start + found.end())


def _bend_meant(span: Span) -> str | None:
    """`3d''` where a quote stands for two ticks: `3d"`."""
    note = _note_before(span) if span.text == '"' else None
    return f"{note.text}''" if note else None
