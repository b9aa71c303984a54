"""What the reference says: taken from the parser, the language, the music and the wordings.

Nothing is written here that stands elsewhere in the code, so that it cannot go stale.
"""

from __future__ import annotations

import argparse
from collections.abc import Iterator
from dataclasses import dataclass

from formsheet.commands.examples import EXAMPLES
from formsheet.commands.files import EXITS
from formsheet.commands.parser import commands_of
from formsheet.language.blocks import FACT_WORDS
from formsheet.language.techniques import TECHNIQUES
from formsheet.language.tree import FileTree
from formsheet.language.usage import USAGE
from formsheet.lesson.fact_values import POSITIONS
from formsheet.lesson.facts import REQUIRED, position_name, read_facts
from formsheet.lesson.model import Level
from formsheet.lesson.writing_facts import feel_text
from formsheet.music.form import FORMS
from formsheet.music.harp import HARP_KEYS, REGISTERS, Harp
from formsheet.music.key import song_key
from formsheet.music.rhythm import METERS
from formsheet.music.tab import Breath
from formsheet.music.tunings import HOLES, TUNINGS
from formsheet.pack.parts import PARTS
from formsheet.problems.registry import KINDS, meaning
from formsheet.source import Source
from formsheet.suffixes import LESSON_SUFFIX, SHELF_SUFFIX

_MINOR_THIRD = 3  # half steps


@dataclass(frozen=True)
class Item:
    """A term and what is to be said of it, a paragraph each."""

    term: str
    says: tuple[str, ...] = ()


@dataclass(frozen=True)
class Section:
    """A title, and what stands below it, in this order."""

    title: str
    says: tuple[str, ...] = ()
    code: tuple[str, ...] = ()  # lines that stay as they are
    items: tuple[Item, ...] = ()
    sections: tuple[Section, ...] = ()


def reference(parser: argparse.ArgumentParser) -> Section:
    """The whole reference of a parser's commands and of the language."""
    described = parser.description or ""
    return Section(
        parser.prog,
        (described,),
        sections=(
            Section("Commands", sections=tuple(_commands(parser))),
            Section("Exit status", items=tuple(Item(str(s), (w,)) for s, w in EXITS.items())),
            _environment(),
            _files(),
            _facts(),
            Section(
                "Other lines of a lesson", items=tuple(
                    Item(word, (f"such as `{USAGE[word]}`",))
                    for word in USAGE if word not in FACT_WORDS
                ),
            ),
            Section(
                "Techniques", ("In braces after a note, such as `4d{wah}`:",
                               ", ".join(TECHNIQUES)),
            ),
            Section(
                "Harps, positions, meters, levels", items=(
                    Item("harp", (", ".join(HARP_KEYS), _registers())),
                    Item("position", (", ".join(POSITIONS),)),
                    Item("meter", (", ".join(METERS),)),
                    Item("level", (", ".join(level.value for level in Level),)),
                ),
            ),
            Section("Forms", sections=tuple(_forms())),
            Section("Tunings", ("On a C harp, hole 1 first.",), sections=tuple(_tunings())),
            Section(
                "Parts of a handout", (", ".join(PARTS),),
            ),
            Section(
                "Problems", ("`formsheet explain CODE` shows an example of each.",),
                items=tuple(_problems()),
            ),
        ),
    )  # fmt: skip


# ---- Commands ------------------------------------------------------------------------------


def _commands(parser: argparse.ArgumentParser) -> Iterator[Section]:
    yield Section(
        f"{parser.prog} [option]", items=tuple(_options(parser, skip=(argparse._SubParsersAction,)))
    )
    for name, (command, says) in commands_of(parser).items():
        usage = " ".join(command.format_usage().removeprefix("usage: ").split())
        yield Section(
            f"{parser.prog} {name}",
            (says, usage),
            items=tuple(_options(command)),
            sections=(Section("Examples", code=EXAMPLES[name]),) if name in EXAMPLES else (),
        )


def _options(
    parser: argparse.ArgumentParser, skip: tuple[type[argparse.Action], ...] = ()
) -> Iterator[Item]:
    formatter = parser._get_formatter()
    for action in parser._actions:
        if isinstance(action, skip) or action.help == argparse.SUPPRESS:
            continue
        says = formatter._expand_help(action) if action.help else ""
        value = action.metavar if isinstance(action.metavar, str) else ""
        if not value and action.choices:
            value = "|".join(map(str, action.choices))
        if action.option_strings and action.nargs != 0 and not value:
            value = action.dest.upper()
        names = ", ".join(action.option_strings)
        default = "" if action.default in (None, False, argparse.SUPPRESS) else str(action.default)
        if default and "default:" not in says:
            says += f" (default: {default})"
        yield Item(f"{names} {value}".strip() or action.dest, (says,) if says else ())


def _environment() -> Section:
    return Section(
        "Environment",
        items=(
            Item("NO_COLOR", ("where it is set to anything, nothing is coloured",)),
            Item("FORCE_COLOR", ("where it is set, and NO_COLOR is not, everything is coloured",)),
        ),
    )


def _files() -> Section:
    return Section(
        "Files",
        items=(
            Item(f"NAME{LESSON_SUFFIX}", ("one tune, one handout",)),
            Item(f"NAME{SHELF_SUFFIX}", ("a shelf: licks and rhythms that several tunes use",)),
        ),
    )


# ---- The language --------------------------------------------------------------------------


def _facts() -> Section:
    """Every fact, how it is written, and what holds without it."""
    nothing, _ = read_facts(FileTree(Source("", "")), lesson=False)
    defaults = {
        "tuning": nothing.harp.tuning.name,
        "position": position_name(nothing.position),
        "meter": nothing.meter.text,
        "feel": feel_text(nothing.feel),
        "count-in": str(nothing.count_in),
        "level": nothing.level.value,
    }
    items = []
    for word in FACT_WORDS:
        says = [f"such as `{USAGE[word]}`"]
        if word in REQUIRED:
            says.append("every lesson has one")
        if word in defaults:
            says.append(f"without it: {defaults[word]}")
        items.append(Item(word, ("; ".join(says),)))
    return Section("Facts", ("One a line, before the first lick.",), items=tuple(items))


def _registers() -> str:
    words = " or ".join(word for word in REGISTERS if word)
    return f"with {words} before it where the harp is pitched an octave away"


def _forms() -> Iterator[Section]:
    for form in FORMS.values():
        lines = (" | ".join(" ".join(map(str, bar)) for bar in line) for line in form.lines)
        yield Section(form.name, code=tuple(lines))


def _tunings() -> Iterator[Section]:
    for tuning in TUNINGS.values():
        harp = Harp("C", "", tuning)
        minor = (tuning.blow[1] - tuning.blow[0]) % 12 == _MINOR_THIRD
        key = song_key(harp.key, 2, minor)
        rows = (
            f"{breath.name.lower():<4}  " + " ".join(
                f"{key.spell(harp.reed(hole, breath) % 12):<2}" for hole in range(1, HOLES + 1)
            )
            for breath in Breath
        )  # fmt: skip
        yield Section(tuning.name, code=tuple(map(str.rstrip, rows)))


# ---- Problems ------------------------------------------------------------------------------


def _problems() -> Iterator[Item]:
    for code, kind in sorted(KINDS.items()):
        yield Item(code, (" ".join(meaning(kind).split()),))
