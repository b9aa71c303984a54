"""What was meant by a command line that failed, worked out from what was typed.

A table of what people write from other habits, and rules that look at the words alone and at which
files exist. What comes out is a reason for each slip, and the command line to type instead, where
the whole of it is known: it is parsed before it is offered. Which words stand for which: our own
choice.
"""

from __future__ import annotations

import re
import shlex
from collections.abc import Sequence
from pathlib import Path
from typing import NamedTuple

from formsheet.commands.declared import (
    HELP,
    Argument,
    Command,
    Option,
    offered,
    takes_file,
    takes_folder,
)
from formsheet.commands.files import UsageError, completed
from formsheet.commands.parser import COMMANDS, PROGRAM, declared, parsed
from formsheet.problems.nearest import nearest
from formsheet.suffixes import LESSON_SUFFIX, SHELF_SUFFIX

#: A command under a name that other programs have for it.
_OTHER_COMMANDS = {
    "make": "build", "print": "build", "export": "build", "compile": "build", "pdf": "build",
    "handout": "build", "verify": "check", "validate": "check", "test": "check", "lint": "check",
    "view": "show", "display": "show", "format": "tidy", "fix": "tidy", "clean": "tidy",
    "create": "new", "init": "new", "start": "new", "begin": "new", "preview": "watch",
    "serve": "watch", "live": "watch", "open": "watch", "transpose": "retab", "find": "uses",
    "search": "uses", "list": "uses", "import": "tab", "convert": "tab", "meaning": "explain",
    "listen": "hear", "transcribe": "hear", "record": "hear", "metronome": "click",
    "count": "click",
}  # fmt: skip

#: An option under another name: the first of these that the command has is meant.
_OTHER_OPTIONS = {
    "paper": ("--page",), "size": ("--page",), "sheet": ("--page",), "paper-size": ("--page",),
    "page-size": ("--page",), "output": ("--out",), "o": ("--out",), "to": ("--out",),
    "folder": ("--out",), "big": ("--large",), "large-print": ("--large",),
    "upright": ("--portrait",), "vertical": ("--portrait",), "part": ("--only",),
    "parts": ("--only",), "wave": ("--wav",), "uncompressed": ("--wav",),
    "style": ("--marks",), "symbols": ("--marks",), "toner": ("--light",), "ink": ("--light",),
    "color": ("--colours",), "colors": ("--colours",), "colour": ("--colours",),
    "rebuild": ("--again",), "force": ("--again",), "overwrite": ("--force",),
    "processes": ("--jobs",), "workers": ("--jobs",), "threads": ("--jobs",),
    "bpm": ("--tempo",), "speed": ("--tempo",), "time": ("--meter",), "signature": ("--meter",),
    "groove": ("--feel",), "tune": ("--tuning",), "chord": ("--on",), "chords": ("--on",),
    "over": ("--on",), "overblows": ("--overbends",), "overdraws": ("--overbends",),
    "silent": ("--quiet",), "fix": ("--mend",), "dry-run": ("--diff",), "preview": ("--diff",),
}  # fmt: skip

_LONG_DASHES = "‐‑‒–—―−"
_OPENING, _CLOSING = "“„«‘‚", "”“»’‘"
_PLAIN_WORD = re.compile(r"[\w.,:/@%+=-]+")  # needs no quotes in a shell
_NUMBER = re.compile(r"-\d+")

#: Commands that take these facts from the lesson: `retab` writes it for others.
_OF_THE_LESSON = ("build", "check", "show", "joins")
_RETABBED = ("--position", "--tuning", "--octave", "--overbends")


def explained(words: Sequence[str], message: str) -> str:
    """What to print of a failed command line.

    `message` is kept where no slip is recognised, or where the slip is a value that it speaks of.
    """
    line = _Line()
    right = line.read(words)
    text = "\n".join(line.reasons) or message
    if not right:
        return text
    return "\n".join([text, "Type:", *(f"  {each}" for each in right)])


# ---- The words in their roles ----------------------------------------------------------------


class _Plain(NamedTuple):
    """A word that is not an option."""

    text: str


class _Given(NamedTuple):
    """An option, with its value where it takes one."""

    option: Option
    value: str | None = None
    elsewhere: bool = False  # the command does not have it: an option of `retab`


class _Line:
    """A command line as it was meant."""

    def __init__(self) -> None:
        self.reasons: list[str] = []
        self.changed = False
        self.command: Command
        self.items: list[_Plain | _Given] = []

    def read(self, words: Sequence[str]) -> list[str]:
        """The command lines to type; none where a part of it is not known."""
        words = self._quotes(list(words))
        if not self._find_command(words):
            return []
        if not self._find_options(words):
            return []
        self._join_values()
        self._correct_values()
        self._join_names()
        self._put_file_first()
        self._name_options()
        self._correct_arguments()
        self._count_arguments()
        if any(isinstance(item, _Given) and item.elsewhere for item in self.items):
            return self._typed(self._with_retab())
        return self._typed([(self.command.name, self.items)]) if self.changed else []

    def _say(self, reason: str) -> None:
        self.reasons.append(reason)
        self.changed = True

    @property
    def _plain(self) -> list[str]:
        return [item.text for item in self.items if isinstance(item, _Plain)]

    @property
    def _required(self) -> int:
        return sum(each.many in ("", "+") for each in self.command.arguments)

    # -- Quotes of a word processor

    def _quotes(self, words: list[str]) -> list[str]:
        """Words between curly quotes as one word."""
        joined: list[str] = []
        while words:
            word = words.pop(0)
            if word[:1] and word[0] in _OPENING:
                end = next((at for at, each in enumerate([word[1:], *words])
                            if each[-1:] and each[-1] in _CLOSING), None)  # fmt: skip
                if end is not None:
                    word = " ".join([word[1:], *words[:end]])[:-1]
                    words = words[end:]
                    self._say(f"the quotes of the command line are straight: {_quoted(word)}")
            joined.append(word)
        return joined

    # -- The command

    def _find_command(self, words: list[str]) -> bool:
        """Take the command out of the words; False where it is not known."""
        first = words[0] if words else ""
        later = next((at for at, word in enumerate(words) if word in COMMANDS), None)
        is_option = first.startswith("-")
        if first in COMMANDS:
            name = words.pop(0)
        elif (is_option or _is_file(first)) and later is not None:
            name = words.pop(later)
            self._say(f"the command comes first: {name}")
        elif _is_file(first):
            name = "check"
            self._say(
                "a command comes first, such as check (what is wrong with the lesson) or build "
                "(makes the handout)"
            )
        elif is_option:
            return False
        else:
            name = _OTHER_COMMANDS.get(first.casefold()) or nearest(first, COMMANDS) or ""
            listed = f"; the commands are {', '.join(COMMANDS)}"
            self._say(
                f'"{first}" is not a command' + (f"; did you mean {name}?" if name else listed)
            )
            del words[0]
        if name:
            self.command = declared(name)
        return bool(name)

    # -- Its options

    def _find_options(self, words: Sequence[str]) -> bool:
        """Sort the words into options and others; False where an option is not known."""
        rest = list(words)
        while rest:
            word = rest.pop(0)
            if word == "--":
                self.items += map(_Plain, rest)
                return True
            name, sign, value = word.partition("=")
            if not self._is_option(name):
                self.items.append(_Plain(word))
                continue
            option, elsewhere = self._option(name)
            if option is None:
                return False
            if not option.takes_value:
                self.items.append(_Given(option, None, elsewhere))
            elif sign:
                self.items.append(_Given(option, value, elsewhere))
            elif rest and (not rest[0].startswith("-") or _NUMBER.fullmatch(rest[0])):
                self.items.append(_Given(option, rest.pop(0), elsewhere))
            else:
                self.reasons.append(f"{option.name} needs a value: {option.name} {_value(option)}")
                return False
        return True

    def _is_option(self, name: str) -> bool:
        if _NUMBER.fullmatch(name) or name == "-" or " " in name:  # old tab: "-4 4 -5"
            return False
        if name.startswith("-"):
            return True
        if name[:1] and name[0] in _LONG_DASHES:
            bare = name.lstrip(_LONG_DASHES + "-")
            return self._known(bare) is not None or self._meant(bare) is not None
        return f"--{name}" in self._options and bool(self._plain) and not _is_file(name)

    def _option(self, name: str) -> tuple[Option | None, bool]:
        """The option meant, and whether it is one of `retab`; None where none is known."""
        bare = name.lstrip(_LONG_DASHES + "-")
        if name in self._options:
            return self._options[name], False
        option = self._known(bare) or self._meant(bare)
        if option is None and self.command.name in _OF_THE_LESSON and f"--{bare}" in _RETABBED:
            found = next(each for each in declared("retab").options if each.name == f"--{bare}")
            return found, True
        if option is None:
            self.reasons.append(self._unknown(name))
        elif not self._known(bare):
            self._say(
                f"{self.command.name} has no option {name}; write {option.name} ({option.help})"
            )
        elif name[0] in _LONG_DASHES:
            self._say(f"an option begins with two hyphens, not with a long dash: {option.name}")
        elif not name.startswith("-"):
            self._say(f"an option begins with two hyphens: {option.name}")
        elif not name.startswith("--"):
            self._say(f"an option begins with two hyphens, not with one: {option.name}")
        return option, False

    @property
    def _options(self) -> dict[str, Option]:
        return {name: each for each in (*self.command.options, HELP) for name in each.names}

    def _known(self, bare: str) -> Option | None:
        """The option of this name, or the only one that begins so."""
        if f"--{bare}" in self._options:
            return self._options[f"--{bare}"]
        begun = [each for name, each in self._options.items() if name.startswith(f"--{bare}")]
        return begun[0] if bare and len(begun) == 1 else None

    def _meant(self, bare: str) -> Option | None:
        """The option of which this is another name, or a misspelt one."""
        for name in _OTHER_OPTIONS.get(bare.casefold(), ()):
            if name in self._options:
                return self._options[name]
        near = nearest(bare, [name[2:] for name in self._options if name.startswith("--")])
        retabbed = self.command.name in _OF_THE_LESSON and f"--{bare}" in _RETABBED
        return self._options[f"--{near}"] if near and not retabbed else None

    def _unknown(self, name: str) -> str:
        names = ", ".join(each.name for each in self.command.options)
        has = f"; its options are {names}" if names else ""
        return f"{self.command.name} has no option {name}{has}"

    # -- Values of options

    def _join_values(self) -> None:
        """Put a value of several words together that was typed without quotes.

        The most words that are a value as they are, else the most that are one once corrected.
        """
        for at, item in enumerate(self.items):
            if not isinstance(item, _Given) or item.value is None or not item.option.meant:
                continue
            spare = min(self._run(at + 1), len(self._plain) - self._required)
            found = []
            for count in range(spare, 0, -1):
                more = [
                    word for each in self.items[at + 1 : at + 1 + count] for word in _words(each)
                ]
                typed = " ".join([item.value, *more])
                right = item.option.meant(typed)
                if right and not any(map(_is_file, more)):
                    found.append(
                        (_commas_left_out(right[0]) != _commas_left_out(typed), count, right)
                    )
            if found:
                _, count, right = min(found, key=lambda each: (each[0], -each[1]))
                self.items[at : at + 1 + count] = [item._replace(value=right[0])]
                self._say(
                    "several words after an option need quotes: "
                    f"{item.option.name} {_quoted(right[0])}"
                )

    def _run(self, at: int) -> int:
        """How many words that are no options follow each other from here."""
        items = self.items[at:]
        return next((n for n, each in enumerate(items) if isinstance(each, _Given)), len(items))

    def _correct_values(self) -> None:
        """Write each value as its option takes it."""
        for at, item in reversed(list(enumerate(self.items))):
            if not isinstance(item, _Given) or item.value is None:
                continue
            if item.option.choices:
                self._correct_choice(at, item, item.value)
                continue
            right = item.option.meant(item.value) if item.option.meant else None
            if right and list(right) != [item.value]:
                more = [_Given(self._options[name]) for name in right[1:] if name in self._options]
                added = [each for each in more if each not in self.items]
                self.items[at : at + 1] = [item._replace(value=right[0]), *added]
                self.changed = True  # the message of the command says why

    def _correct_choice(self, at: int, item: _Given, value: str) -> None:
        choices = item.option.choices
        folded = {each.casefold(): each for each in choices}
        if value.casefold() in folded:
            return
        near = nearest(value, choices)
        name = item.option.name
        reason = f'{name} does not take "{value}"; it takes {" or ".join(choices)}'
        if near:
            self.items[at] = item._replace(value=near)
            self._say(reason)
        else:
            self.reasons.append(reason)

    # -- Words that are no options

    def _join_names(self) -> None:
        """Put the name of a file together that has spaces and was typed without quotes."""
        if not any(map(_takes_path, self.command.arguments)):
            return
        at = 0
        while at < len(self.items):
            count = self._run(at)
            for many in range(count, 1, -1):
                parts = [each.text for each in self.items[at : at + many]
                         if isinstance(each, _Plain)]  # fmt: skip
                name = " ".join(parts)
                if _is_there(name) and not any(map(_is_there, parts)):
                    self.items[at : at + many] = [_Plain(name)]
                    self._say(f"a file name with a space needs quotes: {_quoted(name)}")
                    break
            at += 1

    def _put_file_first(self) -> None:
        """Put the file before the licks."""
        arguments, plain = self.command.arguments, self._plain
        if len(arguments) < 2 or len(plain) < 2 or not takes_file(arguments[0]):
            return
        files = [name for name in plain[1:] if _is_file(name)]
        if files and not _is_file(plain[0]):
            self.items.remove(_Plain(files[0]))
            self.items.insert(0, _Plain(files[0]))
            self._say("the file comes first, then the lick")

    def _name_options(self) -> None:
        """Put the name of the option before a value that has lost it."""
        given = {item.option.name for item in self.items if isinstance(item, _Given)}
        own = {word for each in self.command.arguments for word in offered(each)}
        for at, item in reversed(list(enumerate(self.items))):
            if not isinstance(item, _Plain) or len(self._plain) <= self._required:
                continue
            if item.text in own or _is_file(item.text):
                continue
            meant = [each for each in self.command.options
                     if item.text in offered(each) and each.name not in given]  # fmt: skip
            if len(meant) == 1:
                self.items[at] = _Given(meant[0], item.text)
                self._say(f'"{item.text}" is a value of {meant[0].name}: write that before it')

    def _correct_arguments(self) -> None:
        """Write the only argument as the command takes it."""
        meant = self.command.arguments[0].meant if self.command.arguments else None
        plain = self._plain
        if not meant or not plain:
            return
        right = meant(" ".join(plain))
        if right and list(right) != plain:
            if len(plain) > 1:
                self._say("several words need quotes")
            others = [item for item in self.items if isinstance(item, _Given)]
            self.items = [_Plain(right[0]), *others]
            self.changed = True

    def _count_arguments(self) -> None:
        """Say so where an argument is missing or there are too many."""
        arguments, plain = self.command.arguments, self._plain
        if any(isinstance(each, _Given) and _prints(each.option) for each in self.items):
            return
        name = self.command.name
        if len(plain) < self._required:
            missing = arguments[len(plain)].value.replace("|", " or ")
            sample = self.command.examples[0]
            self.reasons.append(f"{name} needs {missing}, as in: {sample}")
            self.changed = False
        elif not any(each.many in ("+", "*") for each in arguments) and len(plain) > len(arguments):
            takes = " and ".join(each.value for each in arguments) or "options"
            over = " ".join(map(_quoted, plain[len(arguments) :]))
            self.reasons.append(f"{name} takes {takes} only; leave out {over}")
            self.changed = False

    # -- The line as it is to be typed

    def _typed(self, lines: Sequence[tuple[str, Sequence[_Plain | _Given]]]) -> list[str]:
        """The lines as text; none where one of them cannot be parsed."""
        texts = []
        for name, items in lines:
            words = [word for item in items for word in _words(item)]
            prints = any(isinstance(item, _Given) and _prints(item.option) for item in items)
            try:
                if not prints:
                    parsed(declared(name), words)
            except UsageError:
                return []
            texts.append(" ".join(map(_quoted, [PROGRAM, name, *words])))
        return texts

    def _with_retab(self) -> list[tuple[str, list[_Plain | _Given]]]:
        """The lesson written for another position or tuning first, then the command on that."""
        plain = self._plain
        options = [item for item in self.items if isinstance(item, _Given)]
        moved = [each for each in options if each.elsewhere or each.option.name == "--harp"]
        left = [each for each in options if each not in moved]
        names = " and ".join(each.option.name for each in moved if each.elsewhere)
        self.reasons.append(
            f"{self.command.name} has no option {names}: first write the lesson for that with "
            "retab, then use the new lesson"
        )
        if len(plain) != 1 or not plain[0].endswith(LESSON_SUFFIX):
            return []
        path = Path(plain[0])
        ending = next((each.value for each in moved if each.elsewhere and each.value), "new")
        slug = re.sub(r"\W+", "-", ending).strip("-")
        new = _Plain(str(path.with_name(f"{path.stem}-{slug}{LESSON_SUFFIX}")))
        out = next(each for each in declared("retab").options if each.name == "--out")
        return [
            ("retab", [_Plain(plain[0]), *moved, _Given(out, new.text)]),
            (self.command.name, [new, *left]),
        ]


# ---- Words -----------------------------------------------------------------------------------


def _words(item: _Plain | _Given) -> Sequence[str]:
    if isinstance(item, _Plain):
        return [item.text]
    return [item.option.name] if item.value is None else [item.option.name, item.value]


def _quoted(word: str) -> str:
    """A word as a shell takes it, in double quotes where it needs any."""
    if _PLAIN_WORD.fullmatch(word):
        return word
    return shlex.quote(word) if re.search(r'["$`\\!]', word) else f'"{word}"'


def _prints(option: Option) -> bool:
    """Whether the command does nothing but print a text with it."""
    return option is HELP or option.prints is not None


def _commas_left_out(text: str) -> str:
    return " ".join(text.replace(",", " ").split())


def _value(option: Option) -> str:
    return option.shown_value.replace("|", " or ")


def _takes_path(argument: Argument) -> bool:
    return takes_file(argument) or takes_folder(argument)


def _is_file(name: str) -> bool:
    """Whether it is a file or folder, or looks like the name of a lesson or a shelf."""
    return name.endswith((LESSON_SUFFIX, SHELF_SUFFIX)) or _is_there(name)


def _is_there(name: str) -> bool:
    try:
        return completed(Path(name), (LESSON_SUFFIX, SHELF_SUFFIX)).exists()
    except (OSError, ValueError):  # too long for a name
        return False
