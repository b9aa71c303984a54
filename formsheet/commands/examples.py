"""Examples for the help of each command. A test reads every one as the command line would."""

from __future__ import annotations

import argparse

from formsheet.commands.files import EXITS
from formsheet.commands.parser import Commands

EXAMPLES: dict[str, tuple[str, ...]] = {
    "new": (
        "formsheet new lessons/kitchen",
        'formsheet new lessons/kitchen --harp A --position 3rd --form "12-bar minor"',
    ),
    "check": (
        "formsheet check lessons/kitchen.lesson",
        "formsheet check lessons --quiet",
        "formsheet check lessons/kitchen.lesson --harp G",
    ),
    "show": ("formsheet show lessons/kitchen.lesson",),
    "joins": ("formsheet joins lessons/kitchen.lesson",),
    "fit": (
        "formsheet fit lessons/kitchen.lesson porch",
        'formsheet fit lessons/shelf/turnarounds.licks home --form "8-bar ending I"',
    ),
    "chords": (
        "formsheet chords lessons/kitchen.lesson",
        'formsheet chords --harp A --position 3rd --form "12-bar minor"',
    ),
    "uses": ("formsheet uses lessons", "formsheet uses lessons --of turnarounds"),
    "retab": (
        "formsheet retab lessons/kitchen.lesson --position 3rd --out lessons/kitchen-3rd.lesson",
        "formsheet retab lessons/kitchen.lesson porch --harp A",
    ),
    "recast": (
        "formsheet recast lessons/kitchen.lesson porch --on IV",
        "formsheet recast lessons/kitchen.lesson porch --draft --out lessons/porch.lesson",
    ),
    "tab": (
        'formsheet tab "q G4 B4 e D5 E5 q D5 | h B4 G4" --harp C',
        "formsheet tab tune.mid --position 2nd --lesson --out lessons/tune.lesson",
    ),
    "tidy": ("formsheet tidy lessons", "formsheet tidy lessons --diff"),
    "build": (
        "formsheet build lessons",
        "formsheet build lessons/kitchen.lesson --only sheet --page Letter",
        'formsheet build lessons/kitchen.lesson --harp "C,A,low F"',
    ),
    "watch": ("formsheet watch --open", "formsheet watch lessons --port 0 --only sheet"),
    "explain": (
        "formsheet explain bend-too-deep",
        "formsheet explain",
        "formsheet explain levels",
    ),
    "completion": (
        "formsheet completion bash > ~/.local/share/bash-completion/completions/formsheet",
        "formsheet completion fish > ~/.config/fish/completions/formsheet.fish",
    ),
    "reference": (
        "formsheet reference",
        "formsheet reference --as man > formsheet.1",
        "formsheet reference --as markdown",
    ),
    "help": ("formsheet help", "formsheet help check"),
}


def add_examples(commands: Commands) -> None:
    """Put its examples, and the exit statuses, below the help of each command."""
    statuses = "\n".join(f"  {status:<4} {words}" for status, words in EXITS.items())
    for name, command in commands.choices.items():
        command.formatter_class = argparse.RawDescriptionHelpFormatter
        lines = "\n".join(f"  {line}" for line in EXAMPLES.get(name, ()))
        examples = f"examples:\n{lines}\n\n" if lines else ""
        command.epilog = f"{examples}exit status:\n{statuses}"
