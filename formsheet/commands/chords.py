"""`formsheet chords`: how a harp plays the chords of a form."""

from __future__ import annotations

import argparse
import json

from formsheet.commands.files import ERRORS, FINE, Teller, UsageError, examined_one
from formsheet.commands.fit import named_form
from formsheet.judge.harmony import chord_on_harp
from formsheet.language.files import LESSON_SUFFIX
from formsheet.lesson.facts import POSITIONS
from formsheet.music.form import Form
from formsheet.music.harp import HARP_KEYS, REGISTERS, Harp
from formsheet.music.key import Key, song_key
from formsheet.music.tunings import TUNINGS
from formsheet.report.chords import chords_data, chords_table


def run(arguments: argparse.Namespace) -> int:
    """Print roots, blocks, splits and bent tones for each chord."""
    if arguments.file:
        each = examined_one(arguments.file, (LESSON_SUFFIX,))
        if not (each.lesson and each.in_order):
            Teller().tell(each.problems)
            return ERRORS
        harp, form, key = each.lesson.facts.harp, each.lesson.form, each.lesson.key
    else:
        harp, form, key = _from_options(arguments)
    found = [chord_on_harp(chord, key, harp) for chord in form.chords]
    if arguments.json:
        print(json.dumps(chords_data(found, harp, key), indent=2))
    else:
        print(f"{harp.name} harp, {harp.tuning.name} tuning, key of {key.name}; {form.name}")
        print("\n".join(chords_table(found, harp, key)))
    return FINE


def _from_options(arguments: argparse.Namespace) -> tuple[Harp, Form, Key]:
    *register, key = (arguments.harp or "C").split()
    if key not in HARP_KEYS or " ".join(register) not in REGISTERS:
        raise UsageError(f"no harp is stamped {arguments.harp}; write C, Bb or 'low F'")
    position = arguments.position or "2nd"
    if position not in POSITIONS:
        raise UsageError(f"{position} is no position; write 1st to 12th")
    tuning = arguments.tuning or "richter"
    if tuning not in TUNINGS:
        raise UsageError(f"there is no tuning called {tuning}; there are {', '.join(TUNINGS)}")
    form = named_form(arguments.form or "12-bar standard")
    harp = Harp(key, " ".join(register), TUNINGS[tuning])
    return harp, form, song_key(key, POSITIONS.index(position) + 1, form.minor)
