"""`formsheet completion`: what a shell needs to complete our commands, options and names.

The script is made from the parser itself, so that it knows whatever commands there are.
"""

from __future__ import annotations

import argparse
from collections.abc import Callable, Iterator, Sequence

from formsheet.commands.files import FINE
from formsheet.commands.parser import Commands, whole_parser

SHELLS = ("bash", "zsh", "fish")


def add(commands: Commands) -> None:
    """The command and its options."""
    command = commands.add_parser(
        "completion", help="print what a shell needs to complete our commands"
    )
    command.add_argument("shell", choices=SHELLS, metavar="SHELL", help="bash, zsh or fish")
    command.set_defaults(run=run)


def run(arguments: argparse.Namespace) -> int:
    """Print the script of one shell."""
    print(script(whole_parser(arguments), arguments.shell))
    return FINE


def script(parser: argparse.ArgumentParser, shell: str) -> str:
    """The completion script of a shell for a parser and all its commands."""
    import shtab

    preamble: dict[str, str] = {}
    for action in _actions(parser):
        words = _words(action)
        if words is not None:
            _complete_words(action, words, preamble)
        elif action.metavar in _FILES:
            action.complete = getattr(shtab, _FILES[action.metavar])  # type: ignore[attr-defined]
    return str(shtab.complete(parser, shell, preamble=preamble.get(shell, "")))


def _actions(parser: argparse.ArgumentParser) -> Iterator[argparse.Action]:
    for action in parser._actions:
        yield action
        if isinstance(action, argparse._SubParsersAction):
            for command in action.choices.values():
                yield from _actions(command)


# ---- What may stand after an option --------------------------------------------------------

#: By what the help calls it.
_FILES = {"FILE": "FILE", "FILE|DIR": "FILE", "FILE|NOTES": "FILE", "DIR": "DIRECTORY"}


def _harps() -> Sequence[str]:
    from formsheet.music.harp import HARP_KEYS

    return list(HARP_KEYS)


def _positions() -> Sequence[str]:
    from formsheet.lesson.fact_values import POSITIONS

    return list(POSITIONS)


def _forms() -> Sequence[str]:
    from formsheet.music.form import FORMS

    return list(FORMS)


def _tunings() -> Sequence[str]:
    from formsheet.music.tunings import TUNINGS

    return list(TUNINGS)


def _meters() -> Sequence[str]:
    from formsheet.music.rhythm import METERS

    return list(METERS)


def _parts() -> Sequence[str]:
    from formsheet.pack.parts import PARTS

    return list(PARTS)


def _codes() -> Sequence[str]:
    from formsheet.commands.explain import LEVELS
    from formsheet.problems.registry import KINDS

    return [*KINDS, LEVELS]


#: By the option, or what the help calls an argument, whichever command it belongs to.
_WORDS: dict[str, Callable[[], Sequence[str]]] = {
    "--harp": _harps,
    "--position": _positions,
    "--form": _forms,
    "--tuning": _tunings,
    "--meter": _meters,
    "--feel": lambda: ["swing", "straight"],
    "--only": _parts,
    "CODE": _codes,
}


def _words(action: argparse.Action) -> Sequence[str] | None:
    for option in (*action.option_strings, action.metavar):
        if option in _WORDS:
            return _WORDS[option]()
    return None


def _complete_words(
    action: argparse.Action, words: Sequence[str], preamble: dict[str, str]
) -> None:
    """Have a function of the script's own complete these words: some hold spaces."""
    name = f"_formsheet_{(action.option_strings or [action.dest])[-1].strip('-').replace('-', '_')}"
    lines = "\n".join(words)
    functions = {
        "bash": _BASH.format(name=name, lines=lines),
        "zsh": _ZSH.format(name=name, words=" ".join(f"'{word}'" for word in words)),
    }
    for shell, function in functions.items():
        if function not in preamble.get(shell, ""):
            preamble[shell] = preamble.get(shell, "") + function
    action.complete = {  # type: ignore[attr-defined]
        "bash": name,
        "zsh": name,
        "fish": "(printf '%s\\n' " + " ".join(f"'{word}'" for word in words) + ")",
    }


#: Prints what begins like the word to be completed; what a shell would split is set apart,
#: unless the word stands in quotes.
_BASH = """{name}() {{
  local line quotes=$'\\'"' begun="${{1//\\\\/}}"
  begun="${{begun//[$quotes]/}}"
  while IFS= read -r line; do
    [[ "$line" == "$begun"* ]] || continue
    if [[ "$1" == [$quotes]* ]]; then printf '%s\\n' "$line"; else printf '%q\\n' "$line"; fi
  done <<'WORDS'
{lines}
WORDS
}}
"""
_ZSH = """{name}() {{
  local -a words=({words})
  compadd -a words
}}
"""
