"""Values named on the command line: facts by the readers of a lesson, and names of licks."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from fractions import Fraction
from functools import partial
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
from formsheet.vocabulary.option import corrected, value_of

T = TypeVar("T")


def fact_option(fact: Fact[Any], says: str = "", more: str = "") -> Option:
    """The option that gives a fact.

    `says` takes the place of the help that the table has for it; `more` follows that.
    """
    return Option(
        fact.option,
        (says or fact.says) + more,
        value=fact.value,
        known=lambda: fact.known,
        meant=form_meant if fact is FORM else partial(fact_meant, fact),
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

    UsageError, with message and hints of the lesson's own problem, where the words cannot be read.
    """
    value = value_of(fact, words)
    if isinstance(value, Problem):
        raise UsageError("\n  = ".join([value.message(), *hint_texts(value)]))
    return value


def named_form(name: str) -> Form:
    """A built-in form, perhaps with its ending; UsageError if the name is unknown."""
    try:
        form = forms.named_form(name)
    except ValueError as wrong:
        raise UsageError(f"{name}: {wrong}") from None
    return form or read_option(FORM, re.split(r"(?i)\sending\s", name)[0])


def fact_meant(fact: Fact[Any], words: str) -> Sequence[str] | None:
    """What to write for a fact; None where nothing can be meant by the words, or several things."""
    right = corrected(fact, words)
    return [right] if right else None


def form_meant(words: str) -> Sequence[str] | None:
    """What to write for a form, perhaps with its ending; None where no form can be meant."""
    try:
        named_form(words)
    except UsageError:
        return fact_meant(FORM, words)
    return [words]


def harps_meant(words: str) -> Sequence[str] | None:
    """What to write for one harp or several; None where one of them cannot be meant."""
    one_by_one = re.findall(r"(?:(?:low|high)\s+)?[^\s,]+", words, flags=re.IGNORECASE)
    for found in (one_by_one, [each for each in words.split(",") if each.strip()]):
        right = [corrected(HARP, each) for each in found]
        if right and all(right):
            return [",".join(filter(None, right))]
    return None


def named_harp(name: str, tuning: Tuning) -> Harp:
    """A harp such as "C", "bb" or "low F"; UsageError if it is unknown."""
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
    """A position such as "2nd" or "2"; UsageError if it is unknown."""
    return read_option(POSITION, name)


def named_tuning(name: str) -> Tuning:
    """A built-in tuning; UsageError if the name is unknown."""
    return read_option(TUNING, name)


def named_meter(name: str) -> Meter:
    """A meter such as "12/8"; UsageError if the language does not have it."""
    return read_option(METER, name)


def named_feel(name: str) -> str:
    """A feel as a lesson writes it: "swing", "straight", "swing 3:2"; UsageError if unknown."""
    words = " ".join(name.casefold().split())
    read_option(FEEL, words)
    return words


def named_tempo(name: str) -> Fraction:
    """A tempo in beats a minute, such as "104" or "98.5"; UsageError if out of range."""
    return read_option(TEMPO, name)


# ---- Other names ---------------------------------------------------------------------------


def unknown(what: str, name: str, known: Sequence[str]) -> UsageError:
    """The error for an unknown name, with the nearest known one, or all of them."""
    near = nearest(name, known)
    hint = f"did you mean {near}?" if near else f"choose from {', '.join(known)}"
    return UsageError(f'unknown {what} "{name}"; {hint}')


def named_octaves(name: str) -> int:
    """Octaves up, or down where the number is negative; UsageError if it is not in -3 to 3."""
    if not re.fullmatch(r"[+-]?[0-3]", name):
        raise UsageError(f'"{name}" is not a number of octaves; write 1, -1 or 0, 3 at most')
    return int(name)


def named_licks(names: Sequence[str], licks: Mapping[str, Lick]) -> dict[str, Lick]:
    """The licks of these names; UsageError if one is unknown."""
    for name in names:
        if name not in licks:
            raise unknown("lick", name, sorted(licks))
    return {name: licks[name] for name in names}


def new_lick_name(name: str) -> str:
    """A name for a new lick, as the language takes it; UsageError if it cannot be one."""
    if not re.fullmatch(r"[^\W\d_][\w'’-]*", name) or name == "rest":
        raise UsageError(f'"{name}" cannot be the name of a lick; write one word, such as porch')
    return name


def named_key(name: str) -> Key:
    """A key such as "G", "bb minor" or "F#m"; UsageError if it is unknown."""
    found = re.fullmatch(r"([A-Ga-g][b#]?)\s*(m|min|minor|maj|major)?", plain_signs(name))
    if not found:
        from formsheet.vocabulary.misnamed import song_key_meant

        meant = song_key_meant(name)
        right = f'"{meant}"' if meant and " " in meant else meant or 'G or "G minor"'
        raise UsageError(f'"{name}" is not a key; write {right}')
    minor = (found[2] or "").startswith("m") and not (found[2] or "").startswith("maj")
    return Key(found[1][0].upper() + found[1][1:], minor)
