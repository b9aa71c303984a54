"""Where a lick fits, as a table and as data."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from formsheet.judge.fit import NoteFit
from formsheet.judge.where import Placement
from formsheet.lesson.asked import lick_asked_words
from formsheet.lesson.model import Lesson, Lick
from formsheet.listing import bars_words
from formsheet.music.form import Form
from formsheet.report.table import aligned


def verdict_words(placement: Placement) -> str:
    """How well a lick fits here, in a word or two."""
    if placement.clashes:
        return "clashes"
    good, landing = placement.landings
    if good == landing and placement.ends_home and not placement.rubs:
        return "fits well"
    return "fits" if 2 * good >= landing else "hardly fits"


def fit_table(lick: Lick, form: Form, placements: Sequence[Placement], lesson: Lesson) -> list[str]:
    """The fit of a lick over every stretch of chords of a form, best first."""
    head = f"{lick.title} ({lick.name}), written on {lick_asked_words(lick)}; {form.full_name}"
    if not placements:
        return [head, "  the lick is longer than the form"]
    rows: list[tuple[str, ...]] = [
        ("  chords", "", "bars", "verdict", "named", "on chord", "landings", "why not")
    ]
    rows += [_row(each, lesson) for each in placements]
    return [head, *aligned(rows, right=(5, 6))]


def _row(placement: Placement, lesson: Lesson) -> tuple[str, ...]:
    good, landing = placement.landings
    tonic = lesson.key.tonic
    return (
        "  " + _bars(placement, str),
        _bars(placement, lambda chord: chord.name(tonic)),
        bars_words(placement.bars),
        verdict_words(placement),
        "yes" if placement.written_for else "no",
        f"{round(placement.share * 100)}%",
        f"{good}/{landing}",
        "; ".join(dict.fromkeys(map(_clash, placement.clashes))) or _weakness(placement),
    )


def _weakness(placement: Placement) -> str:
    """Why a lick without a clash does not fit better."""
    good, landing = placement.landings
    if 2 * good < landing:
        return "few landings are chord tones"
    return "; ".join(f"{words}, in passing" for words in dict.fromkeys(map(_clash, placement.rubs)))


def _bars(placement: Placement, name: Any) -> str:
    return " | ".join(" ".join(map(name, bar)) for bar in placement.chords)


def _clash(fit: NoteFit) -> str:
    return f"{fit.note.tab} is the {fit.degrees[0] if len(fit.degrees) == 1 else 'clash'}"


def fit_data(lick: Lick, form: Form, placements: Sequence[Placement]) -> dict[str, Any]:
    """The contents of `fit_table` as data."""
    return {
        "lick": lick.name,
        "form": form.full_name,
        "placements": [
            {
                "chords": [[str(chord) for chord in bar] for bar in each.chords],
                "bars": list(each.bars),
                "written_for": each.written_for,
                "verdict": verdict_words(each),
                "on_chord": str(each.share),
                "landings": list(each.landings),
                "clashes": [
                    {"tab": str(fit.note.tab), "degree": " ".join(fit.degrees)}
                    for fit in each.clashes
                ],
            }
            for each in placements
        ],
    }
