"""The values for the sheet's template: sizes chosen and everything drawn, part by part."""

from __future__ import annotations

from functools import partial
from typing import Any

from formsheet.sheet.draw.boxes import box_heads, tick_boxes
from formsheet.sheet.draw.canvas import Canvas
from formsheet.sheet.draw.cards import draw_card, in_rows
from formsheet.sheet.draw.chorus_title import set_title
from formsheet.sheet.draw.feel import feel_sign
from formsheet.sheet.draw.form import NARROW
from formsheet.sheet.draw.form_table import form_table, form_words
from formsheet.sheet.draw.harp import harp_map
from formsheet.sheet.draw.holes import Look
from formsheet.sheet.draw.key import WIDTH, join_sign, key_columns, key_height, key_sign
from formsheet.sheet.draw.lick_map import comb_words, lick_comb
from formsheet.sheet.draw.log import (
    PICTURE,
    details,
    log_columns,
    log_height,
    log_words,
    row_height,
)
from formsheet.sheet.draw.masthead import (
    FOOTER_SHARES,
    Masthead,
    footer_size,
    masthead,
    paragraphs_height,
)
from formsheet.sheet.draw.pages import leaves_room, place_choruses
from formsheet.sheet.draw.paper import Paper
from formsheet.sheet.view import PracticeRow, Sheet

SAYS_FOOT = 3.0  # mm under the paragraphs for the student
MAP_SHARE = 0.48  # of the width: a chorus of the lick map if two are side by side
BESIDE_GAP = 9.0  # mm between the harp and its chords: margin, space, a little to spare
KEY_SIGN = 30.0  # mm of a key entry for its sign and the gap after its words

Filling = dict[str, Any]


def composed(sheet: Sheet, paper: Paper, look: Look) -> Filling:
    """The values for all parts of a sheet on its paper."""
    head = masthead(sheet, paper.room)
    return {
        "sheet": sheet,
        "paper": paper,
        "narrow": paper.room < NARROW,
        **_heading(sheet, head),
        **_foot(sheet, paper),
        **_tune(sheet, paper, look, paper.depth - head.height),
        **_key(sheet, paper, look),
        **_harp(sheet),
        **_map(sheet, paper),
        "card_rows": in_rows([draw_card(card, paper.room, look) for card in sheet.cards]),
        **_log(sheet, paper, look),
    }


def _heading(sheet: Sheet, head: Masthead) -> Filling:
    form = form_table(head.form_rows, head.form_cell, head.form_size) if head.form_rows else None
    return {
        "head": head,
        "form_table": form,
        "form_words": form_words(head.form_rows),
        "feel_sign": feel_sign(sheet.feel_sign) if sheet.feel_sign else None,
    }


def _foot(sheet: Sheet, paper: Paper) -> Filling:
    return {"footer_size": footer_size(sheet, paper.room), "footer_shares": FOOTER_SHARES}


def _tune(sheet: Sheet, paper: Paper, look: Look, depth: float) -> Filling:
    """The choruses; the teacher's words come before them unless that takes another page.

    `depth`: millimetres of the first page below its heading.
    """
    texts = (*sheet.says, *(link.printed for link in sheet.links))
    says = paragraphs_height(texts, paper.room) + SAYS_FOOT
    says_first = bool(texts) and (
        not sheet.choruses or leaves_room(sheet.choruses[0], paper.room, depth, says, look)
    )
    key = key_height(len(sheet.key_entries), paper.room)
    first = depth - says if says_first else depth
    choruses = place_choruses(sheet.choruses, paper.room, first, paper.depth, key, look)
    return {
        "says_first": says_first,
        "says_later": bool(texts) and not says_first,
        "choruses": choruses,
        "set_title": set_title,
        "study_follows": bool(choruses) and choruses[-1].left >= key,
    }


def _key(sheet: Sheet, paper: Paper, look: Look) -> Filling:
    columns = key_columns(paper.room)
    return {
        "key": [
            (key_sign(entry.sign, look.marks, entry.text), entry) for entry in sheet.key_entries
        ],
        "key_columns": columns,
        "key_words": 0.99 * paper.room / columns - KEY_SIGN,
    }


def _map(sheet: Sheet, paper: Paper) -> Filling:
    across = max((len(line) for line in sheet.form_rows), default=4)
    whole = len(sheet.lick_map) == 1 or paper.room < NARROW
    width = paper.room if whole else MAP_SHARE * paper.room
    return {
        "map_across": across,
        "map_width": width,
        "comb_words": comb_words,
        "lick_comb": partial(lick_comb, across=across, width=width),
    }


def _harp(sheet: Sheet) -> Filling:
    return {
        "harp_map": harp_map(sheet.harp_map) if sheet.harp_map else None,
        "beside_gap": BESIDE_GAP,
    }


def _log(sheet: Sheet, paper: Paper, look: Look) -> Filling:
    columns = log_columns(paper.room, sheet.ladder)

    def boxes(row: PracticeRow, above: PracticeRow | None, title: str) -> Canvas:
        rule = float("inf") if not above and not title else above.start if above else 0.0
        return tick_boxes(
            columns, row_height(row, columns, look.marks), start=row.start, above=rule
        )

    return {
        "columns": columns,
        "log_words": log_words(sheet),
        "details": details,
        "box_heads": box_heads(columns),
        "tick_boxes": boxes,
        "join_sign": partial(join_sign, marks=look.marks),
        "sign_shown": PICTURE / WIDTH,
        "log_flows": log_height(sheet, paper.room, look.marks) > paper.depth,
    }
