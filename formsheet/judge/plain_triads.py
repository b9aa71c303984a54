"""A form of plain triads under a tune with blue notes: probably meant as a blues, with sevenths."""

from __future__ import annotations

import re

from formsheet.judge.verdicts import BLUE_NOTES, BLUES_SIGNS
from formsheet.music.chord import in_blues, parse_chord
from formsheet.music.degree import DEGREES
from formsheet.problems import kinds
from formsheet.problems.problem import Problem
from formsheet.tune.timeline import Tune

_PRIMARY = frozenset(map(parse_chord, ("I", "IV", "V")))


def plain_triad_findings(tune: Tune) -> list[Problem]:
    """A remark if the lesson's own form has only plain I, IV and V and the tune has blue notes.

    A blues has sevenths there (common practice, no source); reporting it is our own choice.
    """
    facts, key = tune.lesson.facts, tune.lesson.key
    span = facts.places.get("chords")
    if facts.form is None or span is None or not _PRIMARY.issuperset(facts.form.chords):
        return []
    sounding = {(midi - key.pitch_class) % 12 for note in tune.notes for midi in note.midi}
    if sounding.isdisjoint(BLUES_SIGNS):
        return []
    blue = [DEGREES[each] for each in BLUE_NOTES if each in sounding]
    return [kinds.FormPlainTriads(span, degrees=blue, sevenths=_with_sevenths(span.text))]


def _with_sevenths(rows: str) -> str:
    """Chord lines with a seventh added to each numeral; comments are kept."""

    def seventh(found: re.Match[str]) -> str:
        word = found[0]
        return word if word.startswith("#") else str(in_blues(parse_chord(word)))

    return re.sub(r"#[^\n]*|[IV]+", seventh, rows)
