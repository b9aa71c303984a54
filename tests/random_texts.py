"""Texts made up by chance: short, long, odd, in scripts that are read leftwards or have no case."""

from __future__ import annotations

from random import Random

WORDS = """
river porch lamp gate creek walk home rain slow late tram mill boat winter barge orchard the a of
and to over under by with without again & it’s don't <tight> naïve Żółw Ærø ½ — … №7 B♭ F# 12
unreasonablylongwordthatnobodywouldeverputintoatitle
""".split()  # noqa: SIM905 -- a list of forty strings is no easier to read

#: Of other scripts, those whose faces come with what the setting library needs on a machine.
ODD = (
    "שלום עליכם",
    "مرحبا يا صديقي",
    "Ночной трамвай",
    "Ελπίδα",
    "e\u0301te\u0301",
    "W" * 40,
    "<b>Bold</b> &amp; \\n %s {{ x }}",
    "x",
)


def text(chance: Random, most: int, *, odd: bool = True) -> str:
    """A text of up to so many words; now and then, if it may, an odd one stands in it."""
    words = [chance.choice(WORDS) for _ in range(chance.randint(1, most))]
    if odd and chance.random() < 0.15:
        words.insert(chance.randrange(len(words)), chance.choice(ODD))
    return " ".join(words)


def title(chance: Random) -> str:
    """A title: mostly short, at times very long."""
    if chance.random() < 0.1:
        return chance.choice(ODD)
    return text(chance, chance.choice((2, 3, 4, 4, 8, 30))).replace('"', "").strip() or "x"
