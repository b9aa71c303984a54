"""A tune with as many choruses as a student wants of the band alone."""

from __future__ import annotations

from formsheet.tune.assemble import bars_over
from formsheet.tune.timeline import Bar, Chorus, Tune


def with_choruses(tune: Tune, least: int) -> Tune:
    """The bars of a tune for its band, with at least so many choruses; the notes are left out.

    What is added comes first: the first chorus as it is played when it is not the last time, so
    that the tune still ends as it does. A pick-up bar before the tune is left out.
    """
    added = max(0, least - len(tune.choruses))
    bars: list[Bar] = []
    choruses: list[Chorus] = []
    first = [tune.bars[index] for index in tune.choruses[0].bars]
    lesson = tune.lesson
    form = lesson.plays[0].form(lesson.form, last_time=False)
    again = bars_over(form.bars, [bar.slot for bar in first], lesson.facts.meter)
    rest = [[tune.bars[index] for index in chorus.bars] for chorus in tune.choruses]
    for number, each in enumerate([*[again] * added, *rest], start=1):
        here = len(bars)
        bars += [
            bar._replace(chorus=number, start=(here + index) * lesson.facts.meter.bar)
            for index, bar in enumerate(each)
        ]
        choruses.append(Chorus(number, "", number, 1, tuple(range(here, len(bars)))))
    return tune._replace(bars=tuple(bars), choruses=tuple(choruses), notes=())
