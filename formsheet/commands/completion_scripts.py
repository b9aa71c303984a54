"""The completion scripts of the shells, made from the commands as they are declared.

A word may hold spaces ("12-bar standard"): each script keeps it one word.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from shlex import quote

from formsheet.commands.declared import (
    HELP,
    VERSION,
    Argument,
    Command,
    Option,
    offered,
    takes_file,
    takes_folder,
)
from formsheet.commands.parser import PROGRAM


def script(commands: Sequence[Command], shell: str) -> str:
    """The script of a shell ("bash", "zsh" or "fish"), ending with a line end."""
    scripts: dict[str, Callable[[Sequence[Command]], Iterator[str]]] = {
        "bash": _bash,
        "zsh": _zsh,
        "fish": _fish,
    }
    return "".join(f"{line}\n" for line in scripts[shell](commands))


def _options(command: Command) -> tuple[Option, ...]:
    return (HELP, *command.options)


def _quoted(words: Sequence[str]) -> str:
    return " ".join(map(quote, words))


# ---- Bash ----------------------------------------------------------------------------------

#: `_formsheet_offer WORD CANDIDATE...` offers what begins like the word; what the shell would
#: split is escaped, unless the word is in quotes. `compopt` is not in the bash of every system.
_BASH_HEAD = r"""# Completion of formsheet for bash.

_formsheet_offer() {
  local word="$1" each quotes=$'\'"' begun="${1//\\/}"
  begun="${begun//[$quotes]/}"
  shift
  for each; do
    [[ "$each" == "$begun"* ]] || continue
    [[ "$word" == [$quotes]* ]] || printf -v each '%q' "$each"
    COMPREPLY+=("$each")
  done
}

_formsheet_files() {
  local each
  compopt -o filenames 2>/dev/null
  while IFS= read -r each; do COMPREPLY+=("$each"); done < <(compgen "$2" -- "$1")
}
"""

_BASH_MAIN = r"""
_formsheet() {
  local word="${COMP_WORDS[COMP_CWORD]}" before command="${COMP_WORDS[1]}" place=0 at
  COMPREPLY=()
  if ((COMP_CWORD == 1)); then
    case "$word" in
      -*) _formsheet_offer "$word" @OPTIONS ;;
      *) _formsheet_offer "$word" @COMMANDS ;;
    esac
    return
  fi
  before="${COMP_WORDS[COMP_CWORD - 1]}"
  if _formsheet_takes_value "$command" "$before"; then
    _formsheet_value "$command" "$before" "$word"
    return
  fi
  if [[ "$word" == -* ]]; then
    _formsheet_option "$command" "$word"
    return
  fi
  for ((at = 2; at < COMP_CWORD; at++)); do
    if _formsheet_takes_value "$command" "${COMP_WORDS[at]}"; then
      ((at++))
    elif [[ "${COMP_WORDS[at]}" != -* ]]; then
      ((place++))
    fi
  done
  _formsheet_argument "$command" "$place" "$word"
}

complete -F _formsheet formsheet"""


def _bash(commands: Sequence[Command]) -> Iterator[str]:
    yield _BASH_HEAD
    valued = [
        f'"{command.name} {name}"'
        for command in commands
        for option in command.options
        for name in option.names
        if option.takes_value
    ]
    yield f'_formsheet_takes_value() {{\n  case "$1 $2" in\n    {" | ".join(valued)}) ;;'
    yield "    *) return 1 ;;\n  esac\n}\n"
    yield '_formsheet_value() {\n  case "$1 $2" in'
    for command in commands:
        for option in command.options:
            names = " | ".join(f'"{command.name} {name}"' for name in option.names)
            if act := _bash_offer(option, "$3"):
                yield f"    {names}) {act} ;;"
    yield '  esac\n}\n\n_formsheet_option() {\n  case "$1" in'
    for command in commands:
        names = " ".join(name for option in _options(command) for name in option.names)
        yield f'    {command.name}) _formsheet_offer "$2" {names} ;;'
    yield '  esac\n}\n\n_formsheet_argument() {\n  case "$1 $2" in'
    for command in commands:
        for place, argument in enumerate(command.arguments):
            where = f'"{command.name} "*' if argument.many in ("+", "*") else (
                f'"{command.name} {place}"'
            )  # fmt: skip
            if act := _bash_offer(argument, "$3"):
                yield f"    {where}) {act} ;;"
    yield "  esac\n}"
    main = [name for option in (HELP, VERSION) for name in option.names]
    yield _BASH_MAIN.replace("@OPTIONS", " ".join(main)).replace(
        "@COMMANDS", " ".join(command.name for command in commands)
    )


def _bash_offer(taken: Argument | Option, word: str) -> str:
    if takes_file(taken) or takes_folder(taken):
        return f'_formsheet_files "{word}" {"-f" if takes_file(taken) else "-d"}'
    words = offered(taken)
    return f'_formsheet_offer "{word}" {_quoted(words)}' if words else ""


# ---- Zsh -----------------------------------------------------------------------------------


def _zsh(commands: Sequence[Command]) -> Iterator[str]:
    yield "#compdef formsheet\n# Completion of formsheet for zsh.\n"
    for command in commands:
        everything: list[Argument | Option] = [*command.arguments, *command.options]
        for taken in everything:
            if words := offered(taken):
                yield f"{_zsh_function(command, taken)}() {{"
                yield f"  local -a known=({_quoted(words)})\n  compadd -a known\n}}\n"
    yield "_formsheet() {\n  if (( CURRENT == 2 )); then\n    local -a commands=("
    yield from (f"      {quote(f'{each.name}:{each.help}')}" for each in commands)
    yield "    )\n    _describe command commands"
    yield "    compadd -- --help --version\n    return\n  fi"
    yield "  shift words\n  (( CURRENT-- ))\n  case $words[1] in"
    for command in commands:
        specs = [spec for option in _options(command) for spec in _zsh_option(command, option)]
        specs += [_zsh_argument(command, argument) for argument in command.arguments]
        yield f"    {command.name})\n      _arguments -s \\"
        yield " \\\n".join(f"        {spec}" for spec in specs)
        yield "      ;;"
    yield "  esac\n}\n"
    yield 'if [[ "$funcstack[1]" == _formsheet ]]; then\n  _formsheet "$@"'
    yield "else\n  compdef _formsheet formsheet\nfi"


def _zsh_function(command: Command, taken: Argument | Option) -> str:
    return f"_formsheet_{command.name}_{taken.name.strip('-').replace('-', '_')}"


def _zsh_act(command: Command, taken: Argument | Option) -> str:
    if takes_file(taken):
        return "_files"
    if takes_folder(taken):
        return "_files -/"
    return _zsh_function(command, taken) if offered(taken) else " "


def _zsh_option(command: Command, option: Option) -> Iterator[str]:
    value = option.shown_value.replace(":", r"\:")
    after = f":{value}:{_zsh_act(command, option)}" if option.takes_value else ""
    before = "*" if option.repeats else f"({' '.join(option.names)})"
    for name in option.names:
        yield quote(f"{before}{name}[{_zsh_text(option.says)}]{after}")


def _zsh_argument(command: Command, argument: Argument) -> str:
    act = _zsh_act(command, argument)
    value = argument.value.replace(":", r"\:")
    if argument.many in ("+", "*"):
        return quote(f"*:{value}:{act}")
    place = command.arguments.index(argument) + 1
    return quote(f"{place}{':' if argument.many else ''}:{value}:{act}")


def _zsh_text(text: str) -> str:
    for sign in "\\[]:":
        text = text.replace(sign, f"\\{sign}")
    return text


# ---- Fish ----------------------------------------------------------------------------------

_FISH_PRINT = r"printf '%s\n'"
_FISH_HEAD = r"""# Completion of formsheet for fish.

function __formsheet_first
  test (count (commandline -opc)) -eq 1
end

function __formsheet_command
  set -l words (commandline -opc)
  test (count $words) -gt 1; and test "$words[2]" = $argv[1]
end

complete -c formsheet -f"""


def _fish(commands: Sequence[Command]) -> Iterator[str]:
    yield _FISH_HEAD
    for option in (HELP, VERSION):
        yield f"complete -c {PROGRAM} -n __formsheet_first {_fish_option(option)}"
    for command in commands:
        yield (
            f"complete -c {PROGRAM} -n __formsheet_first -a {command.name} "
            f"-d {_fish_text(command.help)}"
        )
    for command in commands:
        when = f"complete -c {PROGRAM} -n '__formsheet_command {command.name}'"
        for option in _options(command):
            yield f"{when} {_fish_option(option)}"
        for argument in command.arguments:
            if words := _fish_words(argument):
                yield f"{when} {words}"


def _fish_option(option: Option) -> str:
    parts = [f"-l {option.name.lstrip('-')}", f"-d {_fish_text(option.says)}"]
    if option.short:
        parts.insert(0, f"-s {option.short.lstrip('-')}")
    if option.takes_value:
        words = _fish_words(option)
        parts.append("-r -F" if takes_file(option) else f"-x {words}".rstrip())
    return " ".join(parts)


def _fish_words(taken: Argument | Option) -> str:
    if takes_file(taken):
        return "-F"
    if takes_folder(taken):
        return "-a '(__fish_complete_directories)'"
    words = " ".join(map(_fish_text, offered(taken)))
    return f"-a {_fish_text(f'({_FISH_PRINT} {words})')}" if words else ""


def _fish_text(text: str) -> str:
    escaped = text.replace("\\", "\\\\").replace("'", "\\'")
    return f"'{escaped}'"
