"""Does the feel work at this tempo?"""

from __future__ import annotations

from formsheet.music.swing import SHORTEST_SWUNG_NOTE
from formsheet.problems import kinds
from formsheet.problems.edits import fact_set
from formsheet.problems.problem import Problem
from formsheet.tune.swing_times import SwingTimes, feel_in_force
from formsheet.tune.timeline import Tune

_MILLISECONDS = 1000


def feel_findings(tune: Tune) -> list[Problem]:
    """A finding if the short note of a swung pair is shorter than players make it.

    The short note stays near 100 ms at fast tempos: Friberg and Sundstrom, Music Perception 19
    (2002) 333.
    """
    facts = tune.lesson.facts
    possible = {feel_in_force(swings, facts) for swings in (None, True, False)}
    if min(feel.short_note(facts.tempo) for feel in possible) >= SHORTEST_SWUNG_NOTE:
        return []
    feels = set(SwingTimes(tune.bars, facts).swung_beats().values())
    shortest = min((feel.short_note(facts.tempo) for feel in feels), default=None)
    if shortest is None or shortest >= SHORTEST_SWUNG_NOTE:
        return []
    span = facts.places.get("tempo") or facts.places["feel"]
    straightest = 1 - SHORTEST_SWUNG_NOTE * float(facts.tempo) / 60
    share = f"{int(straightest * 100)}%" if straightest >= 0.5 else None
    return [
        kinds.SwingShortNote(
            span,
            tempo=facts.tempo,
            have=int(shortest * _MILLISECONDS),
            least=round(SHORTEST_SWUNG_NOTE * _MILLISECONDS),
            share=share,
            lighter=fact_set(facts.places, "feel", f"swing {share}") if share else None,
            straight=fact_set(facts.places, "feel", "straight"),
        )
    ]
