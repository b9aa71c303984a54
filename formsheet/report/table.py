"""The examined lesson as text for the terminal."""

from __future__ import annotations

from collections.abc import Sequence

from formsheet.cells import cells, filled
from formsheet.judge.fit import BarFit, NoteFit
from formsheet.lesson.lengths import length_words
from formsheet.lesson.model import Lesson
from formsheet.music.counting import count_words
from formsheet.music.key import position_name
from formsheet.problems.problem import Problem, Severity
from formsheet.stages import Examined
from formsheet.tune.timeline import Tune
from formsheet.vocabulary.facts import feel_text

_GAP = "  "


def heading(lesson: Lesson) -> str:
    """Title, harp, form and tempo, in one or two lines."""
    facts = lesson.facts
    return (
        f"{facts.title}\n"
        f"{facts.harp.name} harp{facts.harp.tuned}, {position_name(facts.position)} position, "
        f"key of {lesson.key.name}; {lesson.form.full_name}; {facts.meter.text}, "
        f"{float(facts.tempo):g} beats a minute, {feel_text(facts.feel)}"
    )


#: Numbers of the columns to leave out in a narrow terminal, in this order.
_SPARED = (2, 6, 5)


def check_table(examined: Examined, width: int = 100) -> list[str]:
    """A bar a line: chord, lick, how well it fits, first and last note.

    Columns are left out until a line fits `width` cells; bar, chord and lick always stay.
    """
    if not (examined.lesson and examined.tune):
        return []
    rows: list[tuple[str, ...]] = [("bar", "chord", "", "lick", "fit", "first", "last")]
    choruses = len(examined.tune.choruses) > 1
    rows += [_check_row(fit, examined.lesson, choruses) for fit in examined.fits]
    for spared in (_SPARED[:count] for count in range(len(_SPARED) + 1)):
        kept = [index for index in range(len(rows[0])) if index not in spared]
        right = [at for at, index in enumerate(kept) if index in (0, 4)]
        lines = aligned([tuple(row[index] for index in kept) for row in rows], right)
        if max(map(cells, lines)) <= width:
            break
    return lines


def _check_row(fit: BarFit, lesson: Lesson, choruses: bool) -> tuple[str, ...]:
    bar, slot = fit.bar, fit.bar.slot
    number = f"{bar.chorus}:{bar.number}" if choruses else str(bar.number)
    title = bar.lick.title if bar.lick else "rest" if bar.number else "pick-up"
    rounds = f" {slot.round}/{slot.rounds}" if bar.lick and slot.rounds > 1 else ""
    return (
        number,
        " ".join(str(chord) for _, chord in bar.chords),
        " ".join(chord.name(lesson.key.tonic) for _, chord in bar.chords),
        title + rounds,
        "" if fit.score is None else f"{round(fit.score * 100)}%",
        _note(fit.notes[0]) if fit.notes else "",
        _note(fit.notes[-1]) if fit.notes else "",
    )


def _note(fit: NoteFit) -> str:
    return f"{fit.note.tab} ({' '.join(fit.degrees)})"


def tune_table(tune: Tune, fits: Sequence[BarFit]) -> list[str]:
    """The assembled tune, bar by bar, as tab with onsets."""
    lines = []
    chorus = None
    meter = tune.lesson.facts.meter
    for fit in fits:
        bar = fit.bar
        if bar.chorus != chorus and bar.chorus:
            chorus = bar.chorus
            named = tune.choruses[chorus - 1].title
            lines.append(f"chorus {chorus}{f': {named}' if named else ''}")
        tonic = tune.lesson.key.tonic
        chords = " ".join(f"{chord} {chord.name(tonic)}" for _, chord in bar.chords)
        title = bar.lick.title if bar.lick else "rest" if bar.number else "pick-up"
        lines.append(f"  bar {bar.number}  {chords}  {title}")
        notes = [
            (f"    {count_words(note.note.onset, meter)}", str(note.note.tab),
             length_words(note.note.duration, meter),
             " ".join(tune.lesson.key.spell_octave(m, note.chord) for m in note.note.midi),
             " ".join(note.degrees), note.verdict.word)
            for note in fit.notes
        ]  # fmt: skip
        lines += aligned(notes)
    return lines


def aligned(rows: Sequence[tuple[str, ...]], right: Sequence[int] = ()) -> list[str]:
    """Rows aligned in columns; columns numbered in `right` are flush right."""
    if not rows:
        return []
    widths = [max(map(cells, column)) for column in zip(*rows, strict=True)]
    return [
        _GAP.join(
            filled(cell, width, right=index in right)
            for index, (cell, width) in enumerate(zip(row, widths, strict=True))
        ).rstrip()
        for row in rows
    ]


def summary(problems: Sequence[Problem]) -> str:
    """How many errors, warnings and remarks: "1 error, 2 warnings"."""
    counts = dict.fromkeys(reversed(Severity), 0)
    for problem in problems:
        counts[problem.severity] += 1
    parts = [
        f"{count} {severity.word}{'s' if count > 1 else ''}"
        for severity, count in counts.items()
        if count
    ]
    return ", ".join(parts) or "no findings"
