"""A command as data: what it takes, its help and examples, and the function that runs it.

The argument parser, the completion of the shells, the reference and the help are made from it.
"""

from argparse import Namespace
from collections.abc import Callable, Sequence
from typing import Any, NamedTuple

#: What a text means: the words to write for it on the command line, its value first, then what else
#: that needs ("--wav"); None where it means no value.
Meaning = Callable[[str], Sequence[str] | None]

#: What a value is called that is a file or a folder.
_FILES, _FOLDERS = ("FILE", "FILE|DIR", "FILE|NOTES"), ("DIR",)


class Argument(NamedTuple):
    """A word of a command that is not an option."""

    name: str  # under which the command finds it
    value: str  # what the help calls it
    help: str = ""
    many: str = ""  # "?": it may be left out; "+", "*": one or more, any number
    default: str | None = None
    choices: Sequence[str] = ()  # the only words that are taken
    known: Callable[[], Sequence[str]] | None = None  # words that a shell offers, among others
    meant: Meaning | None = None  # by which a wrong value is corrected

    @property
    def says(self) -> str:
        """Its help, with its default."""
        return _with_default(self.help, self.default)


class Option(NamedTuple):
    """An option of a command."""

    name: str  # "--out"
    help: str
    value: str = ""  # what the help calls its value; "" of a switch and where `choices` say it
    short: str = ""  # "-q"
    default: str | int | None = None
    choices: Sequence[str] = ()  # the only values that are taken
    known: Callable[[], Sequence[str]] | None = None  # values that a shell offers, among others
    read: Callable[[str], Any] | None = None  # ArgumentTypeError where a value is wrong
    repeats: bool = False  # may be given several times
    field: str = ""  # under which the command finds it, where that is not its name
    heading: str = ""  # in the help, over this option and others
    rivals: str = ""  # of the options with the same word here one may be given
    prints: Callable[[], str] | None = None  # prints this and ends, as `--help` does
    meant: Meaning | None = None  # by which a wrong value, or one without its quotes, is corrected

    @property
    def names(self) -> tuple[str, ...]:
        """Its names, a short one first."""
        return (self.short, self.name) if self.short else (self.name,)

    @property
    def takes_value(self) -> bool:
        """Whether a value follows it."""
        return bool(self.value or self.choices)

    @property
    def shown_value(self) -> str:
        """What the help shows for the value: "FILE", "A4|Letter"; "" of a switch."""
        return self.value or "|".join(self.choices)

    @property
    def says(self) -> str:
        """Its help, with its default."""
        return _with_default(self.help, self.default)


class Command(NamedTuple):
    """A command of the tool."""

    name: str
    help: str  # one line
    run: Callable[[Namespace], int]  # returns the exit status
    arguments: tuple[Argument, ...] = ()
    options: tuple[Option, ...] = ()
    examples: tuple[str, ...] = ()  # one to three


#: Options that the argument parser adds by itself.
HELP = Option("--help", "show this help message and exit", short="-h")
VERSION = Option("--version", "show program's version number and exit")


def offered(taken: Argument | Option) -> Sequence[str]:
    """The words that a shell offers."""
    return taken.choices or (taken.known() if taken.known else ())


def takes_file(taken: Argument | Option) -> bool:
    """Whether it is the name of a file, or of a file or a folder."""
    return taken.value in _FILES


def takes_folder(taken: Argument | Option) -> bool:
    """Whether it is the name of a folder."""
    return taken.value in _FOLDERS


def _with_default(text: str, default: str | int | None) -> str:
    if default is None or "default:" in text:
        return text
    return f"{text} (default: {default})"
