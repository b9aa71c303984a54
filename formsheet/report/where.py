"""Where a lick fits, as a table and as data."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from formsheet.judge.findings import Reported
from formsheet.judge.fit import NoteFit
from formsheet.judge.verdicts import Verdict
from formsheet.judge.where import Placement
from formsheet.lesson.asked import lick_asked_words
from formsheet.lesson.model import Lesson, Lick
from formsheet.listing import bars_words
from formsheet.music.form import Form
from formsheet.report.table import aligned


def fit_table(lick: Lick, form: Form, placements: Sequence[Placement], lesson: Lesson) -> list[str]:
    """The fit of a lick over every stretch of chords of a form, best first."""
    head = f"{lick.title} ({lick.name}), written on {lick_asked_words(lick)}; {form.full_name}"
    if not placements:
        return [head, "  the lick is longer than the form"]
    rows: list[tuple[str, ...]] = [("  chords", "", "bars", "verdict", "named", "fit", "why")]
    rows += [_row(each, lesson) for each in placements]
    return [head, *aligned(rows, right=(5,))]


def _row(placement: Placement, lesson: Lesson) -> tuple[str, ...]:
    tonic = lesson.key.tonic
    return (
        "  " + _bars(placement, str),
        _bars(placement, lambda chord: chord.name(tonic)),
        ("from " if len(placement.chords) > 1 else "") + bars_words(placement.bars),
        placement.verdict,
        "yes" if placement.written_for else "no",
        f"{round(placement.score * 100)}%",
        _why(placement),
    )


#: Most notes named in a row.
_MOST_NAMED = 3


def _why(placement: Placement) -> str:
    """The notes that are worth a word, else those that are only colour: why it fits no better."""
    clashes = [_named(each.fit, each.at) for each in placement.clashes]
    remarks = [f"{_named(each.fit, each.at)}: {each.heard.value}" for each in placement.remarks]
    named = list(dict.fromkeys([*clashes, *remarks]))
    if not named:
        named = list(dict.fromkeys(
            f"{_named(fit, at)}, {verdict.word if verdict is Verdict.COLOUR else 'in passing'}"
            for fit in placement.notes
            for at, verdict in enumerate(fit.verdicts)
            if verdict > Verdict.IDIOMATIC
        ))  # fmt: skip
    more = len(named) - _MOST_NAMED
    return "; ".join(named[:_MOST_NAMED]) + (f"; {more} more" if more > 0 else "")


def _named(fit: NoteFit, at: int) -> str:
    degrees = " ".join(fit.names[at])
    return f"{fit.note.tab} is {'' if len(fit.note.midi) > 1 else 'the '}{degrees}"


def _bars(placement: Placement, name: Any) -> str:
    return " | ".join(" ".join(map(name, bar)) for bar in placement.chords)


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
                "verdict": each.verdict,
                "fit": str(each.score),
                "clashes": [_named_data(clash) for clash in each.clashes],
                "remarks": [_named_data(remark) for remark in each.remarks],
            }
            for each in placements
        ],
    }


def _named_data(each: Reported) -> dict[str, str]:
    degrees = " ".join(each.fit.names[each.at])
    return {"tab": str(each.fit.note.tab), "degree": degrees, "heard": each.heard.value}
