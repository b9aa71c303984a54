"""`formsheet new`: a lesson to start from."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Callable
from pathlib import Path
from typing import TypeVar

from formsheet.commands.files import FINE, UsageError
from formsheet.commands.named import (
    named_feel,
    named_form,
    named_harp,
    named_meter,
    named_position,
    named_tempo,
    named_tuning,
)
from formsheet.commands.parser import Commands
from formsheet.desk.starter import Start, starter_text
from formsheet.music.tunings import RICHTER
from formsheet.suffixes import LESSON_SUFFIX

T = TypeVar("T")


def add(commands: Commands) -> None:
    """The command and its options."""
    command = commands.add_parser("new", help="write a lesson to start from")
    command.add_argument("file", metavar="FILE", help="where it goes; `.lesson` may be left out")
    command.add_argument("--title", metavar="TEXT", help="the printed title")
    command.add_argument("--harp", metavar="KEY", help="such as C, Bb or `low F` (default: C)")
    command.add_argument("--tuning", metavar="NAME", help="a built-in tuning")
    command.add_argument("--position", metavar="Nth", help="1st to 12th (default: 2nd)")
    command.add_argument("--form", metavar="NAME", help="a built-in form")
    command.add_argument("--meter", metavar="N/N", help="4/4, 12/8, 3/4 or 6/8")
    command.add_argument("--feel", metavar="WORD", help="swing, straight, `swing 3:2`")
    command.add_argument("--tempo", metavar="N", help="beats a minute (default: 100)")
    command.set_defaults(run=run)


def run(arguments: argparse.Namespace) -> int:
    """Ask for what the options leave open, where there is someone to ask; write the lesson."""
    path = Path(arguments.file)
    if path.suffix != LESSON_SUFFIX:
        path = path.with_name(path.name + LESSON_SUFFIX)
    if path.exists():
        raise UsageError(f"{path} is there already")
    text = starter_text(_chosen(arguments, path))
    path.parent.mkdir(parents=True, exist_ok=True)
    try:
        with path.open("x", encoding="utf-8") as file:
            file.write(text)
    except FileExistsError:
        raise UsageError(f"{path} is there already") from None
    except BaseException:
        path.unlink(missing_ok=True)
        raise
    print(f"{path} is written. Put your own licks in, then: formsheet check {path}")
    return FINE


def _chosen(arguments: argparse.Namespace, path: Path) -> Start:
    title = path.stem.replace("-", " ").replace("_", " ").strip().title() or "Untitled"
    tuning = named_tuning(arguments.tuning) if arguments.tuning else RICHTER
    # Arguments are evaluated in their order: so the questions come in this one.
    return Start(
        title=_choice("Title", arguments.title, title, _title),
        harp=_choice("Harp", arguments.harp, "C", lambda name: named_harp(name, tuning)),
        position=_choice("Position", arguments.position, "2nd", named_position),
        form=_choice("Form", arguments.form, "12-bar standard", named_form),
        meter=(meter := _choice("Meter", arguments.meter, "4/4", named_meter)),
        feel=_choice("Feel", arguments.feel, "straight" if meter.compound else "swing", named_feel),
        tempo=_choice("Tempo", arguments.tempo, "100", named_tempo),
    )


def _title(text: str) -> str:
    """A title is one line, and not empty."""
    title = " ".join(text.split())
    if not title:
        raise UsageError("a lesson needs a title")
    return title


def _choice(label: str, given: str | None, default: str, read: Callable[[str], T]) -> T:
    """What the option says, or what is answered; the default where nobody can be asked."""
    if given is not None or not sys.stdin.isatty():
        return read(given if given is not None else default)
    while True:
        try:
            return read(input(f"{label} [{default}]: ").strip() or default)
        except UsageError as caught:
            print(caught)
