"""`formsheet recast`: a lick on another chord, or a first draft of a whole tune from one lick."""

from __future__ import annotations

import argparse
import json
import os
import sys
from collections.abc import Mapping, Sequence
from stat import S_ISFIFO

from formsheet.commands.declared import Argument, Command, Option
from formsheet.commands.draft import DRAFT, write_draft
from formsheet.commands.files import ERRORS, FINE, Teller, UsageError
from formsheet.commands.named import new_lick_name
from formsheet.commands.opened import Opened, open_licks
from formsheet.commands.schema import data_options
from formsheet.lesson.model import Lesson, Lick
from formsheet.music.chord import parse_chord
from formsheet.music.form import MOST_CHORDS, FormBar
from formsheet.recast.character import character
from formsheet.recast.naming import recast_name, recast_title
from formsheet.recast.offered import AsItIs, offers
from formsheet.recast.target import asked_bars, sounding
from formsheet.recast.text import lick_as_text, rhythm_of
from formsheet.recast.trial import Tried
from formsheet.report.recast import Way, offers_data, offers_lines


def run(arguments: argparse.Namespace) -> int:
    """Print the ways of playing a lick on other chords, or write a first draft."""
    if bool(arguments.on) == arguments.draft:
        raise UsageError("give a chord with --on, or --draft for a whole tune")
    opened = open_licks(arguments.file)
    if opened.lesson is None or not opened.examined.in_order:
        Teller().tell(opened.examined.problems)
        return ERRORS
    lick = opened.chosen([arguments.lick])[arguments.lick]
    _note_a_lost_bar_line(arguments.on or (), lick)
    if arguments.draft:
        return write_draft(arguments, opened, lick)
    _print(arguments, opened, opened.lesson, lick)
    return FINE


def _print(arguments: argparse.Namespace, opened: Opened, lesson: Lesson, lick: Lick) -> None:
    rhythm = rhythm_of(arguments.lick, opened.tree)
    home = character(lick, lesson.facts, lesson.key, opened.licks)
    data, lines = [], []
    for on in arguments.on:
        chords = sounding(_chords(on, lick), lesson.facts.form)
        new = _renamed(arguments, lick, chords, opened.licks)
        found = offers(home, new, chords, opened.licks, arguments.overbends)
        ways = [
            Way(each, lick_as_text(_to_paste(each, new), rhythm))
            for each in found.shown(arguments.all)
        ]
        data.append(offers_data(found, ways, lesson))
        lines += offers_lines(found, ways, lesson)
    print(json.dumps(data, indent=2, ensure_ascii=False) if arguments.json else "\n".join(lines))


def _note_a_lost_bar_line(chords: Sequence[str], lick: Lick) -> None:
    """Say that a `|` needs quotes, where a shell may have taken one of a lick of several bars.

    `--on V | IV` without quotes gives us `--on V`, and the output to a command called IV.
    """
    if len(lick.bars) > 1 and chords and "|" not in chords[-1] and _into_a_pipe():
        print(
            f"{lick.name} has {len(lick.bars)} bars, and {chords[-1]} is taken for each of them. "
            f'Chords with a bar line between need quotes: --on "{chords[-1]} | IV"',
            file=sys.stderr,
            flush=True,
        )


def _into_a_pipe() -> bool:
    try:
        return S_ISFIFO(os.fstat(sys.stdout.fileno()).st_mode)
    except (OSError, ValueError):  # it is closed, or in memory
        return False


def _to_paste(way: AsItIs | Tried, new: Lick) -> Lick:
    """The lick of a way: as it is with a wider `on`, or under the new name."""
    if isinstance(way, Tried):
        return way.recast.lick
    if way.on is None:
        return new._replace(on=asked_bars(way.chords))
    return way.lick._replace(on=way.on)


def _renamed(
    arguments: argparse.Namespace, lick: Lick, chords: Sequence[FormBar], licks: Mapping[str, Lick]
) -> Lick:
    """The lick under its new name, without the tips, which speak of the old holes."""
    name = new_lick_name(arguments.name or recast_name(arguments.lick, chords, licks))
    title = recast_title(arguments.lick, lick.title, chords, name)
    return lick._replace(name=name, title=title, tips=())


def _chords(text: str, lick: Lick) -> list[FormBar]:
    """Chords as the command names them: one bar for all, or one for each bar of the lick."""
    bars = [_bar(bar.split(), text) for bar in text.split("|")]
    if len(bars) == 1:
        return bars * len(lick.bars)
    if len(bars) != len(lick.bars):
        have = "1 bar" if len(lick.bars) == 1 else f"{len(lick.bars)} bars"
        raise UsageError(f"{lick.name} has {have}, and `{text}` is for {len(bars)}")
    return bars


def _chords_meant(text: str) -> Sequence[str] | None:
    try:
        for bar in text.split("|"):
            _bar(bar.split(), text)
    except UsageError:
        return None
    return [text]


def _bar(numerals: Sequence[str], text: str) -> FormBar:
    if not 1 <= len(numerals) <= MOST_CHORDS:
        raise UsageError(f"a bar has a chord or two; in `{text}` one has {len(numerals)}")
    try:
        return tuple(map(parse_chord, numerals))
    except ValueError:
        raise UsageError(
            f"`{text}` is not a chord; write I, IV, V7, bVI7, ii or `V | IV`"
        ) from None


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
            meant=_chords_meant,
        ),
        Option("--overbends", "use overblows and overdraws too"),
        Option("--name", "name of the new lick", value="NAME"),
        Option("--all", "all ways, not only the good ones"),
        *data_options("recast", "the licks"),
        *DRAFT,
    ),
    examples=(
        "formsheet recast lessons/kitchen.lesson porch --on IV",
        "formsheet recast lessons/kitchen.lesson porch --draft --out lessons/porch.lesson",
    ),
)
