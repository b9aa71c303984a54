"""The whole parser, as a test needs it."""

from __future__ import annotations

import argparse

from formsheet.commands.parser import all_declared, whole_parser


def whole() -> argparse.ArgumentParser:
    """The parser with all commands."""
    return whole_parser(all_declared())
