"""The play-along page: one file that works from the disk, without network and server."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import asdict, dataclass
from hashlib import sha256
from math import floor
from typing import Any

from formsheet.judge.joins import PlayedMove, find_moves, hardest
from formsheet.judge.ladder import own_ladder
from formsheet.judge.practice import lick_ladder
from formsheet.page.inline import faces_css, json_in_html, policy, sources
from formsheet.page.library import NAMED, description
from formsheet.page.page_data import bars_data, cells_data, facts_data, sound_data, spoken_data
from formsheet.page.page_harps import other_harps
from formsheet.page.page_score import PageChorus, page_choruses
from formsheet.sheet.draw.canvas import BLACK, Canvas
from formsheet.sheet.draw.feel import feel_sign
from formsheet.sheet.draw.legend import entry_sign
from formsheet.sheet.draw.look import PLAIN_LOOK, Look
from formsheet.sheet.draw.move import move_sign
from formsheet.sheet.templating import environment
from formsheet.sheet.view import Card, PracticeRow, Sheet
from formsheet.sheet.view_practice import MOST_JOINS, move_row
from formsheet.tune.lick_letters import LickLetters
from formsheet.tune.passages import Passage, lick_passages, whole_tune
from formsheet.tune.timeline import Tune

COUNTS = (0, 1, 2, 4)  # bars of count-in to choose from, besides the lesson's own
STYLES = ("page/page.css",)
#: In order of dependency.
SCRIPTS = (
    "page/limiter.js",
    "page/tone.js",
    "page/band.js",
    "page/excerpt.js",
    "page/player.js",
    "page/keep.js",
    "page/layout.js",
    "page/sheet.js",
    "page/ahead.js",
    "page/breath.js",
    "page/range.js",
    "page/alone.js",
    "page/handsfree.js",
    "page/progress.js",
    "page/joins.js",
    "page/desk.js",
    "page/pitch.js",
    "page/hearing.js",
    "page/selfcheck.js",
    "page/choice.js",
    "page/pace.js",
    "page/telling.js",
    "page/address.js",
    "page/page.js",
)


@dataclass(frozen=True, slots=True)
class JoinEntry:
    """A join, or a move inside a lick, to practise."""

    row: PracticeRow
    key: str  # under which a browser stores its step
    where: str  # "into bar 5", "in bar 11"
    sign: Canvas  # its two notes on the comb
    passage: Passage
    ladder: tuple[float, ...]  # tempos in beats a minute, from the start tempo up


@dataclass(frozen=True, slots=True)
class LickEntry:
    """A lick to loop."""

    card: Card
    passage: Passage
    start: float  # its own start tempo in beats a minute
    listed: str  # "A, Front porch"
    said: str  # "lick A, Front porch"


def page_html(tune: Tune, sheet: Sheet, look: Look = PLAIN_LOOK) -> bytes:
    """The page of a tune. Equal tunes give equal bytes."""
    choruses = page_choruses(sheet.choruses, look)
    moves = find_moves(tune)
    hard = hardest(moves, float(tune.lesson.facts.tempo), MOST_JOINS)
    letters = LickLetters(tune)
    joins = [_join_entry(tune, join, letters, look) for join in hard]
    licks = [
        LickEntry(
            card=card,
            passage=passage,
            start=float(lick_ladder(tune, moves, lick.name)[0]),
            listed=letters.titled(lick),
            said=letters.said(lick),
        )
        for card, (lick, passage) in zip(sheet.cards, lick_passages(tune), strict=True)
    ]
    classes = _classes(choruses)
    style = "\n".join([faces_css(), sources(*STYLES), _measures_css(classes)])
    script = f'"use strict";\n(() => {{\n{sources(*SCRIPTS)}\n}})();\n'
    context: dict[str, Any] = {
        "sheet": sheet,
        "named": NAMED,
        "description": description(sheet),
        "choruses": choruses,
        "joins": joins,
        "licks": licks,
        "harps": other_harps(tune),
        "counts": sorted({*COUNTS, tune.lesson.facts.count_in}),
        "feel_sign": feel_sign(sheet.feel_sign) if sheet.feel_sign else None,
        "key": [(entry_sign(entry, look), entry) for entry in sheet.key_entries],
        "coloured": (look.blow, look.draw) != (BLACK, BLACK),
        "classes": classes,
        "style": style,
        "script": script,
        "policy": policy(style, script),
        "data": json_in_html(_data(tune, sheet, choruses, joins, licks)),
    }
    return environment().get_template("page/page.html").render(context).encode()


def _data(
    tune: Tune,
    sheet: Sheet,
    choruses: Sequence[PageChorus],
    joins: Sequence[JoinEntry],
    licks: Sequence[LickEntry],
) -> dict[str, Any]:
    """All data for the script."""
    several = len(sheet.choruses) > 1
    return {
        "id": _identity(tune, sheet),
        "facts": facts_data(tune, sheet.ladder[0]),
        "bars": bars_data(tune, choruses),
        "cells": cells_data(choruses),
        "spoken": spoken_data(tune, choruses),
        "sound": sound_data(tune),
        "harps": [asdict(harp) for harp in other_harps(tune)],
        "tune": whole_tune(tune)._asdict(),
        "choruses": [
            Passage(chorus.stands_for[0][0], chorus.stands_for[-1][0])._asdict()
            | {"name": chorus.title}
            for chorus in sheet.choruses
            if several
        ],
        "licks": [
            lick.passage._asdict()
            | {
                "key": lick.card.name,
                "name": lick.listed,
                "said": lick.said,
                "start": lick.start,
            }
            for lick in licks
        ],
        "joins": [
            join.passage._asdict()
            | {
                "key": join.key,
                "name": join.row.name,
                "where": join.where,
                "ladder": join.ladder,
            }
            for join in joins
        ],
    }


def _identity(tune: Tune, sheet: Sheet) -> str:
    """The key under which a browser stores the student's state for this lesson."""
    named = (sheet.file_name, sheet.title, tune.lesson.facts.teacher)
    return sha256("\n".join(named).encode()).hexdigest()[:12]


def _join_entry(tune: Tune, join: PlayedMove, letters: LickLetters, look: Look) -> JoinEntry:
    facts = tune.lesson.facts
    row = move_row(join, facts.tempo, letters)
    assert row.last is not None
    assert row.first is not None
    return JoinEntry(
        row=row,
        key=_key(join),
        where=f"{'into' if join.joins else 'in'} {row.where}",
        sign=move_sign(row.last, row.first, look),
        passage=join.passage,
        ladder=tuple(float(tempo) for tempo in own_ladder([join], facts)),
    )


def _key(join: PlayedMove) -> str:
    """What `find_moves` tells it from others by, with licks by name: "porch creek 3d 4b 1"."""
    tabs = f"{join.last.tab} {join.first.tab}"
    if not join.joins:
        return f"{join.first_lick.name} {tabs}"
    return f"{join.first_lick.name} {join.second_lick.name} {tabs} {round(join.beats, 6):g}"


# ---- Measures of bars ------------------------------------------------------------------------
# The content policy does not allow style attributes: each measure that occurs has a class.

Measure = tuple[str, float]  # a variable of the style sheet and its value, a share of a width


def _classes(choruses: Sequence[PageChorus]) -> dict[Measure, str]:
    """A class for each measure that occurs: "share" and "indent" of a line, "upto" of a bar."""
    found: dict[Measure, str] = {}
    for chorus in choruses:
        for line in chorus.lines:
            measures = [("indent", line.indent / line.room)]
            for cell in line.cells:
                measures.append(("share", cell.width / line.room))
                measures += (("upto", upto) for _, upto in cell.slots)
            for measure in measures:
                found.setdefault(measure, f"m{len(found)}")
    return found


def _measures_css(classes: Mapping[Measure, str]) -> str:
    return "\n".join(f".{named}{{{_variable(*measure)}}}" for measure, named in classes.items())


def _variable(name: str, value: float) -> str:
    """A variable of the style sheet, rounded down, so that a line of bars is never too wide."""
    return f"--{name}:{floor(value * 10_000) / 10_000}"
