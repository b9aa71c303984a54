"""Values named on the command line: facts by the readers of a lesson, and names of licks."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from fractions import Fraction
from typing import Any, TypeVar

from formsheet.commands.declared import Option
from formsheet.commands.files import UsageError
from formsheet.lesson.model import Lick
from formsheet.music import form as forms
from formsheet.music.form import Form
from formsheet.music.harp import Harp
from formsheet.music.key import Key
from formsheet.music.pitch import plain_signs
from formsheet.music.rhythm import Meter
from formsheet.music.tunings import RICHTER, Tuning
from formsheet.problems.drawing import hint_texts
from formsheet.problems.nearest import nearest
from formsheet.problems.problem import Problem
from formsheet.vocabulary.facts import (
    FEEL,
    FORM,
    HARP,
    METER,
    POSITION,
    TEMPO,
    TUNING,
    Fact,
    harp_words,
)
from formsheet.vocabulary.option import value_of

T = TypeVar("T")


def fact_option(fact: Fact[Any], says: str = "", more: str = "") -> Option:
    """The option that gives a fact.

    `says` takes the place of the help that the table has for it; `more` follows that.
    """
    return Option(
        fact.option, (says or fact.says) + more, value=fact.value, known=lambda: fact.known
    )


def setup_options(*, harp: str = "", position: str = "", form: bool = False) -> tuple[Option, ...]:
    """The options that name a harp, a position and a tuning, perhaps a form.

    `harp`, `position`: what holds where the option is not given.
    """
    return (
        fact_option(HARP, more=harp),
        fact_option(POSITION, more=position),
        fact_option(TUNING),
        *((fact_option(FORM),) if form else ()),
    )


# ---- Facts ---------------------------------------------------------------------------------


def read_option(fact: Fact[T], words: str) -> T:
    """The value of an option that gives a fact.

    UsageError, with message and hints of the lesson's own problem, where it is none.
    """
    value = value_of(fact, words)
    if isinstance(value, Problem):
        raise UsageError("\n  = ".join([value.message(), *hint_texts(value)]))
    return value


def named_form(name: str) -> Form:
    """A built-in form, perhaps with its ending; UsageError if there is none of that name."""
    try:
        form = forms.named_form(name)
    except ValueError as wrong:
        raise UsageError(f"{name}: {wrong}") from None
    return form or read_option(FORM, re.split(r"(?i)\sending\s", name)[0])


def named_harp(name: str, tuning: Tuning) -> Harp:
    """A harp such as "C", "bb" or "low F"; UsageError if there is none."""
    try:
        harp = read_option(HARP, name)
    except UsageError as caught:
        if " " in harp_words(name)[0]:
            raise UsageError(f"{caught}\n  = put commas between several harps") from None
        raise
    return Harp(harp.key, harp.register, tuning)


def harp_option(name: str | None) -> Harp | None:
    """The harp of an option `--harp` that takes the place of a lesson's own; None without one."""
    return named_harp(name, RICHTER) if name else None


def named_position(name: str) -> int:
    """A position such as "2nd" or "2"; UsageError if there is none."""
    return read_option(POSITION, name)


def named_tuning(name: str) -> Tuning:
    """A built-in tuning; UsageError if there is none of that name."""
    return read_option(TUNING, name)


def named_meter(name: str) -> Meter:
    """A meter such as "12/8"; UsageError if the language has none of that name."""
    return read_option(METER, name)


def named_feel(name: str) -> str:
    """A feel as a lesson writes it: "swing", "straight", "swing 3:2"; UsageError if it is none."""
    words = " ".join(name.casefold().split())
    read_option(FEEL, words)
    return words


def named_tempo(name: str) -> Fraction:
    """A tempo in beats a minute, such as "104" or "98.5"; UsageError if it is none of a tune."""
    return read_option(TEMPO, name)


# ---- Other names ---------------------------------------------------------------------------


def unknown(what: str, name: str, known: Sequence[str]) -> UsageError:
    """That there is no such thing of this name, and what there is instead."""
    near = nearest(name, known)
    hint = f"did you mean {near}?" if near else f"there are {', '.join(known)}"
    return UsageError(f"there is no {what} called {name}; {hint}")


def named_octaves(name: str) -> int:
    """Octaves up, or down where the number is negative; UsageError if it is none."""
    if not re.fullmatch(r"[+-]?[0-3]", name):
        raise UsageError(f"{name} is no number of octaves; write 1, -1 or 0, 3 at most")
    return int(name)


def named_licks(names: Sequence[str], licks: Mapping[str, Lick]) -> dict[str, Lick]:
    """The licks of these names; UsageError if there is none of one."""
    for name in names:
        if name not in licks:
            raise unknown("lick", name, sorted(licks))
    return {name: licks[name] for name in names}


def new_lick_name(name: str) -> str:
    """A name for a new lick, as the language takes it; UsageError if it takes none such."""
    if not re.fullmatch(r"[^\W\d_][\w'’-]*", name) or name == "rest":
        raise UsageError(f"{name} is no name of a lick; write one word, such as porch")
    return name


def named_key(name: str) -> Key:
    """A key such as "G", "bb minor" or "F#m"; UsageError if there is none."""
    found = re.fullmatch(r"([A-Ga-g][b#]?)\s*(m|min|minor|maj|major)?", plain_signs(name))
    if not found:
        from formsheet.vocabulary.misnamed import song_key_meant

        meant = song_key_meant(name)
        right = repr(meant) if meant else "G or 'G minor'"
        raise UsageError(f"{name} is no key; write {right}")
    minor = (found[2] or "").startswith("m") and not (found[2] or "").startswith("maj")
    return Key(found[1][0].upper() + found[1][1:], minor)
