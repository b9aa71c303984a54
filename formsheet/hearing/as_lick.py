"""A hearing as a lick of the language, and where in it each doubt belongs."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from formsheet.arrange.chorus import own_form
from formsheet.arrange.melody import lesson_of_one
from formsheet.hearing.hear import Hearing, WrittenNote
from formsheet.language.made import NOWHERE
from formsheet.lesson.model import Facts, Kind, Lesson, Lick, LickBar, LickMark, default_title
from formsheet.music.chord import parse_chord
from formsheet.music.key import song_key
from formsheet.notes.melody import Melody, Tone
from formsheet.notes.values import Piece, pieces
from formsheet.vocabulary.facts import FASTEST, SLOWEST


def heard_melody(hearing: Hearing) -> Melody:
    """The notes as tones, in quarters."""
    beat = hearing.meter.beat
    tones = tuple(
        Tone(note.heard.midi, note.start * beat, note.end * beat) for note in hearing.notes
    )
    return Melody(tones, hearing.meter, hearing.feel)


def heard_lick(hearing: Hearing, name: str) -> tuple[Lick, list[tuple[int, int, WrittenNote]]]:
    """The lick; and the bar (0: the pick-up) and the number in it of each note's mark."""
    pickup, bars = pieces(heard_melody(hearing))
    chord = parse_chord("I")
    lick = Lick(
        name=name,
        title=default_title(name),
        turnaround=False,
        on=tuple(((chord,),) for _ in bars),
        bars=tuple(_marks(bar, hearing.notes) for bar in bars),
        span=NOWHERE,
        on_span=NOWHERE,
        pickup=_marks(pickup, hearing.notes),
        pickup_once=bool(pickup),
    )
    return lick, list(_places([pickup, *bars], hearing.notes))


def heard_facts(hearing: Hearing, position: int) -> Facts:
    """What is known of the lesson."""
    parts = 100 if hearing.tempo_given else 1
    tempo = Fraction(round(hearing.tempo * parts), parts)
    return Facts(
        harp=hearing.harp,
        position=position,
        meter=hearing.meter,
        tempo=min(max(tempo, Fraction(SLOWEST)), Fraction(FASTEST)),
        feel=hearing.feel,
    )


def heard_lesson(hearing: Hearing, position: int, lick: Lick) -> Lesson:
    """The lick as a whole lesson, over a form of its own that stays on I."""
    form = own_form("As played", ((parse_chord("I"),),) * len(lick.bars))
    facts = heard_facts(hearing, position)._replace(title=lick.title, form=form)
    return lesson_of_one(lick, facts, form, song_key(hearing.harp.key, position))


def _marks(bar: Sequence[Piece], notes: Sequence[WrittenNote]) -> LickBar:
    return tuple(
        LickMark(
            kind=piece.kind,
            onset=piece.onset,
            value=piece.value,
            span=NOWHERE,
            tab=notes[piece.tone].tab if piece.kind is Kind.NOTE else None,
            technique="shake" if piece.kind is Kind.NOTE and notes[piece.tone].heard.shake else "",
        )
        for piece in bar
    )


def _places(
    bars: Sequence[Sequence[Piece]], notes: Sequence[WrittenNote]
) -> Iterator[tuple[int, int, WrittenNote]]:
    for bar, marks in enumerate(bars):
        for number, piece in enumerate(marks):
            if piece.kind is Kind.NOTE:
                yield bar, number, notes[piece.tone]
