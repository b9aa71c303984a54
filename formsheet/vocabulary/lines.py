"""The keywords of the language other than those of facts, and a sample of each line."""

from __future__ import annotations

from typing import NamedTuple

from formsheet.vocabulary.facts import FACTS, Shape


class Keyword(NamedTuple):
    """A keyword, or two words that are one keyword."""

    word: str
    terminal: str  # of the grammar
    sample: str = ""  # a whole line that begins with it; "" if none does
    expected: str = ""  # its name in messages; "": the word itself

    @property
    def called(self) -> str:
        """Its name in a message about what could have followed."""
        return self.expected or f"`{self.word}`"


KEYWORDS = (
    Keyword("blow", "BLOW", "blow C E G C E G C E G C"),
    Keyword("draw", "DRAW", "draw D G B D F A B D F A"),
    Keyword("as", "AS"),
    Keyword("from", "FROM", expected="`from` and the shelf's name"),
    Keyword("rhythm", "RHYTHM", "rhythm trot q x e x x h x"),
    Keyword("lick", "LICK", 'lick porch "Front porch" on I, IV'),
    Keyword("turnaround", "TURNAROUND", "turnaround home on I | V"),
    Keyword("on", "ON", expected="`on` and the chords, such as `on I`"),
    Keyword("in", "IN", expected="`in` and a rhythm's name"),
    Keyword("pickup", "PICKUP", "pickup e 1d 2b"),
    Keyword("once", "ONCE"),
    Keyword("tip", "TIP", "tip Let the 2 draw ring."),
    Keyword("play", "PLAY", 'play "Second chorus" x2'),
    Keyword("every", "EVERY", "every I porch x2"),
    Keyword("bars", "BARS", "bars 1-4 porch x4", expected="`bars` or `bar`"),
    Keyword("bar", "BARS", "bar 9 gate", expected="`bars` or `bar`"),
    Keyword("last time", "LAST_TIME", "last time bars 11-12 home"),
    Keyword("ending", "ENDING", "ending I"),
    Keyword("rest", "SILENCE"),
    Keyword("swing", "SWING"),
    Keyword("straight", "STRAIGHT"),
)

#: Keywords that begin a line other than a fact.
LINE_WORDS = tuple(keyword.word for keyword in KEYWORDS if keyword.sample)

#: The usage of each line by its first word, for hints and for the reference.
USAGE = {
    **{fact.word: fact.sample for fact in FACTS},
    **{keyword.word.split()[0]: keyword.sample for keyword in KEYWORDS if keyword.sample},
    "|": "| I7 | IV7 | I7 IV7 | V7 |",
}

#: Names in messages for the terminals of the grammar that match keywords.
KEYWORD_TERMINALS = {
    "TEXT_FACT": "a fact, such as `title`",
    "WORDS_FACT": "a fact, such as `harp`",
    **{fact.word.upper(): f"`{fact.word}`" for fact in FACTS if fact.shape is Shape.BLOCK},
    **{keyword.terminal: keyword.called for keyword in KEYWORDS},
}


def filled_in(grammar: str) -> str:
    """The grammar with the keywords of facts inserted at its placeholders."""
    for shape in (Shape.TEXT, Shape.WORDS):
        words = "|".join(fact.word for fact in FACTS if fact.shape is shape)
        grammar = grammar.replace(f"@{shape.value}", words)
    return grammar
