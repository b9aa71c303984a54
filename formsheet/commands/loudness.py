"""How much a command says: `--quiet` and `--verbose`."""

from __future__ import annotations

import argparse
from enum import Enum


class Loudness(Enum):
    """Problems are told by all of them."""

    QUIET = "quiet"
    USUAL = "usual"
    VERBOSE = "verbose"


def add_loudness(command: argparse.ArgumentParser, *, verbose: bool = True) -> None:
    """The two options, of which one at most may be given; or `--quiet` alone."""
    group = command.add_mutually_exclusive_group()
    group.add_argument(
        "-q", "--quiet", action="store_true", help="say what is wrong, and nothing else"
    )
    if verbose:
        group.add_argument("-v", "--verbose", action="store_true", help="say more of what goes on")


def loudness(arguments: argparse.Namespace) -> Loudness:
    """What was asked for."""
    if arguments.quiet:
        return Loudness.QUIET
    return Loudness.VERBOSE if getattr(arguments, "verbose", False) else Loudness.USUAL
