"""A melody as a lick, and as a whole lesson, with the tab that the search found."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from formsheet.arrange.rank import Layout
from formsheet.arrange.search import Laid
from formsheet.arrange.sounds import Line, Sound
from formsheet.language.made import NOWHERE
from formsheet.lesson.model import (
    BarsPlaced,
    Facts,
    Kind,
    Lesson,
    Lick,
    LickBar,
    LickMark,
    Placed,
    Play,
)
from formsheet.music.chord import Chord, parse_chord
from formsheet.music.form import BARS_A_LINE, Form
from formsheet.music.key import Key
from formsheet.notes.melody import Melody
from formsheet.notes.values import Piece, pieces
from formsheet.vocabulary.facts import FASTEST, SLOWEST

#: Tempo in beats a minute of a melody without one. Our own choice.
USUAL_TEMPO = Fraction(90)


def melody_line(melody: Melody) -> Line:
    """The melody as input for the search."""
    bar = melody.meter.bar
    sounds = []
    before = melody.tones[0].start
    for tone in melody.tones:
        number = tone.start // bar
        sounds.append(
            Sound(
                midi=tone.midi,
                bar=int(number) + 1,
                onset=tone.start - number * bar,
                gap=tone.start - before,
                melody=True,
            )
        )
        before = tone.start
    return tuple(sounds)


def melody_lick(melody: Melody, laid: Laid, key: Key, name: str) -> Lick:
    """The melody as a lick on the I of the key."""
    pickup, bars = pieces(melody)
    return Lick(
        name=name,
        title=melody.title.replace('"', "'") or "Melody",
        turnaround=False,
        on=tuple(((_home(key),),) for _ in bars),
        bars=tuple(_marks(bar, laid) for bar in bars),
        span=NOWHERE,
        on_span=NOWHERE,
        pickup=_marks(pickup, laid),
    )


def melody_facts(melody: Melody, layout: Layout, form: Form | None = None) -> Facts:
    """The facts of a lesson with the melody."""
    tempo = melody.tempo or USUAL_TEMPO
    return Facts(
        title=melody.title or "Melody",
        harp=layout.harp,
        position=layout.position,
        form=form,
        meter=melody.meter,
        tempo=Fraction(round(min(max(tempo, Fraction(SLOWEST)), Fraction(FASTEST)))),
        feel=melody.feel,
    )


def melody_lesson(melody: Melody, layout: Layout, key: Key, name: str) -> Lesson:
    """The melody as a whole lesson, with its own form that stays on I."""
    lick = melody_lick(melody, layout.arranged.laid[0], key, name)
    bars = ((_home(key),),) * len(lick.bars)
    rows = tuple(bars[at : at + BARS_A_LINE] for at in range(0, len(bars), BARS_A_LINE))
    form = Form("As written", rows)
    placed = BarsPlaced(1, len(bars), (Placed(name, False, None, NOWHERE),), False, NOWHERE)
    return Lesson(
        facts=melody_facts(melody, layout, form),
        form=form,
        key=key,
        licks={name: lick},
        plays=(Play("", 1, (), (placed,), NOWHERE),),
        end=NOWHERE,
    )


def _home(key: Key) -> Chord:
    return parse_chord("i" if key.minor else "I")


def _marks(bar: Sequence[Piece], laid: Laid) -> LickBar:
    return tuple(
        LickMark(
            kind=piece.kind,
            onset=piece.onset,
            value=piece.value,
            span=NOWHERE,
            tab=laid.choices[piece.tone].tab if piece.kind is Kind.NOTE else None,
        )
        for piece in bar
    )
