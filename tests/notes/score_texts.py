"""Scores for tests, written element by element: what notation programs write, and what they should
not."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

DIVISIONS = 24


def note(name: str, quarters: float, more: str = "", inside: str = "") -> str:
    """A note such as "Bb4" or "-" for a rest; `more` stands first in it, `inside` last."""
    duration = round(quarters * DIVISIONS)
    if name == "-":
        pitch = "<rest/>"
    else:
        alter = name.count("#") - name[1:].count("b")
        altered = f"<alter>{alter}</alter>" if alter else ""
        pitch = f"<pitch><step>{name[0]}</step>{altered}<octave>{name[-1]}</octave></pitch>"
    return f"<note>{more}{pitch}<duration>{duration}</duration>{inside}</note>"


def notes(text: str) -> str:
    """Notes such as "G4 B4:2 -:0.5": a quarter each, or as long as is said."""
    return "".join(
        note(name, float(length or 1))
        for name, _, length in (word.partition(":") for word in text.split())
    )


def attributes(
    meter: str = "4/4", fifths: int | None = None, mode: str = "", more: str = ""
) -> str:
    """The attributes of a first measure."""
    above, below = meter.split("/")
    said = f"<mode>{mode}</mode>" if mode else ""
    key = "" if fifths is None else f"<key><fifths>{fifths}</fifths>{said}</key>"
    return (
        f"<attributes><divisions>{DIVISIONS}</divisions>{key}<time><beats>{above}</beats>"
        f"<beat-type>{below}</beat-type></time>{more}</attributes>"
    )


def chord(root: str, kind: str = "major", offset: float = 0) -> str:
    """A chord symbol."""
    alter = root.count("#") - root[1:].count("b")
    altered = f"<root-alter>{alter}</root-alter>" if alter else ""
    later = f"<offset>{round(offset * DIVISIONS)}</offset>" if offset else ""
    return (
        f"<harmony><root><root-step>{root[0]}</root-step>{altered}</root>"
        f"<kind>{kind}</kind>{later}</harmony>"
    )


def part(measures: Sequence[str], first: int = 1, name: str = "P1") -> str:
    """A part; a measure that begins with "@" has its own attributes up to the next "@"."""
    found = []
    number = first
    for text in measures:
        own = f'number="{number}"'
        if text.startswith("@"):
            _, own, text = text.split("@", 2)
        else:
            number += 1
        found.append(f"<measure {own}>{text}</measure>")
    return f'<part id="{name}">{"".join(found)}</part>'


def score(
    path: Path, *parts: Sequence[str], names: Sequence[str] = (), first: int = 1, head: str = ""
) -> Path:
    """Write a score of some parts, each a list of measures."""
    named = [*names, *(f"Part {number}" for number in range(len(names) + 1, len(parts) + 1))]
    listed = "".join(
        f'<score-part id="P{number}"><part-name>{name}</part-name></score-part>'
        for number, name in enumerate(named, start=1)
    )
    bodies = "".join(
        part(measures, first, f"P{number}") for number, measures in enumerate(parts, start=1)
    )
    path.write_text(
        f'<?xml version="1.0" encoding="UTF-8"?>{head}<score-partwise version="4.0">'
        f"<part-list>{listed}</part-list>{bodies}</score-partwise>",
        encoding="utf-8",
    )
    return path


#: Twelve bars of blues in G: a note a beat, and the chord symbols of the standard form.
_STANDARD = ["G", "G", "G", "G", "C", "C", "G", "G", "D", "C", "G", "D"]
_BARS = {"G": "G4 B4 D5 F5", "C": "C5 E5 G5 E5", "D": "D5 F#5 A5 C5"}


def blues(path: Path, fifths: int | None = None, kind: str = "dominant") -> Path:
    """A twelve-bar in G with chord symbols."""
    measures = [
        (attributes("4/4", fifths, "major") if not number else "")
        + chord(root, kind)
        + notes(_BARS[root])
        for number, root in enumerate(_STANDARD)
    ]
    return score(path, measures)
