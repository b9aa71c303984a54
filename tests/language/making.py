"""Trees that no hand has written, for tests that take any of them."""

from __future__ import annotations

import re
from itertools import pairwise
from typing import TypeVar

from hypothesis import strategies as st

from formsheet.language import tree as t
from formsheet.language.made import NOWHERE, word
from formsheet.language.tree import Sign
from formsheet.source import Source, read_text
from formsheet.vocabulary.facts import FACTS, Shape

T = TypeVar("T")


def some(strategy: st.SearchStrategy[T], most: int = 3) -> st.SearchStrategy[tuple[T, ...]]:
    return st.lists(strategy, min_size=1, max_size=most).map(tuple)


def any_of(strategy: st.SearchStrategy[T], most: int = 3) -> st.SearchStrategy[list[T]]:
    return st.lists(strategy, max_size=most)


# ---- Words -------------------------------------------------------------------------------

_LETTERS = [*"ab #,\"“”„«»'|é9‑", "é\u200dé", "é\u200cé"]
_PLAIN = (
    st.lists(st.sampled_from(_LETTERS), max_size=12)
    .map(lambda letters: read_text("".join(letters))[0])
    .filter(lambda text: not ('"' in text and "”" in text))  # the language cannot quote both
)
_PHRASE = some(st.sampled_from(["12-bar", "Late", "tram", "ending", "x", "a#b"])).map(" ".join)

texts = _PLAIN.map(word)
names = (
    st.from_regex(r"[a-hj-uw-zé][a-z0-9_'’-]{0,5}", fullmatch=True)
    .filter(lambda name: name != "rest")
    .map(word)
)
phrases = (_PHRASE | _PLAIN).map(word)
#: Of rhythms: one that is called by a value is taken for one without a name where values lack.
rhythm_names = names.filter(lambda name: not re.fullmatch("[whqes]3?", name.text))
words = some(st.sampled_from(["C", "Bb", "F#", "2nd", "104", "3:2", "60%"]).map(word))
chords = st.sampled_from(["I", "IV7", "ii7", "bVI7", "V"]).map(word)
chord_bars = some(some(chords))
counts = st.integers(1, 64).map(lambda count: word(f"x{count}"))

# ---- Marks -------------------------------------------------------------------------------


def sign(which: Sign, text: str, times: int | None = None) -> t.Mark:
    return t.Mark(which, text, NOWHERE, times)


_VALUES = [f"{letter}{more}" for letter in "whqes" for more in ("", ".", "..", "3")]
_SIGNS = [
    *(sign(Sign.VALUE, value) for value in _VALUES),
    *(sign(Sign.BAR, "|") for _ in range(5)),
    sign(Sign.REST, "-"),
    sign(Sign.HOLD, "="),
    sign(Sign.PLACE, "x"),
    sign(Sign.OPEN, "["),
    sign(Sign.CLOSE, "]"),
    sign(Sign.CLOSE, "]x3", 3),
    sign(Sign.SWING, "swing"),
    sign(Sign.STRAIGHT, "straight"),
]
notes = st.builds(
    t.NoteMark,
    holes=some(st.integers(1, 10), 4).filter(lambda holes: (1, 1) not in pairwise(holes)),  # 11
    breath=st.sampled_from("bd"),
    over=st.booleans(),
    ticks=st.integers(0, 3),
    span=st.just(NOWHERE),
    deliberate=st.booleans(),
    technique=st.none() | st.sampled_from(["wah", "", "no such"]).filter(str.isalpha).map(word),
    syllable=st.none() | texts,
)
marks: st.SearchStrategy[t.AnyMark] = notes | st.sampled_from(_SIGNS)
rhythm_marks = st.sampled_from(
    [mark for mark in _SIGNS if mark.sign not in (Sign.OPEN, Sign.CLOSE)]
)

# ---- Lines and blocks --------------------------------------------------------------------

_KEYS = [fact.word for fact in FACTS if fact.shape is Shape.WORDS]
_TEXT_KEYS = [fact.word for fact in FACTS if fact.shape is Shape.TEXT]
facts = st.builds(t.Fact, st.sampled_from(_KEYS).map(word), words) | st.builds(
    t.Fact, st.sampled_from(_TEXT_KEYS).map(word), texts.map(lambda text: (text,))
)
tunings = st.builds(
    t.TuningBlock,
    st.builds(t.TuningLine, st.just(word("tuning")), phrases),
    any_of(st.builds(t.ReedLine, st.sampled_from(["blow", "draw"]).map(word), words)),
)
forms = st.builds(
    t.FormBlock,
    st.builds(t.FormLine, st.just(word("form")), st.none() | phrases, st.just(()) | chord_bars),
    any_of(st.builds(t.ChordLine, chord_bars, st.just(NOWHERE))),
)
uses = st.builds(
    t.Use,
    st.just(word("use")),
    some(st.builds(t.UseItem, names, st.none() | names)),
    st.sampled_from(["corner", "a b", "x.licks", "“odd", "«odd", "#9"]).map(word),
)
asked_bars = some(some(chords), 2)
lick_lines = st.builds(
    t.LickLine,
    keyword=st.sampled_from(["lick", "turnaround"]).map(word),
    name=names,
    title=st.none() | texts,
    on=some(asked_bars),
    on_span=st.just(NOWHERE),
    rhythm=st.none() | names,
)
pickups = st.builds(t.PickupLine, st.just(word("pickup")), some(marks), st.booleans())
tips = st.builds(t.TipLine, st.just(word("tip")), texts)
placed = st.builds(t.Placed, names, st.just(False), st.none() | counts) | st.builds(
    t.Placed, st.just(word("rest")), st.just(True), st.none() | counts
)
plays = st.builds(
    t.PlayBlock,
    st.builds(t.PlayLine, st.just(word("play")), st.none() | texts, st.none() | counts),
    any_of(st.builds(t.EveryLine, st.just(word("every")), asked_bars, st.just(NOWHERE),
                     some(placed))),
    any_of(st.builds(t.BarsLine, st.sampled_from(["bar", "bars"]).map(word),
                     st.sampled_from(["9", "1-4", "11-12"]).map(word), some(placed),
                     st.booleans())),
    any_of(st.builds(t.EndingLine, st.just(word("ending")), chord_bars, st.booleans()), 2),
)  # fmt: skip


@st.composite
def licks(draw: st.DrawFn, rhythms: list[t.RhythmBlock]) -> t.LickBlock:
    """A lick; some of them in one of the rhythms, with as many notes as it has places."""
    line = draw(lick_lines)
    music: list[t.AnyMark] = draw(st.lists(marks, max_size=40))
    rhythm = draw(st.sampled_from([None, *rhythms]))
    if rhythm:
        line = t.LickLine(line.keyword, line.name, line.title, line.on, NOWHERE, rhythm.name)
        places = sum(isinstance(m, t.Mark) and m.sign is Sign.PLACE for m in rhythm.marks)
        music = list(draw(st.lists(notes, min_size=places, max_size=places)))
    return t.LickBlock(line.name, line, music, draw(any_of(pickups, 1)), draw(any_of(tips, 2)))


@st.composite
def trees(draw: st.DrawFn) -> t.FileTree:
    """A file of blocks in their order; what it says need make no sense."""
    rhythms: list[t.RhythmBlock] = [
        t.RhythmBlock(word("rhythm"), draw(rhythm_names), draw(st.lists(rhythm_marks, max_size=12)))
        for _ in range(draw(st.integers(0, 3)))
    ]
    return t.FileTree(
        Source("", ""),
        facts=draw(any_of(facts)),
        tunings=draw(any_of(tunings, 2)),
        forms=draw(any_of(forms, 2)),
        uses=draw(any_of(uses, 2)),
        rhythms=rhythms,
        licks=draw(any_of(licks(rhythms))),
        plays=draw(any_of(plays, 2)),
    )
