"""Facts of a lesson named on the command line, as forgivingly as in a lesson."""

from __future__ import annotations

import argparse
import re
from collections.abc import Mapping, Sequence
from fractions import Fraction

from formsheet.commands.files import UsageError
from formsheet.lesson.fact_values import (
    FASTEST,
    SLOWEST,
    harp_of,
    harp_words,
    position_of_words,
    tempo_of,
)
from formsheet.lesson.model import Lick
from formsheet.music import form as forms
from formsheet.music.form import FORMS, Form
from formsheet.music.harp import Harp
from formsheet.music.key import Key
from formsheet.music.pitch import plain_signs
from formsheet.music.rhythm import METERS, Meter
from formsheet.music.swing import parse_ratio
from formsheet.music.tunings import RICHTER, TUNINGS, Tuning
from formsheet.problems.nearest import nearest


def add_setup(
    command: argparse.ArgumentParser, *, harp: str = "", position: str = "", form: bool = False
) -> None:
    """The options that name a harp, a position and a tuning, perhaps a form.

    `harp`, `position`: what holds where the option is not given.
    """
    command.add_argument("--harp", metavar="KEY", help=f"such as C, Bb or `low F`{harp}")
    command.add_argument("--position", metavar="Nth", help=f"1st to 12th{position}")
    command.add_argument("--tuning", metavar="NAME", help="a built-in tuning")
    if form:
        command.add_argument("--form", metavar="NAME", help="a built-in form")


def unknown(what: str, name: str, known: Sequence[str]) -> UsageError:
    """That there is no such thing of this name, and what there is instead."""
    near = nearest(name, known)
    hint = f"did you mean {near}?" if near else f"there are {', '.join(known)}"
    return UsageError(f"there is no {what} called {name}; {hint}")


def named_form(name: str) -> Form:
    """A built-in form, perhaps with its ending; UsageError if there is none of that name."""
    try:
        form = forms.named_form(name)
    except ValueError as wrong:
        raise UsageError(f"{name}: {wrong}") from None
    if form is None:
        raise unknown("form", name, list(FORMS))
    return form


def named_harp(name: str, tuning: Tuning) -> Harp:
    """A harp such as "C", "bb" or "low F"; UsageError if there is none."""
    register, key = harp_words(name)
    harp = harp_of(f"{register.lower()} {key[:1].upper()}{key[1:]}")
    if harp is None:
        several = "; put commas between several harps" if " " in register else ""
        raise UsageError(f"no harp is stamped {name}; write C, Bb or 'low F'{several}")
    return Harp(harp.key, harp.register, tuning)


def harp_option(name: str | None) -> Harp | None:
    """The harp of an option `--harp` that takes the place of a lesson's own; None without one."""
    return named_harp(name, RICHTER) if name else None


def named_position(name: str) -> int:
    """A position such as "2nd" or "2"; UsageError if there is none."""
    position = position_of_words(name.strip().casefold())
    if position is None:
        raise UsageError(f"{name} is no position; write 1st to 12th")
    return position


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
        raise UsageError(f"{name} is no key; write G or 'G minor'")
    minor = (found[2] or "").startswith("m") and not (found[2] or "").startswith("maj")
    return Key(found[1][0].upper() + found[1][1:], minor)


def named_tuning(name: str) -> Tuning:
    """A built-in tuning; UsageError if there is none of that name."""
    folded = name.casefold().replace("-", " ")
    if folded not in TUNINGS:
        raise unknown("tuning", name, list(TUNINGS))
    return TUNINGS[folded]


def named_meter(name: str) -> Meter:
    """A meter such as "12/8"; UsageError if the language has none of that name."""
    if name not in METERS:
        raise unknown("meter", name, list(METERS))
    return METERS[name]


def named_feel(name: str) -> str:
    """A feel as a lesson writes it: "swing", "straight", "swing 3:2"; UsageError if it is none."""
    word, *ratio = name.casefold().split() or [""]
    ratio_read = len(ratio) == 1 and word == "swing" and parse_ratio(ratio[0])
    if not ratio_read and (ratio or word not in ("swing", "straight")):
        raise UsageError(f"{name} is no feel; write swing, straight, 'swing 3:2' or 'swing 60%'")
    return " ".join([word, *ratio])


def named_tempo(name: str) -> Fraction:
    """A tempo in beats a minute, such as "104" or "98.5"; UsageError if it is none of a tune."""
    tempo = tempo_of(name.strip())
    if tempo is None:
        raise UsageError(f"{name} is no tempo; write a number from {SLOWEST} to {FASTEST}")
    return tempo
