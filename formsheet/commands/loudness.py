"""How much a command says: `--quiet` and `--verbose`."""

from __future__ import annotations

import argparse
from enum import Enum

from formsheet.commands.declared import Option


class Loudness(Enum):
    """Problems are told by all of them."""

    QUIET = "quiet"
    USUAL = "usual"
    VERBOSE = "verbose"


QUIET = Option("--quiet", "say what is wrong, and nothing else", short="-q", rivals="loudness")

#: The two options, of which one at most may be given.
LOUDNESS = (
    QUIET,
    Option("--verbose", "say more of what goes on", short="-v", rivals="loudness"),
)


def loudness(arguments: argparse.Namespace) -> Loudness:
    """What was asked for."""
    if arguments.quiet:
        return Loudness.QUIET
    return Loudness.VERBOSE if getattr(arguments, "verbose", False) else Loudness.USUAL
