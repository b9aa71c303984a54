"""Find the tab of each lick for another harp, position or tuning; the music stays the same."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from formsheet.arrange.choices import Choice
from formsheet.arrange.octaves import MOST_OCTAVES, OCTAVE, Arranged, arrange
from formsheet.arrange.rank import LICK_OCTAVE, Layout, harps_for, ranked
from formsheet.arrange.search import Laid
from formsheet.arrange.sounds import Line, lick_line, moved
from formsheet.judge.joins import JoinedMarks
from formsheet.lesson.model import Facts, Kind, Lick, LickBar
from formsheet.music.harp import Harp
from formsheet.music.key import Key, harp_key, position_of, song_key
from formsheet.music.tunings import Tuning


@dataclass(frozen=True)
class Asked:
    """The teacher's request; None: as in the lesson, or derived from the rest."""

    harp: Harp | None = None  # with the tuning asked for
    position: int | None = None
    tuning: Tuning | None = None
    overbends: bool = False
    octaves: int | None = None


@dataclass(frozen=True)
class Retabbed:
    """Licks with their new tab."""

    harp: Harp
    position: int
    key: Key  # the new key of the song
    old_key: Key
    half_steps: int  # from the old key to the new one, without octaves
    arranged: Arranged
    licks: Mapping[str, Lick]  # the original licks by name
    laid: Mapping[str, Laid]  # by name of the lick

    def choices(self, name: str) -> dict[object, Choice]:
        """The choice for each written note of a lick, by its mark."""
        laid = self.laid[name]
        return {
            sound.mark: choice for sound, choice in zip(laid.line, laid.choices, strict=True)
        }  # fmt: skip

    def lick(self, name: str) -> Lick:
        """A lick with its new tab, by its name in the lesson."""
        choices, old = self.choices(name), self.licks[name]

        def tabbed(bar: LickBar) -> LickBar:
            return tuple(
                mark._replace(tab=choices[mark.span.place].tab) if mark.kind is Kind.NOTE else mark
                for mark in bar
            )

        bars = tuple(map(tabbed, old.bars))
        return old._replace(name=name, bars=bars, pickup=tabbed(old.pickup))


def target(facts: Facts, key: Key, asked: Asked) -> tuple[Harp, int]:
    """The harp and position for a request.

    With only a position, the key of the song stays and the harp is derived; with only a harp, the
    key stays and the position is derived; with both, the key changes.
    """
    tuning = asked.tuning or facts.harp.tuning
    if asked.harp:
        position = asked.position or position_of(asked.harp.key, key.tonic)
        return Harp(asked.harp.key, asked.harp.register, tuning), position
    if asked.position and asked.position != facts.position:
        return Harp(harp_key(key.tonic, asked.position), "", tuning), asked.position
    return Harp(facts.harp.key, facts.harp.register, tuning), facts.position


def retabbed(
    facts: Facts,
    key: Key,
    licks: Mapping[str, Lick],
    asked: Asked,
    joins: Sequence[JoinedMarks] = (),
) -> Retabbed:
    """The licks with new tab for a request, all moved by the same octaves.

    `joins`: the marks in which they meet in their tune.
    """
    harp, position = target(facts, key, asked)
    new_key = song_key(harp.key, position, key.minor)
    lines, half_steps = _lines(facts, key, licks.values(), new_key)
    arranged = arrange(
        lines,
        harp,
        overbends=asked.overbends,
        octave_cost=LICK_OCTAVE,
        octaves=_octaves(asked),
        joins=joins,
    )
    laid = dict(zip(licks, arranged.laid, strict=True))
    return Retabbed(harp, position, new_key, key, half_steps, arranged, licks, laid)


def other_layouts(done: Retabbed, asked: Asked, old: Harp) -> list[Layout]:
    """Other harps that have all notes of the licks in the same key, best first."""
    back = -done.arranged.octaves * OCTAVE
    lines = [moved(laid.line, back) for laid in done.laid.values()]
    harps = harps_for(done.key.tonic, tuning=done.harp.tuning)
    found = ranked(
        lines,
        [(position, harp) for position, harp in harps if harp not in (done.harp, old)],
        overbends=asked.overbends,
        octave_cost=LICK_OCTAVE,
        octaves=_octaves(asked),
    )
    return [layout for layout in found if not layout.arranged.missing]


def _lines(
    facts: Facts, key: Key, licks: Iterable[Lick], new_key: Key
) -> tuple[Sequence[Line], int]:
    """The sounds of the licks in the new key, and its distance from the old one in half steps."""
    up = (new_key.pitch_class - key.pitch_class) % OCTAVE
    half_steps = up if up <= OCTAVE // 2 else up - OCTAVE
    lines = [moved(lick_line(lick, facts.harp, facts.meter.bar), half_steps) for lick in licks]
    return lines, half_steps


def _octaves(asked: Asked) -> Sequence[int]:
    if asked.octaves is not None:
        return (asked.octaves,)
    return range(-MOST_OCTAVES, MOST_OCTAVES + 1)
