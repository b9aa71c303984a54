"""What a folder of lessons defines and uses, as tables."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import groupby

from formsheet.lesson.asked import lick_asked_words
from formsheet.library.likeness import Alike, Likeness
from formsheet.library.usage import Home, Library, LickEntry, Use
from formsheet.listing import listed, run_words
from formsheet.report.table import aligned

LIKENESS_WORDS = {
    Likeness.SAME: "the same tab and rhythm",
    Likeness.BUT_ONE_NOTE: "the same but for one note",
    Likeness.RECAST: "the same rhythm and degrees, on other holes",
}


_MOST_NAMED = 3  # files in a heading
_MOST_ALIKE = 4  # files in a line of similar licks


def uses_report(library: Library, groups: Sequence[Alike], whole: bool) -> list[str]:
    """Shelves and what lessons take from them; unused licks and rhythms; similar licks.

    `whole` adds the licks that are written in lessons.
    """
    holders = {home.file for home in (*library.licks, *library.rhythms)}
    files = sorted(library.shelves) + (sorted(holders - library.shelves.keys()) if whole else [])
    lines: list[str] = []
    for file in files:
        lines += [*_file_lines(library, file), ""]
    idle = [entry.home for entry in library.licks.values() if not entry.played]
    lines += _section("Licks that are never played", sorted(idle))
    unused = [home for home, licks in library.rhythms.items() if not licks]
    lines += _section("Rhythms that no lick uses", sorted(unused))
    for likeness, words in LIKENESS_WORDS.items():
        found = [group.licks for group in groups if group.likeness is likeness]
        lines += _alike(words, sorted(found))
    if library.broken:
        lines += ["Files with errors, read as far as possible (see `formsheet check`):"]
        lines += [*(f"  {name}" for name in library.broken), ""]
    return [*lines, _totals(library)]


def _file_lines(library: Library, file: str) -> list[str]:
    takers = library.shelves.get(file)
    head = file if takers is None else f"{file}, {_used_by(list(takers))}"
    entries = [entry for entry in library.licks.values() if entry.home.file == file]
    lines = [head, *_licks_table(entries)]
    for home, licks in library.rhythms.items():
        if home.file == file:
            inside = listed([_near(lick, file) for lick in licks], "and") or "no lick"
            lines.append(f"  rhythm {home.name}: {inside}")
    return lines


def _used_by(files: Sequence[str]) -> str:
    if len(files) > _MOST_NAMED:
        return f"used by {len(files)} files"
    return f"used by {listed(sorted(files), 'and') or 'no file'}"


def _near(home: Home, file: str) -> str:
    """The name of a lick; with its file if that is another one."""
    return home.name if home.file == file else f"{home.name} of {home.file}"


def _licks_table(entries: Iterable[LickEntry]) -> list[str]:
    rows: list[tuple[str, ...]] = [("  lick", "written on", "in", "as", "bars")]
    for entry in entries:
        first = (f"  {entry.home.name}", lick_asked_words(entry.lick))
        uses = [_use_cells(entry, use) for use in entry.uses] or [("", "", "never played")]
        rows += [((first if at == 0 else ("", "")) + cells) for at, cells in enumerate(uses)]
    filled = [any(row[at] for row in rows[1:]) for at in range(len(rows[0]))]
    kept = [tuple(cell for cell, some in zip(row, filled, strict=True) if some) for row in rows]
    return aligned(kept) if len(rows) > 1 else []


def _use_cells(entry: LickEntry, use: Use) -> tuple[str, str, str]:
    called = "" if use.names == (entry.home.name,) else ", ".join(use.names)
    lesson = "" if use.lesson == entry.home.file else use.lesson
    return lesson, called, bars_text(use)


def bars_text(use: Use) -> str:
    """The bars of a lesson that play a lick: "1-2, 7"; with their choruses where there are more."""
    choruses = {
        chorus: ", ".join(run_words([bar for _, bar in bars]))
        for chorus, bars in groupby(use.bars, lambda pair: pair[0])
    }
    parts = []
    for bars in dict.fromkeys(choruses.values()):
        alike = [chorus for chorus, others in choruses.items() if others == bars]
        parts.append(f"{_choruses(alike, use.choruses)}{bars}")
    return "; ".join(parts) or "not played"


def _choruses(numbers: Sequence[int], of: int) -> str:
    """The choruses in words, written before their bars; empty if the lesson has only one."""
    if of == 1:
        return ""
    if len(numbers) == of:
        return "every chorus: "
    return f"chorus{'es' if len(numbers) > 1 else ''} {', '.join(run_words(numbers))}: "


def _section(title: str, homes: Sequence[Home]) -> list[str]:
    if not homes:
        return []
    return [f"{title}:", *aligned([(f"  {home.name}", home.file) for home in homes]), ""]


def _alike(words: str, groups: Sequence[Sequence[Home]]) -> list[str]:
    if not groups:
        return []
    lines = [f"Licks that are {words}:"]
    return [*lines, *(f"  {'; '.join(_named(group))}" for group in groups), ""]


def _named(homes: Iterable[Home]) -> list[str]:
    """Licks with their files, grouped by file; only the first few of many files."""
    parts = [
        f"{listed([home.name for home in group], 'and')} in {file}"
        for file, group in groupby(homes, lambda home: home.file)
    ]
    more = len(parts) - _MOST_ALIKE
    return [*parts[:_MOST_ALIKE], f"{more} more"] if more > 1 else parts


def _totals(library: Library) -> str:
    shelves = len(library.shelves)
    return ", ".join([
        _count(len(library.files) - shelves, "lesson", "lessons"),
        _count(shelves, "shelf", "shelves"),
        _count(len(library.licks), "lick", "licks"),
        _count(len(library.rhythms), "rhythm", "rhythms"),
    ])  # fmt: skip


def _count(number: int, one: str, more: str) -> str:
    return f"{number} {one if number == 1 else more}"


def changes_report(library: Library, kind: str, what: str, licks: Sequence[Home]) -> list[str]:
    """The lessons, licks and bars that change when a lick, a rhythm or a shelf is edited."""
    lessons = library.lessons_of(licks)
    played = {name: [pair for pair in uses if pair[1].bars] for name, uses in lessons.items()}
    played = {name: pairs for name, pairs in played.items() if pairs}
    if not played:
        return [f"No lesson plays {what}."]
    verb = "changes" if len(played) == 1 else "change"
    count = _count(len(played), "lesson", "lessons")
    rows: list[tuple[str, ...]] = [("  lesson", "lick", "bars")]
    rows += [
        (f"  {name}", ", ".join(use.names), bars_text(use))
        for name, pairs in played.items()
        for _, use in pairs
    ]
    return [f"If {kind} {what} is edited, {count} {verb}:", *aligned(rows)]
