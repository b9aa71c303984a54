"""`formsheet retab`: the same music on another harp, in another position or tuning."""

from __future__ import annotations

import argparse
import sys
from dataclasses import replace

from formsheet.arrange.doubts import Doubt
from formsheet.arrange.retab import Asked, Retabbed, other_layouts, retabbed
from formsheet.arrange.rewrite import doubted, doubts, rewritten, tips_to_doubt
from formsheet.arrange.shelf import shelf_text
from formsheet.commands.declared import Argument, Command, Option
from formsheet.commands.files import ERRORS, FINE, Teller, UsageError
from formsheet.commands.named import (
    named_harp,
    named_octaves,
    named_position,
    named_tuning,
    setup_options,
)
from formsheet.commands.opened import Opened, open_licks
from formsheet.commands.output import OUTPUT, deliver, output_path
from formsheet.judge.joins import joined_marks
from formsheet.language.tidy import tidied
from formsheet.lesson.model import Facts
from formsheet.music.tunings import RICHTER
from formsheet.report.retab import retab_report
from formsheet.report.table import summary
from formsheet.source import Source
from formsheet.stages import examine_any
from formsheet.suffixes import SHELF_SUFFIX


def run(arguments: argparse.Namespace) -> int:
    """Write the new text; say what changed, and what cannot be played."""
    asked, out = _asked(arguments), output_path(arguments)
    opened = open_licks(arguments.file)
    if opened.lesson is None or not opened.examined.in_order:
        Teller().tell(opened.examined.problems)
        return ERRORS
    facts = opened.lesson.facts
    chosen = opened.chosen(arguments.licks) if arguments.licks else opened.licks
    tune = opened.examined.tune
    joins = joined_marks(tune) if tune else ()
    done = retabbed(facts, opened.lesson.key, chosen, asked, joins)
    others = other_layouts(done, asked, facts.harp) if done.arranged.missing else []
    if arguments.licks:
        new = Source(f"licks{SHELF_SUFFIX}", _licks_text(facts, done))
        found = list(tips_to_doubt(done, [*done.licks]))
    else:
        new, found = _whole(opened, facts, done)
    deliver(new.text, out)
    print("\n".join(retab_report(done, facts.meter, others, found)), file=sys.stderr)
    again = examine_any(new, opened.shelves)
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
        raise UsageError("give --position, --harp, --tuning or --octave")
    return asked


def _licks_text(facts: Facts, done: Retabbed) -> str:
    now = facts._replace(harp=done.harp, position=done.position)
    text = shelf_text(now, [done.lick(name) for name in done.licks])
    return doubted(text, done) + "\n"


def _whole(opened: Opened, facts: Facts, done: Retabbed) -> tuple[Source, list[Doubt]]:
    """The new file, and texts of the old one that may not be true of it."""
    source, tree = opened.source, opened.tree
    rhythms = opened.shelves.used(tree, facts).rhythms
    text, _ = tidied(Source(source.name, rewritten(tree, done, rhythms), source.path))
    assert text is not None, "what was read and changed can be read"
    return Source(source.name, text, source.path), list(doubts(tree, done))


COMMAND = Command(
    "retab",
    "write the same music for another harp, position or tuning",
    run,
    arguments=(
        Argument("file", "FILE", "a lesson or a shelf"),
        Argument(
            "licks", "LICK", "only these licks, as a shelf (default: the whole file)", many="*"
        ),
    ),
    options=(
        *setup_options(),
        Option("--overbends", "use overblows and overdraws too"),
        Option("--octave", "octaves up, or down (-1) (default: the best)", value="N"),
        *OUTPUT,
    ),
    examples=(
        "formsheet retab lessons/kitchen.lesson --position 3rd --out lessons/kitchen-3rd.lesson",
        "formsheet retab lessons/kitchen.lesson porch --harp A",
    ),
)
