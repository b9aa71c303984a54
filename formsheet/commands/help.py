"""`formsheet help`: the first page, or the help of one command. `formsheet` alone prints it too."""

from __future__ import annotations

import argparse

from formsheet.commands.declared import Argument, Command
from formsheet.commands.files import FINE
from formsheet.commands.parser import COMMANDS, declared, parser_of

FIRST_PAGE = """\
formsheet checks a harmonica lesson, written as plain text, against the chords
of its form on the harp that you choose, and makes a handout of it: a printed
sheet, sound clips, and a page to play along to.

To begin:
  formsheet new lessons/kitchen
      asks for harp, position and form, and writes lessons/kitchen.lesson
  formsheet check lessons/kitchen.lesson
      says bar by bar what fits, what clashes, and what to write instead
  formsheet watch --open
      shows the folder lessons in your browser, and each change as you save it
  formsheet build lessons
      makes the handouts, in the folder handouts

To read on:
  formsheet help check     one command: its options, with examples
  formsheet --help         all commands
  formsheet reference      every command, fact, form, tuning and problem
  README.md                the language of a lesson, by example
"""


def run(arguments: argparse.Namespace) -> int:
    """Print it."""
    if arguments.command is None:
        print(FIRST_PAGE, end="")
        return FINE
    if arguments.command not in COMMANDS:
        from formsheet.commands.named import unknown

        raise unknown("command", arguments.command, COMMANDS)
    parser_of(declared(arguments.command)).print_help()
    return FINE


COMMAND = Command(
    "help",
    "print where to begin, or the help of a command",
    run,
    arguments=(
        Argument(
            "command", "COMMAND", "a command, such as check", many="?", known=lambda: COMMANDS
        ),
    ),
    examples=("formsheet help", "formsheet help check"),
)
