"""Planted errors: notes of the demo lessons moved a half step, and what `check` says of each.

Every single note that stays is moved a half step up and down in turn, where the harp has that
pitch: in the text, at its written place, so that it sounds in every bar that plays it. A lick of a
shelf is changed on the shelf. Blocks and splits have no half step up or down.

`python -m tests.judge.planted` moves them all, and prints how many of them are avoid notes and how
many are warned of, by the degree that the moved note is over the chord and the kind of the chord.
"""

from __future__ import annotations

import shutil
from collections import Counter, defaultdict
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import NamedTuple

from formsheet.lesson.shelves import Shelves
from formsheet.music.degree import DEGREES
from formsheet.problems import kinds
from formsheet.problems.problem import Edit, Problem
from formsheet.source import Span
from formsheet.stages import Examined, examine_file
from formsheet.tune.timeline import Tune
from tests.judge.plain_rules import WARNING, Said, all_heard, all_said, moved_to, staying
from tests.lessons import LESSONS, NAMES, demo

#: What there is to say of a note over some chords: kind, lick, tab, chord, held, bars.
Finding = tuple[str, str, str, str, bool, tuple[int, ...]]


class Moved(NamedTuple):
    """A demo lesson with one written note moved a half step."""

    name: str
    old: str  # tab
    new: str
    span: Span  # of the old note
    change: Edit
    found: Examined

    def __str__(self) -> str:
        return f"{self.name}:{self.span.line}:{self.span.column} {self.old} -> {self.new}"

    @property
    def tune(self) -> Tune:
        """The tune with the note moved."""
        assert self.found.tune, f"{self}: no tune"
        return self.found.tune

    @property
    def heard(self) -> list[Said]:
        """The moved note, over each chord and in each bar, and what the rules say of it."""
        place = self.span.line, self.span.column
        return [
            each
            for each in all_heard(self.tune)
            if (each.note.mark.span.line, each.note.mark.span.column) == place
            and each.note.mark.span.source.name == self.span.source.name
        ]

    def with_edit(self, edit: Edit) -> Examined:
        """The lesson once more, with an edit made after the move."""
        return _examined(self.name, self.change, edit)


def applied(text: str, edit: Edit) -> str:
    """A text with an edit made."""
    return text[: edit.span.start] + edit.text + text[edit.span.end :]


def _examined(name: str, *edits: Edit) -> Examined:
    """A demo lesson with some edits made in its files, one after the other."""
    with TemporaryDirectory() as temporary:
        folder = Path(temporary, "lessons")
        shutil.copytree(LESSONS, folder)
        for edit in edits:
            source = edit.span.source
            assert source.path
            below = source.path.parts[source.path.parts.index("lessons") + 1 :]
            path = folder.joinpath(*below)
            path.write_text(applied(path.read_text(encoding="utf-8"), edit), encoding="utf-8")
        return examine_file(folder / f"{name}.lesson", f"{name}.lesson", Shelves(folder))


@cache
def moves(name: str) -> tuple[Moved, ...]:
    """Every move in a demo lesson."""
    tune = demo(name).tune
    assert tune
    places = {note.mark.span.place: note for note in staying(tune) if len(note.midi) == 1}
    found = []
    for note in places.values():
        span, old = note.mark.span, str(note.tab)
        assert span.text.startswith(old)
        for by in (1, -1):
            for new in moved_to(tune, note, by)[:1]:
                change = Edit(span._replace(end=span.start + len(old)), new)
                found.append(Moved(name, old, new, span, change, _examined(name, change)))
    return tuple(found)


_KINDS: dict[str, type[kinds.NoteOverChord]] = {
    WARNING: kinds.NoteClash,
    "suspension": kinds.NoteSuspended,
    "flat five": kinds.FlatFiveStays,
    "key note": kinds.KeyNoteOverFive,
    "meant": kinds.NoteClashDeliberate,
}


def found_of_fit(problems: tuple[Problem, ...]) -> set[Finding]:
    """What `check` says of the fit; of the key note over V, which is said once, the bars alone."""
    found: set[Finding] = set()
    for problem in problems:
        for what, kind in _KINDS.items():
            if type(problem) is kind:
                here = problem.sounding
                bars = tuple(problem.bars_heard)
                if what == "key note":
                    found.add((what, "", "", "", False, bars))
                else:
                    found.add((what, here.lick, here.tab, here.letter, here.held, bars))
    return found


def wanted_of_fit(tune: Tune) -> set[Finding]:
    """What the rules ask to be said of a tune, in the same form."""
    bars: dict[tuple[str, str, str, str, bool], set[int]] = defaultdict(set)
    deliberate: dict[tuple[object, ...], set[int]] = defaultdict(set)
    key: dict[tuple[object, ...], tuple[str, str, str, str, bool]] = {}
    for said in all_said(tune):
        bar = max((b for b in tune.bars if b.start <= said.start), key=lambda b: b.start)
        letter = said.chord.name(tune.lesson.key.tonic)
        lick, tab = tune.lick_of(said.note), str(said.note.tab)
        if said.note.mark.deliberate:  # listed by written place, for each has its own `!`
            place = (said.note.mark.span.place, letter)
            key.setdefault(place, ("meant", lick, tab, letter, said.held))
            deliberate[place].add(bar.number)
        elif said.what == "key note":
            bars["key note", "", "", "", False].add(bar.number)
        else:
            bars[said.what, lick, tab, letter, said.held].add(bar.number)
    found = {(*each, tuple(sorted(numbers))) for each, numbers in bars.items()}
    found |= {(*key[place], tuple(sorted(n))) for place, n in deliberate.items()}
    return found


def main() -> None:
    """Move every note, and print the counts."""
    counts: dict[tuple[int, str], Counter[str]] = defaultdict(Counter)
    total: Counter[str] = Counter()
    for name in NAMES:
        for move in moves(name):
            total["moves"] += 1
            total["with a warning"] += any(each.what == WARNING for each in move.heard)
            total["not as wanted"] += found_of_fit(move.found.problems) != wanted_of_fit(move.tune)
            for place, whats in _by_chord(move).items():
                counts[place] += Counter(whats)
    columns = ("over", "avoid", "silent", *_KINDS)
    print(f"{'degree':<8}{'chord':<8}" + "".join(f"{each:>12}" for each in columns))
    for degree, kind in sorted(counts, key=lambda place: (place[1], place[0])):
        row = counts[degree, kind]
        cells = "".join(f"{row[each]:>12}" for each in columns)
        print(f"{DEGREES[degree]:<8}{kind:<8}{cells}")
    print(", ".join(f"{count} {what}" for what, count in total.items()))


def _by_chord(move: Moved) -> dict[tuple[int, str], set[str]]:
    """What is said of a moved note over each kind of chord: degree, chord -> columns to count."""
    found: dict[tuple[int, str], set[str]] = defaultdict(set)
    for each in move.heard:
        chord = each.chord
        place = (each.degree, ("m" if chord.minor else "") + (chord.quality or "triad"))
        what = "meant" if each.what and each.note.mark.deliberate else each.what
        found[place] |= {"over", "avoid" if each.avoid else "", what}
    for columns in found.values():
        if "avoid" in columns and not columns & {*_KINDS}:
            columns.add("silent")
    return found


if __name__ == "__main__":
    main()
