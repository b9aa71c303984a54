"""How much a command says: `--quiet` and `--verbose`."""

from __future__ import annotations

import argparse
from enum import Enum


class Loudness(Enum):
    """Problems are told by all of them."""

    QUIET = "quiet"
    USUAL = "usual"
    VERBOSE = "verbose"


def add_loudness(command: argparse.ArgumentParser) -> None:
    """The two options, of which one at most may be given."""
    group = command.add_mutually_exclusive_group()
    group.add_argument(
        "-q", "--quiet", action="store_true", help="say only what is wrong, nothing of what goes on"
    )
    group.add_argument("-v", "--verbose", action="store_true", help="say more of what goes on")


def loudness(arguments: argparse.Namespace) -> Loudness:
    """What was asked for."""
    if arguments.quiet:
        return Loudness.QUIET
    return Loudness.VERBOSE if arguments.verbose else Loudness.USUAL
