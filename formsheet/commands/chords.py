"""`formsheet chords`: how a harp plays the chords of a form."""

from __future__ import annotations

import argparse
import json

from formsheet.commands.declared import Argument, Command
from formsheet.commands.files import ERRORS, FINE, Teller, examined_one
from formsheet.commands.named import (
    named_form,
    named_harp,
    named_position,
    named_tuning,
    setup_options,
)
from formsheet.commands.schema import data_options
from formsheet.judge.harmony import chord_on_harp
from formsheet.music.form import FORMS
from formsheet.music.harp import Harp
from formsheet.music.key import position_name, song_key
from formsheet.report.chords import chords_data, chords_table
from formsheet.suffixes import LESSON_SUFFIX

#: What must be sure in a lesson for its chords to be told; its licks need not be.
_NEEDED = ("harp", "position", "tuning", "form")


def run(arguments: argparse.Namespace) -> int:
    """Print roots, blocks, splits and bent tones for each chord.

    Options take the place of what the lesson says.
    """
    harp, position, form = Harp("C"), 2, FORMS["12-bar standard"]
    chords = form.chords
    if arguments.file:
        each = examined_one(arguments.file, (LESSON_SUFFIX,))
        if not (each.lesson and each.lesson.facts.known(*_NEEDED) and each.lesson.form.bars):
            Teller().tell(each.problems)
            return ERRORS
        facts = each.lesson.facts
        harp, position, form = facts.harp, facts.position, each.lesson.form
        chords = each.lesson.chords
    tuning = named_tuning(arguments.tuning) if arguments.tuning else harp.tuning
    harp = named_harp(arguments.harp or harp.name, tuning)
    position = named_position(arguments.position) if arguments.position else position
    if arguments.form:
        form = named_form(arguments.form)
        chords = form.chords
    key = song_key(harp.key, position, form.minor)
    found = [chord_on_harp(chord, key, harp) for chord in chords]
    if arguments.json:
        print(json.dumps(chords_data(found, harp, key), indent=2))
        return FINE
    print(f"{harp.name} harp{harp.tuned}, {position_name(position)} position, key of {key.name}")
    print(form.full_name)
    for line in form.lines:
        print("  " + " | ".join(" ".join(map(str, bar)) for bar in line))
    print("\n".join(chords_table(found, harp, key)))
    return FINE


COMMAND = Command(
    "chords",
    "say how a harp plays the chords of a form",
    run,
    arguments=(Argument("file", "FILE", "a lesson; or name the harp", many="?"),),
    options=(
        *setup_options(position=" (default: 2nd)", form=True),
        *data_options("chords", "the table"),
    ),
    examples=(
        "formsheet chords lessons/kitchen.lesson",
        'formsheet chords --harp A --position 3rd --form "12-bar minor"',
    ),
)
