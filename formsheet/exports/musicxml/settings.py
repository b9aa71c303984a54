"""Notation of marks that depends on their neighbours: names, ties, beams, tuplets."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction

from formsheet.exports.musicxml.note import Setting
from formsheet.exports.musicxml.pitches import Accidentals
from formsheet.lesson.model import Kind
from formsheet.music.grouping import beams, second_beams, triplets
from formsheet.music.key import Key
from formsheet.tune.timeline import PlayedMark, Tune

#: Pitches by name, low to high, of each mark of a tune by its number.
Names = dict[int | None, tuple[str, ...]]


@dataclass(frozen=True, slots=True)
class _Written:
    """A mark with the fields of `grouping.Mark`."""

    onset: Fraction
    length: Fraction
    value: str
    triplet: bool
    is_rest: bool


def measure_settings(
    marks: Sequence[PlayedMark], names: Names,
    after: PlayedMark | None, key: Key, beat: Fraction,
) -> list[Setting]:  # fmt: skip
    """The setting of each mark of a measure; `names` as `spelled_notes` gives them."""
    beamed, tuplets = _beams(marks, beat), _tuplets(marks)
    accidentals = Accidentals(key)
    settings = []
    for index, (played, following) in enumerate(zip(marks, [*marks[1:], after], strict=True)):
        held = played.mark.kind is Kind.HOLD
        sounding = names.get(played.number, ())
        settings.append(
            Setting(
                names=sounding,
                signs=tuple(None if held else accidentals.needed(name) for name in sounding),
                tied_from=held,
                tied_on=following is not None and following.mark.kind is Kind.HOLD,
                beams=beamed.get(index, ()),
                tuplet=tuplets.get(index, ()),
            )
        )
    return settings


def spelled_notes(tune: Tune) -> Names:
    """The pitch names of each mark that sounds; a hold has the names of its note."""
    key = tune.lesson.key
    struck = {note.played.number: note for note in tune.notes}
    found: Names = {}
    sounding: tuple[str, ...] = ()
    for bar in tune.bars:
        for played in bar.marks:
            if played.mark.kind is Kind.NOTE:
                chord = bar.chord_at(played.onset)
                sounding = tuple(key.spell_octave(m, chord) for m in struck[played.number].midi)
            if played.sounds:
                found[played.number] = sounding
    return found


def _written(marks: Sequence[PlayedMark]) -> list[_Written]:
    return [
        _Written(
            onset=played.onset,
            length=played.mark.value.length,
            value=played.mark.value.letter,
            triplet=played.mark.value.triplet,
            is_rest=not played.sounds,
        )
        for played in marks
    ]


def _beams(marks: Sequence[PlayedMark], beat: Fraction) -> dict[int, tuple[str, ...]]:
    """The beams of each mark by its index: of the eighths, then of the sixteenths."""
    written = _written(marks)
    found: dict[int, tuple[str, ...]] = {}
    for group in beams(written, beat):
        for index, word in _words(group[0], group[-1]):
            found[index] = (word,)
        for first, last in second_beams(group, written):
            if first == last:
                found[first] += ("forward hook" if first == group[0] else "backward hook",)
            else:
                for index, word in _words(first, last):
                    found[index] += (word,)
    return found


def _words(first: int, last: int) -> Iterator[tuple[int, str]]:
    for index in range(first, last + 1):
        yield index, "begin" if index == first else "end" if index == last else "continue"


def _tuplets(marks: Sequence[PlayedMark]) -> dict[int, tuple[str, ...]]:
    """Where tuplets start and stop, by the index of the mark."""
    found: dict[int, tuple[str, ...]] = {}
    for first, last in triplets(_written(marks)):
        found[first] = ("start",)
        found[last] = (*found.get(last, ()), "stop")
    return found
