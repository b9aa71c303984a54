"""How well playing is heard: `python -m tests.hearing.figures [N]` prints the table.

N licks (150 if not said) from seeds that no constant was chosen by (those begin at 1000), in two
sound fonts and eight conditions; then a sixth as many of each other kind. Figures of the
acceptance list stand behind the columns' names.
"""

from __future__ import annotations

import sys
import time
from collections.abc import Sequence

import numpy as np

from formsheet.hearing.hear import NothingHeard, hear
from tests.hearing.cases import CONDITIONS, RATE, Take, takes, under
from tests.hearing.made_licks import MadeLick, made_lick
from tests.hearing.performed import missing
from tests.hearing.planted import Named, count_planted, count_right
from tests.hearing.scored import Score, score

#: Seeds for the figures; those for choosing constants begin at 1000.
FIRST = 50_000
_ALIGNED = ("clean", "human", "room", "phone in a room")
_KINDS: dict[str, dict[str, object]] = {
    "pick-ups": {"pickup": True},
    "3/4": {"meter": "3/4"},
    "12/8": {"meter": "12/8"},
    "overblows": {"overblows": True},
    "shakes": {"shakes": True},
}


def scores(found: Sequence[Take], *, chords: bool = False) -> list[Score]:
    """Each take heard with its tempo, meter and feel given."""
    result = []
    for take in found:
        lick = take.lick
        try:
            heard = hear(
                take.samples, RATE, lick.harp, tempo=float(lick.tempo), meter=lick.meter,
                feel=lick.feel, chords=chords,
            )  # fmt: skip
        except NothingHeard:
            result.append(Score(0.0, False, False, False, wrong=len(lick.notes)))
            continue
        result.append(score(lick, take.played, heard, take.before))
    return result


def row(name: str, found: Sequence[Score]) -> str:
    """A line of the table."""
    off = np.abs([seconds for each in found for seconds in each.off] or [0.0]) * 1000
    wrong = sum(each.wrong for each in found)
    marked = sum(each.wrong_marked for each in found)
    heard, marks = sum(each.heard for each in found), sum(each.marked for each in found)
    chords, right = sum(each.chords for each in found), sum(each.chords_right for each in found)
    splits, split = sum(each.splits for each in found), sum(each.splits_right for each in found)
    cells = [
        f"{np.mean([each.f for each in found]):.3f}",
        f"{np.mean([each.pitches for each in found]):.2f}",
        f"{np.mean([each.attacks for each in found]):.2f}",
        f"{np.mean([each.lengths for each in found]):.2f}",
        f"{np.median(off):.0f}/{np.percentile(off, 95):.0f}",
        f"{marked}/{wrong}" if wrong else "-",
        f"{marks / max(1, heard):.2f}",
        f"{right / chords:.3f} of {chords}" if chords else "-",
        f"{split}/{splits}" if splits else "-",
    ]
    return f"{name:16}" + "".join(f"{cell:>13}" for cell in cells)


def main(count: int) -> None:
    """Print the table."""
    lacking = missing()
    if lacking:
        print("install first:", " ".join(lacking))
        return
    heads = ("note F", "pitches", "+ attacks", "+ lengths", "off ms 50/95", "doubts/wrong",
             "marked", "chords", "octaves")  # fmt: skip
    print(f"{count} licks from seed {FIRST}")
    print(f"{'':16}" + "".join(f"{head:>13}" for head in heads))
    clean, human = both([made_lick(FIRST + at) for at in range(count)])
    named = {name: Named() for name in _ALIGNED}
    for name in CONDITIONS:
        begun = time.process_time()
        cases = list(under(name, clean, human))
        found = scores(cases)
        spent = time.process_time() - begun
        seconds = sum(len(take.samples) for take in cases) / RATE
        print(row(name, found), f"  {spent / seconds * 60:.1f} s a minute of sound", flush=True)
        if name in named:
            for take in cases:
                count_right(named[name], take)
                count_planted(named[name], take)
    few = max(8, count // 6)
    clean, human = both([made_lick(FIRST + 5000 + at, chords=True) for at in range(few)])
    for name in ("clean", "human", "room"):
        cases = list(under(name, clean, human))
        print(row(f"chords, {name}", scores(cases, chords=True)), flush=True)
    for number, (kind, options) in enumerate(_KINDS.items(), start=6):
        seeds = range(FIRST + 1000 * number, FIRST + 1000 * number + few)
        licks = [made_lick(seed, **options) for seed in seeds]  # type: ignore[arg-type]
        print(row(kind, scores(takes(licks, human=True))), flush=True)
    print(
        "\nalignment          off ms 50/95   named sure / perhaps   a right lick: sure, any false"
    )
    for name, each in named.items():
        off = np.abs(each.off) * 1000
        print(
            f"{name:16}{np.median(off):9.0f}/{np.percentile(off, 95):.0f}"
            f"{each.sure / max(1, each.planted):16.3f} / {each.perhaps / max(1, each.planted):.3f}"
            f"{each.false / max(1, each.licks):22.3f} / "
            f"{each.false_perhaps / max(1, each.licks):.3f}"
        )


def both(licks: Sequence[MadeLick]) -> tuple[list[Take], list[Take]]:
    """The licks played as written, and by a human."""
    return takes(licks, human=False), takes(licks, human=True)


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 150)
