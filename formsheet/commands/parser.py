"""The argument parser, made from the commands as they are declared."""

from __future__ import annotations

import argparse
from collections.abc import Sequence
from importlib import import_module
from typing import Any, NoReturn

from formsheet import __version__
from formsheet.commands.declared import Argument, Command, Option
from formsheet.commands.files import EXITS, UsageError

PROGRAM = "formsheet"
DESCRIPTION = "From a plain-text harmonica lesson to a handout a student can learn from."

#: In the order of the day: begin, look, understand, make. Each is a module in `commands/`, which is
#: imported only when it is called or when help is asked for.
COMMANDS = (
    "new", "check", "show", "joins", "fit", "chords", "uses", "retab", "recast", "tab", "hear",
    "click", "tidy",
    "build", "watch", "explain", "completion", "reference", "help",
)  # fmt: skip


def declared(name: str) -> Command:
    """The command of this name."""
    command: Command = import_module(f"formsheet.commands.{name}").COMMAND
    return command


def all_declared() -> list[Command]:
    """All commands, in their order."""
    return [declared(name) for name in COMMANDS]


class Parser(argparse.ArgumentParser):
    """A parser that raises UsageError where the other would print its usage and exit."""

    def error(self, message: str) -> NoReturn:
        """Raise UsageError."""
        raise UsageError(
            f"{message.removeprefix('argument ')}; {self.prog} --help shows what it takes"
        )


def parsed(command: Command, words: Sequence[str]) -> argparse.Namespace:
    """The words after the name of a command, parsed; UsageError where they are wrong."""
    parser = parser_of(command)
    arguments, others = parser.parse_known_args(words)
    if hasattr(arguments, "licks"):  # names may come after the options too
        arguments.licks += [word for word in others if not word.startswith("-")]
        others = [word for word in others if word.startswith("-")]
    if others:
        parser.error(f"not understood: {' '.join(others)}")
    return arguments


def parser_of(command: Command) -> argparse.ArgumentParser:
    """The parser of one command, for the words after its name."""
    parser = Parser(prog=f"{PROGRAM} {command.name}", **_looks(command))
    _fill(parser, command)
    return parser


def whole_parser(commands: Sequence[Command]) -> argparse.ArgumentParser:
    """The parser of the whole command line."""
    parser = Parser(
        prog=PROGRAM,
        description=DESCRIPTION,
        epilog="Exit status: " + "; ".join(f"{status} {says}" for status, says in EXITS.items()),
    )
    parser.add_argument("--version", action="version", version=f"{PROGRAM} {__version__}")
    inside = parser.add_subparsers(required=True, metavar="COMMAND")
    for command in commands:
        _fill(inside.add_parser(command.name, help=command.help, **_looks(command)), command)
    return parser


def usage_of(command: Command) -> str:
    """How a command is called, on one line: "formsheet show [-h] FILE"."""
    return " ".join(parser_of(command).format_usage().removeprefix("usage: ").split())


def _looks(command: Command) -> dict[str, Any]:
    """Its examples and the exit statuses, below its help."""
    statuses = "\n".join(f"  {status:<4} {words}" for status, words in EXITS.items())
    lines = "\n".join(f"  {line}" for line in command.examples)
    examples = f"examples:\n{lines}\n\n" if lines else ""
    return {
        "formatter_class": argparse.RawDescriptionHelpFormatter,
        "epilog": f"{examples}exit status:\n{statuses}",
    }


def _fill(parser: argparse.ArgumentParser, command: Command) -> None:
    for argument in command.arguments:
        _add_argument(parser, argument)
    groups: dict[str, Any] = {"": parser}
    for option in command.options:
        if option.heading not in groups:
            groups[option.heading] = parser.add_argument_group(option.heading)
        if option.rivals and option.rivals not in groups:
            groups[option.rivals] = parser.add_mutually_exclusive_group()
        _add_option(groups[option.rivals or option.heading], option)
    parser.set_defaults(run=command.run)


def _add_argument(parser: argparse.ArgumentParser, argument: Argument) -> None:
    keywords: dict[str, Any] = {"metavar": argument.value, "help": _escaped(argument.says) or None}
    if argument.many:
        keywords |= {"nargs": argument.many, "default": argument.default}
    if argument.choices:
        keywords["choices"] = argument.choices
    parser.add_argument(argument.name, **keywords)


def _add_option(container: Any, option: Option) -> None:
    keywords: dict[str, Any] = {"help": _escaped(option.says)}
    if option.field:
        keywords["dest"] = option.field
    if option.prints:
        keywords |= {"action": _Print, "prints": option.prints, "nargs": 0}
    elif not option.takes_value:
        keywords["action"] = "store_true"
    else:
        keywords |= {"default": option.default, "metavar": option.value or None}
        if option.choices:
            keywords["choices"] = option.choices
        if option.read:
            keywords["type"] = option.read
        if option.repeats:
            keywords["action"] = "append"
    container.add_argument(*option.names, **keywords)


def _escaped(text: str) -> str:
    """A text without the signs that the parser library would fill in."""
    return text.replace("%", "%%")


class _Print(argparse.Action):
    """An option without a value: prints a text and ends, as `--help` does."""

    def __init__(self, *, prints: Any, **options: Any) -> None:
        super().__init__(**options)
        self.prints = prints

    def __call__(
        self,
        parser: argparse.ArgumentParser,
        namespace: argparse.Namespace,
        values: str | Sequence[Any] | None,
        option_string: str | None = None,
    ) -> None:
        """Print and leave."""
        print(self.prints(), end="")
        parser.exit()
