"""`formsheet retab`: the same music on another harp, in another position or tuning."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Mapping
from dataclasses import replace

from formsheet.arrange.retab import Asked, Retabbed, other_layouts, retabbed
from formsheet.arrange.rewrite import rewritten, speaks_of_playing
from formsheet.arrange.shelf import shelf_text
from formsheet.commands.files import ERRORS, FINE, Teller, UsageError, examined, one_job
from formsheet.commands.named import (
    add_setup,
    named_harp,
    named_licks,
    named_octaves,
    named_position,
    named_tuning,
)
from formsheet.commands.output import add_output, deliver, output_path
from formsheet.commands.parser import Commands
from formsheet.language.files import read_source
from formsheet.language.parse import parse
from formsheet.language.tidy import tidied
from formsheet.lesson.model import Facts, Lick
from formsheet.lesson.shelves import Shelves
from formsheet.music.key import Key, song_key
from formsheet.music.tunings import RICHTER
from formsheet.report.retab import retab_report
from formsheet.report.table import summary
from formsheet.source import Source
from formsheet.stages import Examined, examine_any
from formsheet.suffixes import LESSON_SUFFIX, SHELF_SUFFIX


def add(commands: Commands) -> None:
    """The command and its options."""
    command = commands.add_parser(
        "retab", help="write the same music for another harp, position or tuning"
    )
    command.add_argument("file", metavar="FILE", help="a lesson or a shelf")
    command.add_argument(
        "licks", nargs="*", metavar="LICK", help="these alone, as a shelf; the whole file if none"
    )
    add_setup(command)
    command.add_argument("--overbends", action="store_true", help="overblows and overdraws too")
    command.add_argument(
        "--octave", metavar="N", help="so many octaves up, or down (-1); else the best one"
    )
    add_output(command)
    command.set_defaults(run=run)


def run(arguments: argparse.Namespace) -> int:
    """Write the new text; say what changed, and what cannot be played."""
    asked, out = _asked(arguments), output_path(arguments)
    job, each = next(examined([one_job(arguments.file, (LESSON_SUFFIX, SHELF_SUFFIX))]))
    facts, key, licks = _contents(each)
    if facts is None or not each.in_order:
        Teller().tell(each.problems)
        return ERRORS
    chosen = named_licks(arguments.licks, licks) or licks
    done = retabbed(facts, key, chosen, asked)
    others = other_layouts(done, asked, facts.harp) if done.arranged.missing else []
    source, _ = read_source(job.path, str(job.path))
    assert source, "it has been read before"
    texts: list[tuple[str, str]] = []
    if arguments.licks:
        new = Source(f"licks{SHELF_SUFFIX}", _licks_text(facts, done))
    else:
        new, texts = _whole(source, facts, done, Shelves(job.folder))
    deliver(new.text, out)
    print("\n".join(retab_report(done, facts.meter, others, texts)), file=sys.stderr)
    again = examine_any(new, Shelves(job.folder))
    if again.problems:
        print(f"`check` of the new text: {summary(again.problems)}", file=sys.stderr)
    return ERRORS if done.arranged.missing else FINE


def _asked(arguments: argparse.Namespace) -> Asked:
    tuning = named_tuning(arguments.tuning) if arguments.tuning else None
    asked = Asked(
        harp=named_harp(arguments.harp, tuning or RICHTER) if arguments.harp else None,
        position=named_position(arguments.position) if arguments.position else None,
        tuning=tuning,
        overbends=arguments.overbends,
        octaves=named_octaves(arguments.octave) if arguments.octave else None,
    )
    if asked == replace(Asked(), overbends=asked.overbends):
        raise UsageError("say for what: --position, --harp, --tuning or --octave")
    return asked


def _contents(each: Examined) -> tuple[Facts | None, Key, Mapping[str, Lick]]:
    """Facts, key and licks of a lesson; a shelf's own licks, those that it passes on left out."""
    if each.lesson:
        return each.lesson.facts, each.lesson.key, each.lesson.licks
    if each.shelf:
        facts = each.shelf.facts
        licks = {name: lick for name, lick in each.shelf.licks.items() if lick}
        return facts, song_key(facts.harp.key, facts.position), licks
    return None, Key("C", False), {}


def _licks_text(facts: Facts, done: Retabbed) -> str:
    now = replace(facts, harp=done.harp, position=done.position)
    return shelf_text(now, [done.lick(name) for name in done.licks])


def _whole(
    source: Source, facts: Facts, done: Retabbed, shelves: Shelves
) -> tuple[Source, list[tuple[str, str]]]:
    """The new file, and texts of the old one that speak of holes."""
    tree, _ = parse(source)
    rhythms = shelves.used(tree, facts).rhythms
    text, _ = tidied(Source(source.name, rewritten(tree, done, rhythms), source.path))
    assert text is not None, "what was read and changed can be read"
    return Source(source.name, text, source.path), list(speaks_of_playing(tree, done))
