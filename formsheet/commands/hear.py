"""`formsheet hear`: a recording of a lick, as text of the language."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from formsheet.commands.declared import Argument, Command, Option
from formsheet.commands.files import FINE, UsageError
from formsheet.commands.named import (
    fact_option,
    named_harp,
    named_meter,
    named_position,
    named_tempo,
    named_tuning,
    new_lick_name,
    read_option,
    setup_options,
)
from formsheet.commands.output import OUTPUT, deliver, output_path
from formsheet.lesson.facts import MOST_FORM_BARS
from formsheet.music.tunings import RICHTER
from formsheet.vocabulary.facts import FEEL, METER, TEMPO

if TYPE_CHECKING:
    from formsheet.arrange.rank import Layout
    from formsheet.hearing.notes import Listening
    from formsheet.music.harp import Harp
    from formsheet.music.tunings import Tuning

_POSITION = 2  # the most usual for blues; common practice, no source


def run(arguments: argparse.Namespace) -> int:
    """Write what was heard; say how it was tuned, how fast, and what is not sure."""
    out = output_path(arguments)
    name = new_lick_name(arguments.lick)
    tempo = float(named_tempo(arguments.tempo)) if arguments.tempo else None
    meter = named_meter(arguments.meter) if arguments.meter else None
    feel = read_option(FEEL, arguments.feel) if arguments.feel else None
    position = named_position(arguments.position) if arguments.position else None
    tuning = named_tuning(arguments.tuning) if arguments.tuning else RICHTER
    harp = named_harp(arguments.harp, tuning) if arguments.harp else None
    from formsheet.hearing.hear import NothingHeard, written
    from formsheet.hearing.notes import listen
    from formsheet.hearing.recording import RecordingError, read_recording
    from formsheet.report.hear import harps_table, heard_text, hearing_report

    try:
        recording = read_recording(Path(arguments.recording))
        heard = listen(recording.samples, recording.rate)
        layouts: Sequence[Layout] = ()
        if harp is None:
            harp, position, layouts = _found(heard, position, tuning)
        position = position or _POSITION
        hearing = written(heard, harp, tempo=tempo, meter=meter, feel=feel, chords=arguments.chords)
    except (RecordingError, NothingHeard) as caught:
        raise UsageError(str(caught)) from None
    if arguments.lesson and hearing.bars > MOST_FORM_BARS:
        raise UsageError(
            f"{hearing.bars} bars were heard, and a form has {MOST_FORM_BARS} at most: "
            "cut the recording, or write a lick without --lesson"
        )
    deliver(heard_text(hearing, position, name, lesson=arguments.lesson), out)
    lines = [*hearing_report(hearing, position), *(harps_table(layouts) if layouts else ())]
    print("\n".join(lines), file=sys.stderr)
    return FINE


def _found(
    heard: Listening, position: int | None, tuning: Tuning
) -> tuple[Harp, int, Sequence[Layout]]:
    """The harp that plays it best, with its position, and all others."""
    from formsheet.hearing.hear import NothingHeard
    from formsheet.hearing.which_harp import layouts_of

    layouts = layouts_of(heard, position, tuning)
    if not layouts:
        raise NothingHeard("no note was heard; play nearer to the microphone, or louder")
    return layouts[0].harp, layouts[0].position, layouts


COMMAND = Command(
    "hear",
    "write a recording of a lick as text, on the harp it was played on",
    run,
    arguments=(
        Argument("recording", "FILE", "WAV, FLAC, MP3, OGG, Opus; .m4a where ffmpeg is installed"),
    ),
    options=(
        *setup_options(harp=" (default: the one that plays it best)", position=" (default: 2nd)"),
        fact_option(TEMPO, more=" (default: as heard)"),
        fact_option(FEEL, more=" (default: as heard)"),
        fact_option(METER, more=" (default: as counted in, else 4/4)"),
        Option("--lick", "name of the lick", value="NAME", default="take"),
        Option("--lesson", "write a whole lesson, not only a lick"),
        Option("--chords", "expect chords and splits; single notes are heard better without"),
        *OUTPUT,
    ),
    examples=(
        "formsheet hear take.wav --harp A --tempo 96 --feel swing",
        "formsheet hear take.wav --lick porch --out porch.licks",
    ),
)
