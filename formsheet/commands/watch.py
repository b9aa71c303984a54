"""`formsheet watch`: each change is shown as it is saved, in the browser and in the terminal."""

from __future__ import annotations

import argparse
import signal
import sys
from collections.abc import Sequence
from pathlib import Path
from time import monotonic, strftime
from typing import TYPE_CHECKING

from formsheet.commands.build import LOOK, OUT, chosen, named_parts, parts_known, parts_meant
from formsheet.commands.declared import Argument, Command, Option
from formsheet.commands.files import FINE, Teller, UsageError
from formsheet.commands.loudness import LOUDNESS, Loudness, loudness
from formsheet.engine.parts import PARTS
from formsheet.source import shown_name

if TYPE_CHECKING:
    from formsheet.desk.board import Known
    from formsheet.desk.folder import Found
    from formsheet.problems.problem import Problem

_PORT = 8763  # of our own choosing: among those that IANA leaves to anyone's use
_HIGHEST_PORT = 65535
_AT_ONCE = 1.0  # seconds within which files are read again for the same reason


def _port(word: str) -> int:
    if not (word.isascii() and word.isdigit() and int(word) <= _HIGHEST_PORT):
        raise argparse.ArgumentTypeError(f"must be a number from 0 to {_HIGHEST_PORT}")
    return int(word)


def run(arguments: argparse.Namespace) -> int:
    """Watch until Ctrl-C."""
    from formsheet.desk.desk import Desk

    home = Path(arguments.folder)
    if not home.is_dir():
        raise UsageError(f"folder not found: {arguments.folder}")
    terminal = Terminal(loudness(arguments))
    parts, options = named_parts(arguments.only), chosen(arguments)
    try:
        desk = Desk(home, Path(arguments.out), parts, options, arguments.port, terminal)
    except OSError as caught:
        raise UsageError(
            f"port {arguments.port} is not available ({caught.strerror}); choose another with "
            "--port, or use --port 0 for any free one"
        ) from None
    signal.signal(signal.SIGTERM, signal.default_int_handler)
    try:
        with desk:
            address = desk.server.address
            terminal.begun(f"{shown_name(home)}: watched. Preview: {address}  Ctrl-C ends.")
            if arguments.open:
                _open(desk.server.passing_address())
            desk.work()
    except KeyboardInterrupt:
        terminal.say("ended")
    return FINE


def _open(address: str) -> None:
    """Open the browser; others may read with which address."""
    import webbrowser

    if not webbrowser.open(address):
        print("no browser could be opened; open the address yourself", file=sys.stderr)


def _shown(name: str) -> str:
    return shown_name(Path(name))


class Terminal:
    """Prints the reports of a watch: problems to standard output, the rest to standard error."""

    def __init__(self, loud: Loudness) -> None:
        self._loud = loud
        self._teller = Teller()
        self._told_at = monotonic()

    def begun(self, line: str) -> None:
        """The address of the preview: printed even with --quiet."""
        print(line, file=sys.stderr, flush=True)

    def say(self, line: str) -> None:
        """A line about the watch itself."""
        if self._loud is not Loudness.QUIET:
            print(line, file=sys.stderr, flush=True)

    def _news(self, line: str) -> None:
        self.say(f"{strftime('%H:%M:%S')} {line}")

    def first_look(self, known: Sequence[Known]) -> None:
        """What is wrong already, in a line a file."""
        from formsheet.report.table import summary

        for each in known:
            if each.problems and each.standing.name == "ERRORS":
                self._news(f"{_shown(each.name)}: {summary(each.problems)}")
        count = sum(each.standing.name != "ERRORS" for each in known)
        self._news(f"{count} of {len(known)} files without errors")

    def looked(self, known: Known, seconds: float) -> None:
        """A file that has changed, and its problems."""
        from formsheet.report.table import summary

        took = f" ({seconds * 1000:.0f} ms)" if self._loud is Loudness.VERBOSE else ""
        self._news(f"{_shown(known.name)}: {summary(known.problems)}{took}")
        self._tell(known.problems)

    def _tell(self, problems: Sequence[Problem]) -> None:
        """Print problems; one of a shelf once, not again for each of its lessons."""
        if monotonic() - self._told_at > _AT_ONCE:
            self._teller = Teller()
        self._told_at = monotonic()
        self._teller.tell(problems)
        sys.stdout.flush()

    def gone(self, name: str) -> None:
        """A file that was removed; its handout is kept."""
        self._news(f"{_shown(name)}: gone")

    def folder_gone(self) -> None:
        """The lessons folder is missing."""
        self._news("the lessons folder is missing; waiting for it")

    def folder_back(self) -> None:
        """The lessons folder exists again."""
        self._news("the lessons folder is back")

    def made(self, found: Found, files: Sequence[Path]) -> None:
        """The files of a handout."""
        for path in files:
            self._news(f"{_shown(found.name)}: {shown_name(path)}")

    def failed(self, found: Found, reason: str) -> None:
        """Printed even with --quiet: the handout is not up to date."""
        print(f"{_shown(found.name)}: not built; {reason}", file=sys.stderr, flush=True)


COMMAND = Command(
    "watch",
    "show what you save, in the browser, at once",
    run,
    arguments=(Argument("folder", "DIR", "the lessons folder", many="?", default="lessons"),),
    options=(
        Option(
            "--port",
            "port of the preview on this machine; 0 for any free one",
            value="N",
            read=_port,
            default=_PORT,
        ),
        Option("--open", "open the preview in the browser"),
        OUT,
        *LOOK,
        Option(
            "--only",
            f"parts to build in the background: {', '.join(PARTS)}",
            value="PART,PART",
            default="sheet",
            known=parts_known,
            meant=parts_meant,
        ),
        *LOUDNESS,
    ),
    examples=(
        "formsheet watch --open",
        "formsheet watch lessons --port 0 --only sheet",
    ),
)
