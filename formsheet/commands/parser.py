"""What a command needs of the argument parser."""

from __future__ import annotations

import argparse
from typing import TypeAlias

Commands: TypeAlias = "argparse._SubParsersAction[argparse.ArgumentParser]"


def whole_parser(arguments: argparse.Namespace) -> argparse.ArgumentParser:
    """The parser with all commands, for those that tell of the others."""
    parser: argparse.ArgumentParser = arguments.whole_parser()
    return parser


def commands_of(parser: argparse.ArgumentParser) -> dict[str, tuple[argparse.ArgumentParser, str]]:
    """The commands of a parser by name, each with the line that says what it does."""
    found: dict[str, tuple[argparse.ArgumentParser, str]] = {}
    for action in parser._actions:
        if isinstance(action, argparse._SubParsersAction):
            helps = {each.dest: each.help or "" for each in action._choices_actions}
            found |= {name: (each, helps.get(name, "")) for name, each in action.choices.items()}
    return found
