"""A note as other hands spell it: what is odd about it, and how it is written here."""

from __future__ import annotations

import re

from formsheet.problems import kinds
from formsheet.problems.problem import Problem
from formsheet.source import Span
from formsheet.vocabulary.techniques import TECHNIQUES

# One slip or several: holes that are parted, ticks before the breath, a capital, other signs for
# ticks, a sharp or a flat, a technique in round brackets, signs behind the note.
_SPELT = r"""
    (?P<holes>\d{1,20} (?:[-–,/+]\d{1,2}){0,9}) (?P<over>[oO]?) (?P<early>['’′´`]*)
    (?P<before>[#♯♭]?) (?P<breath>[bdBD]) (?P<ticks>['’′´`"“”″]*) (?P<sign>[#♯♭b]?) (?P<late>['’′]*)
    (?P<bang>!?) (?:\((?P<round>[^\s()"{}]+)\)|(?P<braces>\{[^\s{}"]*\}))?
    (?P<syllable>"[^"\s]*")? (?P<tail>[^\w\s'’′"“”#{}\[\]|]*)
"""
_TICK = {'"': "''", "“": "''", "”": "''", "″": "''"}
_FLATS = "b♭"


def missing_hole(holes: str) -> int | None:
    """The hole among digits written as holes that no harp has, 0 or 11; None if all may be."""
    if "0" in holes.replace("10", ""):
        return 0
    return 11 if holes == "11" else None


def note_slip(span: Span) -> Problem | None:
    """The problem that keeps a word from being a note; None where no note is meant.

    Of several slips the first is reported. What the problem offers is free of all of them.
    """
    word = span.text
    found = re.fullmatch(_SPELT, word, re.VERBOSE)
    if not found:
        return None
    holes = re.sub(r"\D", "", found["holes"])
    if missing_hole(holes) is not None:
        return None
    head = f"{holes}{found['over']}{found['breath']}".lower()
    ticks = "".join(_TICK.get(sign, "'") for sign in found["early"] + found["ticks"])
    ticks += "'" * len(found["late"])
    end = found["bang"] + (found["braces"] or "") + (found["syllable"] or "")
    if found["round"]:
        in_round = found["round"]
        known = in_round.lower() in TECHNIQUES
        end = found["bang"] + (f"{{{in_round.lower()}}}" if known else f'"{in_round}"')
    guess = head + ticks + end
    sign = found["before"] or found["sign"]
    if sign:
        flat = sign in _FLATS
        bent = head + (ticks or "'") + end if flat else None
        plain = head + end if flat else guess
        kind = "flat" if flat else "sharp"
        return kinds.NoteAccidental(span, found=word, sign=kind, bent=bent, plain=plain)
    if found["holes"] != holes:
        return kinds.HolesParted(span, found=word, guess=guess)
    if found["early"]:
        return kinds.NoteBreath(span, found=word, guess=guess, holes=None)
    if (found["over"] + found["breath"]).isupper() or found["breath"].isupper():
        return kinds.NoteCapital(span, found=word, guess=guess)
    if odd := re.search(r"[´`\"“”″]", found["ticks"]):
        return kinds.NoteQuote(span, found=word, guess=guess, sign=odd[0])
    if found["round"]:
        return kinds.BracketsRound(span, found=word, guess=guess)
    if found["tail"]:
        return kinds.NoteTail(span, found=word, guess=guess, tail=found["tail"])
    return None
