"""`formsheet new`: a lesson to start from."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Callable
from pathlib import Path
from shlex import quote
from typing import TypeVar
from unicodedata import category

from formsheet.commands.declared import Argument, Command
from formsheet.commands.files import FINE, UsageError
from formsheet.commands.named import (
    fact_option,
    named_feel,
    named_form,
    named_harp,
    named_meter,
    named_position,
    named_tempo,
    named_tuning,
    setup_options,
)
from formsheet.desk.starter import Start, starter_text
from formsheet.lesson.long_texts import MOST_IN_A_WORD
from formsheet.music.tunings import RICHTER
from formsheet.source import shown_name
from formsheet.suffixes import LESSON_SUFFIX
from formsheet.vocabulary.facts import FEEL, METER, TEMPO, TITLE

T = TypeVar("T")

_NO_TEXT = ("Cc", "Cs")  # what a terminal obeys, and half a character


def run(arguments: argparse.Namespace) -> int:
    """Ask for what the options leave open, where there is someone to ask; write the lesson."""
    path = _named(arguments.file)
    if path.exists():
        raise UsageError(f"{shown_name(path)} is there already")
    text = starter_text(_chosen(arguments, path))
    _write(path, text.encode("utf-8"))
    shown = shown_name(path)
    word = quote(f"./{shown}" if shown.startswith("-") else shown)
    print(f"{shown} is written. Put your own licks in, then: formsheet check {word}")
    return FINE


def _named(word: str) -> Path:
    path = Path(word)
    if path.name in ("", ".."):
        raise UsageError("name a file for the lesson, such as kitchen.lesson")
    return path if path.suffix == LESSON_SUFFIX else path.with_name(path.name + LESSON_SUFFIX)


def _write(path: Path, data: bytes) -> None:
    """Write a new file; one that is there stays as it is."""
    path.parent.mkdir(parents=True, exist_ok=True)
    try:
        file = path.open("xb")
    except FileExistsError:
        raise UsageError(f"{shown_name(path)} is there already") from None
    try:
        with file:
            file.write(data)
    except BaseException as caught:
        path.unlink(missing_ok=True)
        if isinstance(caught, OSError):  # a full disk does not say which
            caught.filename = shown_name(path)
        raise


def _chosen(arguments: argparse.Namespace, path: Path) -> Start:
    title = _title_of(path)
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


def _title_of(path: Path) -> str:
    """The words of a file's name, each with a capital: "coal-shed" is "Coal Shed"."""
    words = path.stem.replace("-", " ").replace("_", " ").split()
    title = " ".join(word[0].upper() + word[1:] for word in words)
    return "".join(c for c in title if category(c) not in _NO_TEXT)[:MOST_IN_A_WORD] or "Untitled"


def _title(text: str) -> str:
    """A title is one line of text, and not empty."""
    title = " ".join(text.split())
    if not title:
        raise UsageError("a lesson needs a title")
    if len(title) > MOST_IN_A_WORD:
        raise UsageError(f"a title of more than {MOST_IN_A_WORD} letters fits no page")
    if any(category(c) in _NO_TEXT for c in title):
        raise UsageError("the title holds a character that cannot be printed")
    return title


def _choice(label: str, given: str | None, default: str, read: Callable[[str], T]) -> T:
    """What the option says, or what is answered; the default where nobody can be asked."""
    if given is not None or not sys.stdin.isatty():
        return read(given if given is not None else default)
    while True:
        try:
            return read(input(f"{label} [{default}]: ").strip() or default)
        except EOFError:  # Ctrl-D, or Ctrl-Z elsewhere
            print()
            raise KeyboardInterrupt from None
        except UsageError as caught:
            print(caught)


COMMAND = Command(
    "new",
    "write a lesson to start from",
    run,
    arguments=(Argument("file", "FILE", "where it goes; `.lesson` may be left out"),),
    options=(
        fact_option(TITLE),
        *setup_options(harp=" (default: C)", position=" (default: 2nd)", form=True),
        fact_option(METER),
        fact_option(FEEL),
        fact_option(TEMPO, more=" (default: 100)"),
    ),
    examples=(
        "formsheet new lessons/kitchen",
        'formsheet new lessons/kitchen --harp A --position 3rd --form "12-bar minor"',
    ),
)
