"""The notes of a harp over a chord, drawn as the harp lies in the hand.

A column for each hole, its number between blow and draw; the bends lie beyond the natural notes.
Each row is its name and ten words, a dot where a note is missing, so that a listener finds the
hole by counting. Own design.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from formsheet.judge.chart import Chart, ChartNote
from formsheet.judge.level import Limits
from formsheet.judge.verdicts import Verdict
from formsheet.music.steps import step_words
from formsheet.music.tab import Breath, Tab
from formsheet.music.tunings import HOLES
from formsheet.report.paint import painted

#: Sign after the degree, for each verdict.
SIGNS = {
    Verdict.CHORD_TONE: "*",
    Verdict.IDIOMATIC: "+",
    Verdict.COLOUR: "",
    Verdict.AVOID: "x",
}
_NAME, _DEGREE = 13, 5  # cells of the names of the rows, of a degree
_NO_NOTE = "."
_HOLES = (0, 0)  # the row of the holes' numbers, see `_row`


def legend(charts: Sequence[Chart], limits: Limits) -> list[str]:
    """What the signs of all charts mean."""
    lines = [
        "Each chart has the ten holes across and, in each, the degree over the chord:",
        "  * chord tone   + idiomatic, such as blue notes   no sign: colour",
        "  x avoid: it may pass, but not stay   . no such note",
        "  bent 1: a half step down, one tick, as in 3d'; bent 2: two ticks; and so on",
    ]
    if any(chart.deeper for chart in charts):
        deepest = step_words(limits.deepest_bend)
        lines.append(f"  bends deeper than {deepest} are left out, by the level of the lesson")
    return lines


def chart_lines(chart: Chart, colour: bool = False) -> list[str]:
    """The chart of one chord, at most 75 cells wide; `colour`: for a terminal that shows it."""
    rows: dict[tuple[int, int], dict[int, ChartNote]] = {}
    for note in chart.notes:
        rows.setdefault(_row(note.tab), {})[note.tab.holes[0]] = note
    holes = "".join(f"{hole:>{_DEGREE}} " for hole in range(1, HOLES + 1))
    lines = {_HOLES: f"{'hole':<{_NAME}}{holes}"}
    for row, of_row in rows.items():
        lines[row] = f"{_row_name(row):<{_NAME}}{''.join(_cells(of_row, colour))}"
    return [f"  {lines[row]}".rstrip() for row in sorted(lines)]


def _row(tab: Tab) -> tuple[int, int]:
    """The place of a note's row, from above: of which breath, and how far from the other one."""
    if tab.overbend:
        return (-2, 0) if tab.breath is Breath.BLOW else (2, 0)
    return (-1, -tab.bend) if tab.breath is Breath.BLOW else (1, tab.bend)


def _row_name(row: tuple[int, int]) -> str:
    side, bend = row
    breath = (Breath.BLOW if side < 0 else Breath.DRAW).word
    if abs(side) > 1:
        return f"over{breath}"
    return f"{breath} bent {abs(bend)}" if bend else breath


def _cells(notes: dict[int, ChartNote], colour: bool) -> Iterator[str]:
    for hole in range(1, HOLES + 1):
        note = notes.get(hole)
        if note is None:
            yield f"{_NO_NOTE:>{_DEGREE}} "
            continue
        sign = SIGNS[note.verdict]
        text = note.degree + sign
        shown = painted(text, note.verdict.word) if colour and sign else text
        yield " " * (_DEGREE - len(note.degree)) + shown + ("" if sign else " ")
