"""`formsheet recast`: a lick on another chord, or a first draft of a whole tune from one lick."""

from __future__ import annotations

import argparse
import json
from collections.abc import Mapping, Sequence
from dataclasses import replace

from formsheet.commands.declared import Argument, Command, Option
from formsheet.commands.draft import DRAFT, write_draft
from formsheet.commands.files import ERRORS, FINE, Teller, UsageError
from formsheet.commands.named import new_lick_name
from formsheet.commands.opened import Opened, open_licks
from formsheet.commands.schema import data_options
from formsheet.lesson.model import Lesson, Lick
from formsheet.music.chord import parse_chord
from formsheet.music.form import MOST_CHORDS, FormBar
from formsheet.recast.naming import recast_name, recast_title
from formsheet.recast.target import sounding
from formsheet.recast.text import lick_as_text, rhythm_of
from formsheet.recast.trial import Tried, tried_recasts
from formsheet.report.recast import recast_data, recast_lines

_MOST_SHOWN = 3


def run(arguments: argparse.Namespace) -> int:
    """Print the ways of playing a lick on other chords, or write a first draft."""
    if bool(arguments.on) == arguments.draft:
        raise UsageError("say on which chord with --on, or ask for a whole tune with --draft")
    opened = open_licks(arguments.file)
    if opened.lesson is None or not opened.examined.in_order:
        Teller().tell(opened.examined.problems)
        return ERRORS
    lick = opened.chosen([arguments.lick])[arguments.lick]
    if arguments.draft:
        return write_draft(arguments, opened, lick)
    _print(arguments, opened, opened.lesson, lick)
    return FINE


def _print(arguments: argparse.Namespace, opened: Opened, lesson: Lesson, lick: Lick) -> None:
    rhythm = rhythm_of(arguments.lick, opened.tree)
    data, lines = [], []
    for on in arguments.on:
        chords = sounding(_chords(on, lick), lesson.facts.form)
        new = _renamed(arguments, lick, chords, opened.licks)
        found = tried_recasts(new, chords, lesson.facts, lesson.key, arguments.overbends)
        for number, tried in enumerate(_shown(found, arguments.all), start=1):
            text = lick_as_text(tried.recast.lick, rhythm)
            data.append(recast_data(tried, text, lesson))
            lines += [*recast_lines(tried, number, text, lesson), ""]
    print(json.dumps(data, indent=2, ensure_ascii=False) if arguments.json else "\n".join(lines))


def _shown(found: Sequence[Tried], everything: bool) -> Sequence[Tried]:
    """The best; of ways that lose the lick's line none, where others keep it."""
    whole = [each for each in found if not each.recast.torn] or found
    return found if everything else whole[:_MOST_SHOWN]


def _renamed(
    arguments: argparse.Namespace, lick: Lick, chords: Sequence[FormBar], licks: Mapping[str, Lick]
) -> Lick:
    """The lick under its new name, without the tips, which speak of the old holes."""
    name = new_lick_name(arguments.name or recast_name(arguments.lick, chords, licks))
    title = recast_title(arguments.lick, lick.title, chords, name)
    return replace(lick, name=name, title=title, tips=())


def _chords(text: str, lick: Lick) -> list[FormBar]:
    """Chords as the command names them: one bar for all, or one for each bar of the lick."""
    bars = [_bar(bar.split(), text) for bar in text.split("|")]
    if len(bars) == 1:
        return bars * len(lick.bars)
    if len(bars) != len(lick.bars):
        have = "1 bar" if len(lick.bars) == 1 else f"{len(lick.bars)} bars"
        raise UsageError(f"{lick.name} has {have}, and `{text}` is for {len(bars)}")
    return bars


def _bar(numerals: Sequence[str], text: str) -> FormBar:
    if not 1 <= len(numerals) <= MOST_CHORDS:
        raise UsageError(f"a bar has a chord or two; in `{text}` one has {len(numerals)}")
    try:
        return tuple(map(parse_chord, numerals))
    except ValueError:
        raise UsageError(f"`{text}` is no chord; write I, IV, V7, bVI7, ii or `V | IV`") from None


COMMAND = Command(
    "recast",
    "put a lick on another chord, or draft a tune from it",
    run,
    arguments=(
        Argument("file", "FILE", "a lesson or a shelf"),
        Argument("lick", "LICK"),
    ),
    options=(
        Option(
            "--on",
            "such as IV, or one chord a bar: `V | IV`; may be given several times",
            value="CHORDS",
            repeats=True,
        ),
        Option("--overbends", "overblows and overdraws too"),
        Option("--name", "of the new lick", value="NAME"),
        Option("--all", "every way, not the best three alone"),
        *data_options("recast", "the licks"),
        *DRAFT,
    ),
    examples=(
        "formsheet recast lessons/kitchen.lesson porch --on IV",
        "formsheet recast lessons/kitchen.lesson porch --draft --out lessons/porch.lesson",
    ),
)
