"""`formsheet explain`: what a kind of problem means, and what is asked of each level."""

from __future__ import annotations

import argparse
import json
from shutil import get_terminal_size

from formsheet.commands.declared import Argument, Command
from formsheet.commands.files import FINE, UsageError
from formsheet.commands.schema import data_options
from formsheet.problems.nearest import nearest
from formsheet.problems.registry import KINDS
from formsheet.report.explained import (
    code_list,
    explained,
    explained_data,
    explained_text,
    levels_data,
    levels_text,
)

LEVELS = "levels"


def run(arguments: argparse.Namespace) -> int:
    """Print the meaning of one kind, the table of levels, or the list of kinds."""
    code = arguments.code and arguments.code.strip("[]")
    if code not in (None, LEVELS, *KINDS):
        near = nearest(code, [*KINDS, LEVELS])
        hint = f"; did you mean {near}?" if near else "; formsheet explain lists all of them"
        raise UsageError(f"there is no kind of problem called {code}{hint}")
    if arguments.json:
        kinds = [KINDS[code]] if code in KINDS else [] if code else KINDS.values()
        data = {
            "kinds": [explained_data(explained(kind)) for kind in kinds],
            "limits": levels_data() if code == LEVELS else [],
        }
        print(json.dumps(data, indent=2, ensure_ascii=False))
        return FINE
    columns = get_terminal_size().columns
    if code is None:
        print("\n".join(code_list(columns)))
    elif code == LEVELS:
        print("\n".join(levels_text(columns)))
    else:
        print("\n".join(explained_text(explained(KINDS[code]), columns)))
    return FINE


COMMAND = Command(
    "explain",
    "say what the code behind a problem means",
    run,
    arguments=(
        Argument(
            "code",
            "CODE",
            f"the word in brackets behind a problem; `{LEVELS}` for what each level is asked; "
            "without it, a list of all codes",
            many="?",
            known=lambda: [*KINDS, LEVELS],
        ),
    ),
    options=data_options("explain", "the same"),
    examples=(
        "formsheet explain bend-too-deep",
        "formsheet explain",
        "formsheet explain levels",
    ),
)
