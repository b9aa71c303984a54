"""What the reference says: taken from the commands, the language, the music and the problems.

It is read from the code, so that it cannot go stale.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Any

from formsheet.commands.declared import HELP, VERSION, Argument, Command, Option
from formsheet.commands.files import EXITS
from formsheet.commands.parser import DESCRIPTION, PROGRAM, usage_of
from formsheet.engine.parts import PARTS
from formsheet.lesson.model import Facts
from formsheet.music.form import FORMS
from formsheet.music.harp import REGISTERS, Harp
from formsheet.music.key import song_key
from formsheet.music.tab import Breath
from formsheet.music.tunings import HOLES, RICHTER, TUNINGS
from formsheet.problems.registry import KINDS, meaning
from formsheet.suffixes import LESSON_SUFFIX, SHELF_SUFFIX
from formsheet.vocabulary.facts import FACT_OF, FACTS, HARP, TUNING, Fact, Shape
from formsheet.vocabulary.lines import USAGE
from formsheet.vocabulary.techniques import TECHNIQUES

_MINOR_THIRD = 3  # half steps


@dataclass(frozen=True)
class Item:
    """A term and what is to be said of it, a paragraph each."""

    term: str
    says: tuple[str, ...] = ()


@dataclass(frozen=True)
class Section:
    """A title, and what is below it, in this order."""

    title: str
    says: tuple[str, ...] = ()
    code: tuple[str, ...] = ()  # lines that stay as they are
    items: tuple[Item, ...] = ()
    sections: tuple[Section, ...] = ()


def reference(commands: Sequence[Command]) -> Section:
    """The whole reference of the commands and of the language."""
    return Section(
        PROGRAM,
        (DESCRIPTION,),
        sections=(
            Section("Commands", sections=tuple(_commands(commands))),
            Section("Exit status", items=tuple(Item(str(s), (w,)) for s, w in EXITS.items())),
            _environment(),
            _files(),
            _facts(),
            Section(
                "Other lines of a lesson", items=tuple(
                    Item(word, (f"such as `{USAGE[word]}`",))
                    for word in USAGE if word not in FACT_OF
                ),
            ),
            Section(
                "Techniques", ("In braces after a note, such as `4d{wah}`:",
                               ", ".join(TECHNIQUES)),
            ),
            Section(
                "Values of facts", items=tuple(_values()),
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


def _commands(commands: Sequence[Command]) -> Iterator[Section]:
    yield Section(f"{PROGRAM} [option]", items=tuple(map(_option, (HELP, VERSION))))
    for command in commands:
        options = (HELP, *command.options)
        yield Section(
            f"{PROGRAM} {command.name}",
            (command.help, usage_of(command)),
            items=(*map(_argument, command.arguments), *map(_option, options)),
            sections=(Section("Examples", code=command.examples),) if command.examples else (),
        )


def _argument(argument: Argument) -> Item:
    return Item(argument.value, (argument.says,) if argument.says else ())


def _option(option: Option) -> Item:
    return Item(f"{', '.join(option.names)} {option.shown_value}".strip(), (option.says,))


def _environment() -> Section:
    return Section(
        "Environment",
        items=(
            Item("NO_COLOR", ("if set to any value, the output has no colours",)),
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
    items = []
    for fact in FACTS:
        says = [f"such as `{fact.sample}`"]
        if fact.missing:
            says.append("every lesson has one")
        elif default := _default(fact):
            says.append(f"without it: {default}")
        if fact.repeats:
            says.append("may be given several times")
        items.append(Item(fact.word, ("; ".join(says),)))
    return Section("Facts", ("One a line, before the first lick.",), items=tuple(items))


def _default(fact: Fact[Any]) -> str:
    """The default of a fact, as a lesson would write it; "" where it has none."""
    if fact is TUNING:
        return RICHTER.name
    value = getattr(Facts(), fact.field) if fact.field else None
    return fact.write(value) if fact.write and value not in (None, "", ()) else ""


def _values() -> Iterator[Item]:
    """The values that can be listed."""
    for fact in FACTS:
        if fact.known and fact.shape is Shape.WORDS:
            registers = (_registers(),) if fact is HARP else ()
            yield Item(fact.word, (", ".join(fact.known), *registers))


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
