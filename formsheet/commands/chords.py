"""`formsheet chords`: how a harp plays the chords of a form."""

from __future__ import annotations

import argparse
import json
import sys

from formsheet.commands.declared import Argument, Command, Option
from formsheet.commands.files import ERRORS, FINE, Teller, examined_one
from formsheet.commands.named import (
    named_form,
    named_harp,
    named_position,
    named_tuning,
    setup_options,
)
from formsheet.commands.schema import data_options
from formsheet.judge.chart import chord_chart
from formsheet.judge.fit import has_blue_notes
from formsheet.judge.harmony import chord_on_harp
from formsheet.judge.level import LIMITS
from formsheet.lesson.model import Facts
from formsheet.music.form import FORMS
from formsheet.music.key import position_name, song_key
from formsheet.report.chart import legend
from formsheet.report.chords import charted_table, chords_data
from formsheet.report.paint import paints
from formsheet.suffixes import LESSON_SUFFIX

#: Facts that must be read without errors; licks may have some.
_NEEDED = ("harp", "position", "tuning", "form")


def run(arguments: argparse.Namespace) -> int:
    """Print for each chord every note of the harp, roots, blocks, splits and bent tones.

    Options take the place of what the lesson says.
    """
    facts, form, lesson = Facts(), FORMS["12-bar standard"], None
    chords = form.chords
    if arguments.file:
        each = examined_one(arguments.file, (LESSON_SUFFIX,))
        lesson = each.lesson
        if not (lesson and lesson.facts.known(*_NEEDED) and lesson.form.bars):
            Teller().tell(each.problems)
            return ERRORS
        facts, form, chords = lesson.facts, lesson.form, lesson.chords
    harp, position = facts.harp, facts.position
    tuning = named_tuning(arguments.tuning) if arguments.tuning else harp.tuning
    harp = named_harp(arguments.harp or harp.name, tuning)
    position = named_position(arguments.position) if arguments.position else position
    if arguments.form:
        form = named_form(arguments.form)
        chords = form.chords
    key = song_key(harp.key, position, form.minor)
    found = [chord_on_harp(chord, key, harp) for chord in chords]
    blue = False
    if lesson:
        now = facts._replace(harp=harp, position=position)
        blue = has_blue_notes(lesson._replace(facts=now, form=form, key=key))
    limits = LIMITS[facts.level]
    charts = [
        chord_chart(chord, key, harp, limits, overbends=arguments.overbends, blue=blue)
        for chord in chords
    ]
    if arguments.json:
        print(json.dumps(chords_data(found, charts, harp, key), indent=2))
        return FINE
    print(f"{harp.name} harp{harp.tuned}, {position_name(position)} position, key of {key.name}")
    print(form.full_name)
    for line in form.lines:
        print("  " + " | ".join(" ".join(map(str, bar)) for bar in line))
    print("\n".join(legend(charts, limits)))
    print("\n".join(charted_table(found, charts, harp, key, paints(sys.stdout))))
    return FINE


COMMAND = Command(
    "chords",
    "say how a harp plays the chords of a form",
    run,
    arguments=(Argument("file", "FILE", "a lesson (default: the options)", many="?"),),
    options=(
        *setup_options(position=" (default: 2nd)", form=True),
        Option("--overbends", "show overblows and overdraws too"),
        *data_options("chords", "the table"),
    ),
    examples=(
        "formsheet chords lessons/kitchen.lesson",
        'formsheet chords --harp A --position 3rd --form "12-bar minor"',
    ),
)
