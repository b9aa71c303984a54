"""`formsheet completion`: what a shell needs to complete our commands, options and names."""

from __future__ import annotations

import argparse

from formsheet.commands.declared import Argument, Command
from formsheet.commands.files import FINE
from formsheet.commands.parser import all_declared

SHELLS = ("bash", "zsh", "fish")


def run(arguments: argparse.Namespace) -> int:
    """Print the script of one shell."""
    from formsheet.commands.completion_scripts import script

    print(script(all_declared(), arguments.shell), end="")
    return FINE


COMMAND = Command(
    "completion",
    "print what a shell needs to complete our commands",
    run,
    arguments=(Argument("shell", "SHELL", "bash, zsh or fish", choices=SHELLS),),
    examples=(
        "formsheet completion bash > ~/.local/share/bash-completion/completions/formsheet",
        "formsheet completion fish > ~/.config/fish/completions/formsheet.fish",
    ),
)
