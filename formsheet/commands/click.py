"""`formsheet click`: the count-in to record a take against."""

from __future__ import annotations

import argparse
from pathlib import Path

from formsheet.commands.declared import Command, Option
from formsheet.commands.files import FINE, UsageError
from formsheet.commands.named import fact_option, named_meter, named_tempo
from formsheet.commands.output import deliver_bytes, output_path
from formsheet.vocabulary.facts import METER, MOST_COUNT_IN, TEMPO


def run(arguments: argparse.Namespace) -> int:
    """Write the clicks as a WAV file."""
    if arguments.tempo is None:
        raise UsageError("a click needs its tempo: --tempo 96")
    tempo, meter = named_tempo(arguments.tempo), named_meter(arguments.meter)
    bars = _bars(arguments.bars)
    path = output_path(arguments) or Path("click.wav")
    if arguments.out is None and path.exists() and not arguments.force:
        raise UsageError(f"{path} exists already; overwrite it with --force")
    from formsheet.hearing.clicks import count_in_samples
    from formsheet.sound.wav import SOFTWARE, TITLE, wav_bytes

    samples = count_in_samples(float(tempo), meter, bars)
    title = f"Count-in, {float(tempo):g} beats a minute"
    deliver_bytes(wav_bytes(samples, {TITLE: title, SOFTWARE: "formsheet"}), path)
    return FINE


def _bars(text: str) -> int:
    if not (text.isdecimal() and len(text) == 1 and 1 <= int(text) <= MOST_COUNT_IN):
        raise UsageError(f'"{text}" is not a number of bars; write 1 to {MOST_COUNT_IN}')
    return int(text)


COMMAND = Command(
    "click",
    "write the count-in to record a take against, as WAV",
    run,
    options=(
        fact_option(TEMPO),
        fact_option(METER, "meter of the count (default: 4/4)")._replace(default="4/4"),
        Option("--bars", f"bars that are counted, 1 to {MOST_COUNT_IN}", value="N", default="1"),
        Option("--out", "the file to write (default: click.wav)", value="FILE"),
        Option("--force", "overwrite an existing file"),
    ),
    examples=("formsheet click --tempo 96 --bars 1 --out click.wav",),
)
