"""`formsheet recast`: a lick on another chord, or a first draft of a whole tune from one lick."""

from __future__ import annotations

import argparse
import json
from collections.abc import Mapping, Sequence
from dataclasses import replace
from pathlib import Path

from formsheet.commands.files import ERRORS, FINE, Teller, UsageError, examined, jobs
from formsheet.commands.named import named_licks
from formsheet.commands.parser import Commands
from formsheet.language import tree as t
from formsheet.language.files import LESSON_SUFFIX, SHELF_SUFFIX, read_source
from formsheet.language.parse import parse
from formsheet.lesson.model import Facts, Lesson, Lick
from formsheet.music.chord import parse_chord
from formsheet.music.form import Form, FormBar
from formsheet.music.key import song_key
from formsheet.recast.naming import recast_name, recast_title
from formsheet.recast.target import sounding
from formsheet.recast.text import lick_as_text, rhythm_of
from formsheet.recast.trial import Tried, tried_recasts
from formsheet.report.recast import recast_data, recast_lines
from formsheet.source import Source
from formsheet.stages import Examined

_MOST_SHOWN = 3
_MOST_IN_A_BAR = 2


def add(commands: Commands) -> None:
    """The command and its options."""
    command = commands.add_parser("recast", help="put a lick on another chord")
    command.add_argument("file", metavar="FILE", help="a lesson or a shelf")
    command.add_argument("lick", metavar="LICK")
    command.add_argument(
        "--on", action="append", metavar="CHORDS", required=True,
        help="such as IV, or one chord a bar: `V | IV`; may be given several times",
    )  # fmt: skip
    command.add_argument("--name", metavar="NAME", help="of the new lick")
    command.add_argument("--overbends", action="store_true", help="overblows and overdraws too")
    command.add_argument("--all", action="store_true", help="every way, not the best three alone")
    command.add_argument("--json", action="store_true", help="the licks as data")
    command.set_defaults(run=run)


def run(arguments: argparse.Namespace) -> int:
    """Print the ways of playing a lick on other chords, the best first."""
    each, tree = _read(arguments.file)
    lesson, licks = _contents(each)
    if lesson is None or not each.in_order:
        Teller().tell(each.problems)
        return ERRORS
    lick = named_licks([arguments.lick], licks)[arguments.lick]
    rhythm = rhythm_of(arguments.lick, tree)
    data, lines = [], []
    for on in arguments.on:
        chords = sounding(_chords(on, lick), lesson.facts.form)
        new = _renamed(arguments, lick, chords, licks)
        found = tried_recasts(new, chords, lesson.facts, lesson.key, arguments.overbends)
        for number, tried in enumerate(_shown(found, arguments.all), start=1):
            text = lick_as_text(tried.recast.lick, rhythm)
            data.append(recast_data(tried, text, lesson))
            lines += [*recast_lines(tried, number, text, lesson), ""]
    print(json.dumps(data, indent=2, ensure_ascii=False) if arguments.json else "\n".join(lines))
    return FINE


def _shown(found: Sequence[Tried], everything: bool) -> Sequence[Tried]:
    return found if everything else found[:_MOST_SHOWN]


def _renamed(
    arguments: argparse.Namespace, lick: Lick, chords: Sequence[FormBar], licks: Mapping[str, Lick]
) -> Lick:
    """The lick under its new name, without the tips, which speak of the old holes."""
    name = arguments.name or recast_name(arguments.lick, chords, licks)
    title = recast_title(arguments.lick, lick.title, chords, name)
    return replace(lick, name=name, title=title, tips=())


def _chords(text: str, lick: Lick) -> list[FormBar]:
    """Chords as the command names them: one bar for all, or one for each bar of the lick."""
    bars = [_bar(bar.split(), text) for bar in text.split("|")]
    if len(bars) == 1:
        return bars * len(lick.bars)
    if len(bars) != len(lick.bars):
        raise UsageError(f"{lick.name} has {len(lick.bars)} bars, and `{text}` names {len(bars)}")
    return bars


def _bar(numerals: Sequence[str], text: str) -> FormBar:
    if not 1 <= len(numerals) <= _MOST_IN_A_BAR:
        raise UsageError(f"a bar has a chord or two; in `{text}` one has {len(numerals)}")
    try:
        return tuple(map(parse_chord, numerals))
    except ValueError:
        raise UsageError(f"`{text}` is no chord; write I, IV, V7, bVI7, ii or `V | IV`") from None


def _read(name: str) -> tuple[Examined, t.FileTree]:
    """The file as far as the stages could take it, and its tree."""
    work = jobs([name], (LESSON_SUFFIX, SHELF_SUFFIX))
    if Path(name).is_dir():
        raise UsageError(f"{name} is a folder; name one file")
    job, each = next(examined(work))
    source, _ = read_source(job.path, str(job.path))
    return each, parse(source)[0] if source else t.FileTree(Source(name, ""))


def _contents(each: Examined) -> tuple[Lesson | None, Mapping[str, Lick]]:
    """The lesson, or a shelf as one without a form, and the licks."""
    if each.lesson:
        return each.lesson, each.lesson.licks
    if each.shelf:
        licks = {name: lick for name, lick in each.shelf.licks.items() if lick}
        return _shelf_lesson(each.shelf.facts, licks), licks
    return None, {}


def _shelf_lesson(facts: Facts, licks: Mapping[str, Lick]) -> Lesson | None:
    span = next((lick.span for lick in licks.values()), None)
    if span is None:
        return None
    minor = any(chord.minor_third and not chord.root for lick in licks.values()
                for bar in lick.on for slot in bar for chord in slot)  # fmt: skip
    key = song_key(facts.harp.key, facts.position, minor)
    return Lesson(facts, Form("", ()), key, dict(licks), (), span)
