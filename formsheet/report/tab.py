"""The report on a melody set to tab, printed beside the lick itself."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from fractions import Fraction
from typing import Any

from formsheet.arrange.cost import FIRST_HIGH_HOLE
from formsheet.arrange.offers import missing_notes
from formsheet.arrange.rank import Layout
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
from formsheet.report.table import aligned
from formsheet.vocabulary.facts import feel_text

_MOST_LAYOUTS = 6  # the best of twelve
_MOST_MISSING = 12  # notes listed one by one

Facts = Mapping[str, Any]


def _many(count: int, one: str, many: str | None = None) -> str:
    return f"{count} {one if count == 1 else many or one + 's'}"


#: The remarks on a reading, by kind (`notes.melody.Said`).
SAID: dict[str, Callable[[Facts], str]] = {
    "meter": lambda f: f"{f['found']} is written as {f['meter']}",
    "no-meter": lambda f: "the file has no meter; 4/4 is used",
    "harmonica-part": lambda f: f"of {f['count']} parts the harmonica's is used{_named(f)}",
    "highest-part": lambda f: f"of {f['count']} parts the highest is used{_named(f)}",
    "voices": lambda f: f"where a bar has {f['count']} voices the highest is used",
    "lower-notes": lambda f: f"{_many(f['count'], 'note')} below the melody left out",
    "graces": lambda f: f"{_many(f['count'], 'grace note')} left out",
    "repeats": lambda f: "repeats are not played out: each bar is written once",
    "empty-bars": lambda f: f"{_many(f['count'], 'empty bar')} at the start left out",
    "swing": lambda f: (
        f"off-beats come late in {_many(f['beats'], 'beat')}: read as feel {feel_text(f['feel'])}"
    ),
    "onsets": lambda f: (
        f"{f['count']} of {_many(f['of'], 'onset')} rounded, "
        f"by {_part(f['most'])} of a quarter at most"
    ),
    "lengths": lambda f: (
        f"{_many(f['count'], 'note length')} rounded, by {_part(f['most'])} of a quarter at most"
    ),
    "too-short": lambda f: f"{_many(f['count'], 'note')} too short for the language left out",
    "triplets": lambda f: f"triplets in {_many(f['count'], 'quarter')}",
}


def _named(facts: Facts) -> str:
    return f" ({facts['name']})" if facts["name"] else ""


def _part(part: Fraction) -> str:
    return f"{float(part):.2f}"


def said_words(said: Said) -> str:
    """A remark on a reading in words."""
    return SAID[said.kind](said.facts)


def tab_report(
    melody: Melody, key: Key, how: str, ranked: Sequence[Layout], half_steps: int
) -> Iterator[str]:
    """The report on the lick, line by line; it is written for the first of the layouts."""
    best = ranked[0]
    yield f"key of {key.name}, {how}"
    yield from map(said_words, melody.said)
    place = layout_words(best.harp, best.position, key)
    moved = f"{steps_words(half_steps)}, then " if half_steps else ""
    yield f"{place}; sounds {moved}{octave_words(best.arranged.octaves)}"
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


def layouts_table(ranked: Sequence[Layout]) -> list[str]:
    """Harps and positions, the best first."""
    rows: list[tuple[str, ...]] = [("", "harp", "position", "sounds", "not there", "bent", "high")]
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
