"""Planted effort: the demo lessons too fast, without their rests, and for a beginner.

`python -m tests.judge.planted_effort` prints what is said of each that is not said of the lesson as
it is.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from fractions import Fraction
from itertools import pairwise

from formsheet.lesson.model import Facts
from formsheet.problems.problem import Problem
from formsheet.stages import judged
from formsheet.tune.assemble import tune_of
from formsheet.tune.timeline import Note, Tune
from formsheet.vocabulary.facts import Level
from tests.lessons import NAMES, demo

FASTER = Fraction(8, 5)


def demo_tune(name: str) -> Tune:
    """A demo lesson as it is."""
    tune = demo(name).tune
    assert tune
    return tune


def faster(tune: Tune) -> Tune:
    """At 1.6 times its tempo."""
    facts = tune.lesson.facts
    return _with_facts(tune, facts._replace(tempo=facts.tempo * FASTER))


def for_a_beginner(tune: Tune) -> Tune:
    """For a beginner."""
    return _with_facts(tune, tune.lesson.facts._replace(level=Level.BEGINNER))


def rests_held(tune: Tune) -> Tune:
    """Each note held until the next one."""
    return tune._replace(notes=tuple(note for filled in _filled(tune) for note in filled[:1]))


def rests_struck(tune: Tune) -> Tune:
    """The note before struck again in place of each rest."""
    notes = []
    for held, note, rest in _filled(tune):
        again = note._replace(start=note.end, start_s=note.end_s, end=held.end, end_s=held.end_s)
        notes += [note, again._replace(duration=rest)] if rest else [note]
    return tune._replace(notes=tuple(notes))


PLANTS: dict[str, Callable[[Tune], Tune]] = {
    "1.6 times as fast": faster,
    "rests held": rests_held,
    "rests struck": rests_struck,
    "for a beginner": for_a_beginner,
}


def _with_facts(tune: Tune, facts: Facts) -> Tune:
    return tune_of(tune.lesson._replace(facts=facts), tune.bars, tune.choruses)


def _filled(tune: Tune) -> Iterator[tuple[Note, Note, Fraction]]:
    """Each note held until the next one, as it is, and the rest between, in quarters."""
    for note, following in pairwise([*tune.notes, None]):
        assert note
        end, end_s = (following.start, following.start_s) if following else (note.end, note.end_s)
        rest = end - note.end
        held = note._replace(end=end, end_s=end_s, duration=note.duration + rest)
        yield held, note, rest


def said(tune: Tune) -> list[Problem]:
    """What is said of a tune."""
    return judged(tune)[1]


def said_besides(name: str, plant: str) -> list[Problem]:
    """What is said of a planted demo lesson and not of the lesson itself."""
    own = {(each.code, each.span.place) for each in said(demo_tune(name))}
    found = said(PLANTS[plant](demo_tune(name)))
    return [each for each in found if (each.code, each.span.place) not in own]


def main() -> None:
    """Print what is said of each."""
    for plant in PLANTS:
        print(f"\n{plant}")
        for name in NAMES:
            problems = said_besides(name, plant)
            print(f"  {name}: {'' if problems else 'nothing'}")
            for each in problems:
                print(f"    {each.severity.word}: {each.message()} [{each.code}]")


if __name__ == "__main__":
    main()
