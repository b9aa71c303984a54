"""The report on a melody set to tab, printed beside the lick itself."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from formsheet.arrange.cost import FIRST_HIGH_HOLE
from formsheet.arrange.offers import missing_notes
from formsheet.arrange.rank import HIGH_KEYS, LOW_KEYS, Layout
from formsheet.arrange.tonality import Tonality
from formsheet.music.key import Key, position_name
from formsheet.notes.melody import Melody, Said
from formsheet.report.retab import (
    layout_words,
    missing_words,
    octave_words,
    place_words,
    replaced_words,
    steps_words,
)
from formsheet.report.said import said_words
from formsheet.report.table import aligned

_MOST_LAYOUTS = 6  # the best of twelve
_MOST_MISSING = 12  # notes listed one by one

#: Where the key is from, by `Tonality.why`.
KEYS: dict[str, str] = {
    "asked": "as asked",
    "file": "as the file says",
    "chords": "by its chords, which are a blues in it{said}; --key says otherwise",
    "blues": "found from the notes, which go with twelve bars of blues{said}; --key says otherwise",
    "signature": "found from the notes, of the two that its signature leaves; --key says otherwise",
    "notes": "found from the notes{second}; --key says otherwise",
}


def key_words(found: Tonality, key: Key) -> str:
    """The key, where it is from, and the next best one."""
    said = f" (the file says {found.said.name})" if found.said else ""
    second = f" (next best: {found.second.name})" if found.second else ""
    return f"key of {key.name}, {KEYS[found.why].format(said=said, second=second)}"


def tab_report(
    melody: Melody, found: Tonality, ranked: Sequence[Layout], half_steps: int, said: Sequence[Said]
) -> Iterator[str]:
    """The report on the lick, line by line; it is written for the first of the layouts.

    `said` are remarks on its chords.
    """
    best, key = ranked[0], found.key
    yield key_words(found, key)
    yield from map(said_words, (*melody.said, *said))
    if found.blues and len(ranked) > 1:
        yield "a blues: 2nd position comes first, then 3rd and 1st; --position says otherwise"
    place = layout_words(best.harp, best.position, key)
    moved = f"{steps_words(half_steps)}, then " if half_steps else ""
    yield f"{place}; sounds {moved}{octave_words(best.arranged.octaves)}"
    if other := _other_register(best):
        yield f"a {other} harp sounds it where it was"
    laid = best.arranged.laid[0]
    missing = list(missing_notes(laid, best.harp))
    for each in missing[:_MOST_MISSING]:
        yield f"{place_words(each.bar, each.onset, melody.meter)}: {missing_words(each, key)}"
    if len(missing) > _MOST_MISSING:
        yield f"and {len(missing) - _MOST_MISSING} more notes that are not on this harp"
    reported: set[tuple[int, ...]] = set()
    for index in laid.replaced:
        sound = laid.line[index]
        if sound.midi not in reported:
            reported.add(sound.midi)
            place = place_words(sound.bar, sound.onset, melody.meter)
            yield f"{place}: {replaced_words(sound.midi, laid.choices[index], key)}"
    if len(ranked) > 1:
        yield from layouts_table(ranked)


def _other_register(layout: Layout) -> str:
    """A low or high harp that undoes the octave by which the melody is moved; "" without one."""
    register, keys = {1: ("low", LOW_KEYS), -1: ("high", HIGH_KEYS)}.get(
        layout.arranged.octaves, ("", ())
    )
    harp = layout.harp
    return f"{register} {harp.key}" if not harp.register and harp.key in keys else ""


def layouts_table(ranked: Sequence[Layout]) -> list[str]:
    """Harps and positions, the best first."""
    rows: list[tuple[str, ...]] = [("", "harp", "position", "sounds", "missing", "bent", "high")]
    rows += [
        (f"{rank}.", *_row(layout)) for rank, layout in enumerate(ranked[:_MOST_LAYOUTS], start=1)
    ]
    return aligned(rows, right=(0, 4, 5, 6))


def _row(layout: Layout) -> tuple[str, ...]:
    tabs = [choice.tab for laid in layout.arranged.laid for choice in laid.choices]
    return (
        layout.harp.name,
        position_name(layout.position),
        octave_words(layout.arranged.octaves),
        str(layout.arranged.missing or "-"),
        str(sum(1 for tab in tabs if tab.bend or tab.overbend) or "-"),
        str(sum(1 for tab in tabs if max(tab.holes) >= FIRST_HIGH_HOLE) or "-"),
    )
