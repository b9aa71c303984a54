"""`formsheet tab`: a melody from a file or in words, as a lick on the best harp and position."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Sequence
from typing import NamedTuple

from formsheet.arrange.chorus import Choruses, chord_bars, choruses_of, laid_over, whole_form
from formsheet.arrange.cut import cut_lesson
from formsheet.arrange.melody import (
    home,
    melody_facts,
    melody_lesson,
    melody_lick,
    melody_line,
    tabbed_layout,
)
from formsheet.arrange.octaves import MOST_OCTAVES, OCTAVE
from formsheet.arrange.rank import Layout, harps_for, in_registers, ranked
from formsheet.arrange.shelf import shelf_text
from formsheet.arrange.sounds import moved
from formsheet.arrange.tonality import Tonality, tonality
from formsheet.commands.declared import Argument, Command, Option
from formsheet.commands.files import ERRORS, FINE, UsageError
from formsheet.commands.named import (
    fact_option,
    named_form,
    named_harp,
    named_key,
    named_octaves,
    named_position,
    named_tuning,
    new_lick_name,
    setup_options,
)
from formsheet.commands.output import OUTPUT, deliver, output_path
from formsheet.commands.tab_source import Brought, brought, named_bars
from formsheet.lesson.writing import lesson_text
from formsheet.music.form import Form, FormBar
from formsheet.music.harp import Harp
from formsheet.music.key import position_of, song_key
from formsheet.music.tunings import RICHTER
from formsheet.notes.melody import Melody, NotesError, Said
from formsheet.notes.names import read_names, with_plain_names
from formsheet.notes.oldtab.shorthands import NAMES
from formsheet.notes.oldtab.timing import tab_melody
from formsheet.report.tab import tab_report
from formsheet.vocabulary.facts import FORM, METER


class _Set(NamedTuple):
    """A melody set to tab: the layouts, best first, and how it was done."""

    melody: Melody
    tonality: Tonality
    layouts: Sequence[Layout]
    half_steps: int = 0


def run(arguments: argparse.Namespace) -> int:
    """Write the lick; report how it was read, which notes are missing, and other layouts."""
    out = output_path(arguments)
    new_lick_name(arguments.name)
    form = named_form(arguments.form) if arguments.form else None
    try:
        done = _set(arguments, brought(arguments), form)
        text, said = _text(arguments, done, form)
    except NotesError as caught:
        raise UsageError(str(caught)) from None
    deliver(text, out)
    report = tab_report(
        done.melody, done.tonality, done.layouts, done.half_steps, said=said
    )  # fmt: skip
    print("\n".join(report), file=sys.stderr)
    return ERRORS if done.layouts[0].arranged.missing else FINE


# ---- Setting to tab ------------------------------------------------------------------------


def _set(arguments: argparse.Namespace, given: Brought, form: Form | None) -> _Set:
    if given.old:
        return _old_tab(arguments, given)
    assert given.melody
    melody = given.melody
    asked = named_key(arguments.key) if arguments.key else None
    found = tonality(melody, asked, form)
    key = found.key
    own = (arguments.harp, arguments.position, arguments.octave, arguments.tuning)
    if melody.tabbed and melody.harp and melody.position and not any(own) and not asked:
        return _Set(melody, found, [tabbed_layout(melody, melody.harp, melody.position)])
    harps = _harps(arguments, key.tonic)
    position, harp = harps[0]
    new_key = song_key(harp.key, position, key.minor)
    half_steps = (new_key.pitch_class - key.pitch_class + 5) % OCTAVE - 5
    octaves: Sequence[int] = range(-MOST_OCTAVES, MOST_OCTAVES + 1)
    if arguments.octave:
        octaves = (named_octaves(arguments.octave),)
    layouts = ranked(
        [moved(melody_line(melody), half_steps)],
        harps,
        overbends=arguments.overbends,
        octaves=octaves,
        blues=found.blues,
    )
    return _Set(melody, found._replace(key=new_key), layouts, half_steps)


def _old_tab(arguments: argparse.Namespace, given: Brought) -> _Set:
    """Old tab stays as it is written: the harp is named or C, the position is found."""
    assert given.old
    if arguments.octave or arguments.overbends or arguments.double:
        raise UsageError("old tab stays as it is; `formsheet retab` moves it once it is a lick")
    tuning = named_tuning(arguments.tuning) if arguments.tuning else RICHTER
    name = arguments.harp or given.old.harp or "C"
    harp = named_harp(name, tuning)
    melody = tab_melody(given.old, harp, given.meter, arguments.rhythm, given.title)
    if arguments.bars:
        melody = melody.part(*named_bars(arguments.bars))
    whence = "asked" if arguments.harp else "named" if given.old.harp else "usual"
    asked = named_key(arguments.key) if arguments.key else None
    if arguments.position and not asked:
        asked = song_key(harp.key, named_position(arguments.position))
    found = tonality(melody, asked, None)
    position = position_of(harp.key, found.key.tonic)
    key = song_key(harp.key, position, found.key.minor)
    said = (*melody.said, Said("old-tab-harp", {"harp": harp.name, "whence": whence}))
    melody = Melody(
        melody.tones, melody.meter, melody.feel, melody.title, key=key, said=said, harp=harp,
        position=position,
    )  # fmt: skip
    return _Set(melody, found._replace(key=key), [tabbed_layout(melody, harp, position)])


def _harps(arguments: argparse.Namespace, tonic: str) -> Sequence[tuple[int, Harp]]:
    """The harps to try, each with its position."""
    tuning = named_tuning(arguments.tuning) if arguments.tuning else RICHTER
    position = named_position(arguments.position) if arguments.position else None
    if arguments.harp:
        harp = named_harp(arguments.harp, tuning)
        return [(position or position_of(harp.key, tonic), harp)]
    harps = harps_for(tonic, tuning=tuning)
    harps = [each for each in harps if position in (None, each[0])]
    return in_registers(harps) if arguments.octave else harps


# ---- Writing -------------------------------------------------------------------------------


def _text(
    arguments: argparse.Namespace, done: _Set, form: Form | None
) -> tuple[str, Sequence[Said]]:
    """The lick or the lesson as text; with remarks on its chords."""
    melody, layout, key = done.melody, done.layouts[0], done.tonality.key
    chords, said = chord_bars(melody, done.tonality.written)
    if arguments.lesson:
        choruses = _choruses(melody, chords, form or done.tonality.form, given=form is not None)
        if choruses is None:
            whole_form([(home(key),)] * melody.bars)
            return lesson_text(melody_lesson(melody, layout, key, arguments.name)), said
        lesson = cut_lesson(melody, layout, key, arguments.name, choruses)
        return lesson_text(lesson), [*said, *choruses.said]
    over = form.bars if form else chords
    bars = [over[at % len(over)] for at in range(melody.bars)] if over else []
    lick = melody_lick(melody, layout.arranged.laid[0], key, arguments.name, bars)
    return shelf_text(melody_facts(melody, layout), [lick]), said


def _choruses(
    melody: Melody, chords: Sequence[FormBar], form: Form | None, given: bool
) -> Choruses | None:
    """The form to cut the melody over; None if nothing says which chords there are."""
    if chords and not given:
        return choruses_of(chords, melody.form)
    return laid_over(form, melody.bars) if form else None


def _notes_meant(text: str) -> Sequence[str] | None:
    """The notes by their names here: "B4" for "H4"; None where one is not known."""
    right = with_plain_names(text)
    try:
        read_names(right)
    except NotesError:
        return None
    return [right]


_SCORES, _OLD_TAB = "scores and MIDI files", "old tab"

COMMAND = Command(
    "tab",
    "write a melody (MIDI, MusicXML, old tab or note names) as a lick",
    run,
    arguments=(
        Argument(
            "melody",
            "FILE|NOTES",
            'a file, or notes: "q G4 B4 e D5 E5 q D5 | h B4 G4"',
            meant=_notes_meant,
        ),
    ),
    options=(
        *setup_options(harp=" (default: the best)", position=" (default: the best)"),
        Option("--key", "such as G or `G minor` (default: that of the file)", value="KEY"),
        Option("--overbends", "use overblows and overdraws too"),
        Option("--octave", "octaves up, or down (-1) (default: the best)", value="N"),
        fact_option(METER, "meter of notes in words (default: 4/4)"),
        Option("--bars", "only these bars, such as 1-8, as the score counts", value="A-B"),
        Option("--name", "name of the lick", value="NAME", default="melody"),
        Option("--lesson", "write a whole lesson, cut into a lick for each chord"),
        fact_option(FORM, "a built-in form (default: the chords of the score)"),
        *OUTPUT,
        Option("--part", "name or number of the part", value="NAME", heading=_SCORES),
        Option("--double", "in doubled values, for thirty-seconds", heading=_SCORES),
        Option(
            "--shorthand", "how draw and blow are written (default: found)",
            choices=NAMES, heading=_OLD_TAB,
        ),
        Option(
            "--in", 'a rhythm, an x for each note: "q x e x x"', value="RHYTHM", field="rhythm",
            heading=_OLD_TAB,
        ),
        Option("--columns", "columns of the page (default: found)", value="N", heading=_OLD_TAB),
    ),
    examples=(
        'formsheet tab "q G4 B4 e D5 E5 q D5 | h B4 G4" --harp C',
        "formsheet tab tune.mid --position 2nd --lesson --out lessons/tune.lesson",
        'formsheet tab old.txt --harp A --in "q x e x x q x x"',
    ),
)  # fmt: skip
