"""The harps on which the same tab can be played, with the pitch, key and chords on each."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from formsheet.music.chord import Chord
from formsheet.music.harp import Harp
from formsheet.music.key import Key, song_key
from formsheet.sheet.draw.words import accidentals
from formsheet.sheet.spoken import spoken_chord
from formsheet.tune.timeline import Tune

#: Keys in which harps are sold, from the lowest up. Common practice, no source.
KEYS = ("G", "Ab", "A", "Bb", "B", "C", "Db", "D", "Eb", "E", "F", "F#")


@dataclass(frozen=True, slots=True)
class OtherHarp:
    """A harp that the student may choose; the band is transposed with it."""

    name: str
    key: str  # of the song
    semitones: int  # above the lesson's own harp
    band: int  # semitones by which the band is transposed: the nearest way, -6 to 5
    letters: dict[str, str]  # numeral -> letter name of the chord
    spoken: dict[str, str]  # numeral -> the chord in words


def other_harps(tune: Tune) -> tuple[OtherHarp, ...]:
    """The lesson's own harp and all others in its register and in the middle one, low to high."""
    chords = dict.fromkeys(chord for bar in tune.bars for _, chord in bar.chords)
    return tuple(
        _other(tune, harp, chords)
        for harp in sorted(_harps(tune.lesson.facts.harp), key=lambda harp: harp.lowest)
    )


def _harps(own: Harp) -> Iterator[Harp]:
    named = {own.lowest: own}
    for register in {own.register, ""}:
        for key in KEYS:
            harp = own._replace(key=key, register=register)
            named.setdefault(harp.lowest, harp)
    yield from named.values()


def _other(tune: Tune, harp: Harp, chords: Iterable[Chord]) -> OtherHarp:
    facts, key = tune.lesson.facts, tune.lesson.key
    if harp != facts.harp:
        key = song_key(harp.key, facts.position, key.minor)
    tuning = harp.other_tuning
    semitones = harp.lowest - facts.harp.lowest
    return OtherHarp(
        name=accidentals(harp.name) + (f", {tuning}" if tuning else ""),
        key=accidentals(key.name),
        semitones=semitones,
        band=(semitones + 6) % 12 - 6,
        letters={chord.numeral: _letter(chord, key) for chord in chords},
        spoken={chord.numeral: spoken_chord(chord, key) for chord in chords},
    )


def _letter(chord: Chord, key: Key) -> str:
    return accidentals(chord.name(key.tonic))
