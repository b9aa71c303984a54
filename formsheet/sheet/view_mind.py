"""What a colleague would say before the tune is played: fit, breath, level, a sentence each."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from formsheet.judge.fit import BarFit
from formsheet.judge.practice import Practice
from formsheet.judge.practice_words import balance_words, rests_words, slow_words
from formsheet.judge.verdicts import Verdict
from formsheet.listing import bars_words
from formsheet.music.steps import step_words
from formsheet.problems.problem import Problem
from formsheet.sheet.draw.words import accidentals
from formsheet.sheet.tab_text import printed_tabs, with_dashes
from formsheet.tune.lick_letters import LickLetters
from formsheet.tune.timeline import Tune

MOST = 5  # sentences: what more there is, the teacher has read; own choice
_MOST_FOUND = 3  # of them from the findings of the judge
_MOST_BENT = 2


def mind(
    tune: Tune, fits: Sequence[BarFit], practice: Practice, problems: Sequence[Problem]
) -> tuple[str, ...]:
    """The sentences, what matters most first."""
    found = [*_found(problems)][:_MOST_FOUND]
    slow = slow_words(practice, LickLetters(tune).of)
    air = _air(practice)
    bent = [*_bent(tune, fits)][:_MOST_BENT]
    others = [words for words in (slow, air) if words]
    said = [*found, *bent[: MOST - len(found) - len(others)], *others]
    return tuple(accidentals(with_dashes(printed_tabs(words)).replace("->", "›")) for words in said)


def _found(problems: Sequence[Problem]) -> Iterator[str]:
    """What the judge found that a player should know, the gravest first."""
    for problem in sorted(problems, key=lambda each: (-each.severity, -each.weight)):
        words = problem.to_player()
        if words:
            bars = problem.bars_heard
            yield f"{_upper(bars_words(bars))}: {words}" if bars else _upper(words)


def _air(practice: Practice) -> str:
    """The balance of draw and blow, and where to breathe."""
    balance = balance_words(practice)
    return f"{balance} {rests_words(practice)}" if balance else ""


def _bent(tune: Tune, fits: Sequence[BarFit]) -> Iterator[str]:
    """Chord tones that a bend sounds on a strong beat, the deepest bends first: they must be true.

    A bend that is a little off is heard most where it should be a tone of the chord (common
    practice, no source).
    """
    meter = tune.lesson.facts.meter
    found: dict[tuple[str, int, str], set[int]] = {}
    for bar_fit in fits:
        for fit in bar_fit.notes:
            tab, bar = fit.note.tab, tune.bars[fit.note.bar]
            strong = meter.on_strong_beat(fit.note.onset)
            if tab.bend and strong and fit.verdict is Verdict.CHORD_TONE and bar.number:
                chord = bar.chord_at(fit.note.onset)
                degree = tune.lesson.key.degree(fit.note.midi[0], chord)
                role = f"the {degree} of {chord.name(tune.lesson.key.tonic)}"
                where = f"{tab.holes[0]} {tab.breath.word}"
                found.setdefault((where, tab.bend, role), set()).add(bar.number)
    for (where, bend, role), bars in sorted(found.items(), key=lambda item: -item[0][1]):
        yield (
            f"{_upper(bars_words(sorted(bars)))}: {where} bent {step_words(bend)} is {role}; a "
            "little off, and it clashes."
        )


def _upper(words: str) -> str:
    return words[:1].upper() + words[1:]
