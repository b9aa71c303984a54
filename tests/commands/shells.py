"""The whole parser, as a test needs it."""

from __future__ import annotations

import argparse

from formsheet.cli import COMMANDS, _parser


def whole() -> argparse.ArgumentParser:
    """The parser with all commands."""
    return _parser(COMMANDS)
