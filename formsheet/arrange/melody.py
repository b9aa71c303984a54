"""A melody as a lick, with the tab that the search found, and the facts for it."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from formsheet.arrange.choices import Choice
from formsheet.arrange.chorus import AS_WRITTEN, own_form
from formsheet.arrange.cost import Cost
from formsheet.arrange.fallbacks import Kept
from formsheet.arrange.octaves import Arranged
from formsheet.arrange.rank import Layout
from formsheet.arrange.search import Laid
from formsheet.arrange.sounds import Line, Sound
from formsheet.language.made import NOWHERE
from formsheet.lesson.model import (
    AskedBar,
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
from formsheet.music.form import Form, FormBar
from formsheet.music.harp import Harp
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


def tabbed_layout(melody: Melody, harp: Harp, position: int) -> Layout:
    """The layout of a melody whose source says how each note is played."""
    line = melody_line(melody)
    choices = tuple(
        Choice(tone.tab, tone.midi, Kept.EXACT, Cost()) for tone in melody.tones if tone.tab
    )
    return Layout(harp, position, Arranged(0, (Laid(line, choices, Cost()),), Cost(), 0.0))


def melody_marks(melody: Melody, laid: Laid) -> tuple[LickBar, list[LickBar]]:
    """The marks of the pick-up and of each bar, with the feel where it is not the lesson's."""
    pickup, bars = pieces(melody)
    begin = melody.tones[0].start if pickup else Fraction(0)
    length = melody.meter.bar
    return _marks(melody, pickup, laid, begin), [
        _marks(melody, bar, laid, number * length) for number, bar in enumerate(bars)
    ]


def melody_lick(
    melody: Melody, laid: Laid, key: Key, name: str, chords: Sequence[FormBar] = ()
) -> Lick:
    """The melody as one lick, on the chords of its bars, else on the I of the key."""
    pickup, bars = melody_marks(melody, laid)
    plain = joined([pickup, *bars], melody.feel.swings)
    return Lick(
        name=name,
        title=melody.title.replace('"', "'") or "Melody",
        turnaround=False,
        on=tuple(asked(bar) for bar in chords) or tuple(((home(key),),) for _ in bars),
        bars=tuple(plain[1:]),
        span=NOWHERE,
        on_span=NOWHERE,
        pickup=plain[0],
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
    """The melody as a lesson of one lick, with its own form that stays on I."""
    form = own_form(AS_WRITTEN, ((home(key),),) * melody.bars)
    lick = melody_lick(melody, layout.arranged.laid[0], key, name)
    return lesson_of_one(lick, melody_facts(melody, layout, form), form, key)


def lesson_of_one(lick: Lick, facts: Facts, form: Form, key: Key) -> Lesson:
    """A lesson that plays one lick once, over the whole form."""
    placed = BarsPlaced(
        1, len(form.bars), (Placed(lick.name, False, None, NOWHERE),), False, NOWHERE
    )
    return Lesson(
        facts=facts,
        form=form,
        key=key,
        licks={lick.name: lick},
        plays=(Play("", 1, (), (placed,), NOWHERE),),
        end=NOWHERE,
    )


def home(key: Key) -> Chord:
    """The I of a key."""
    return parse_chord("i" if key.minor else "I")


def asked(*bars: FormBar) -> AskedBar:
    """What a bar of a lick asks for that is played over these bars of a form."""
    return tuple(tuple(dict.fromkeys(map(_bare, slot))) for slot in zip(*bars, strict=True))


def _bare(chord: Chord) -> Chord:
    """The numeral without its quality where that is met by the chord, as players write it."""
    plain = parse_chord(chord.numeral.removesuffix(chord.quality) if chord.quality else str(chord))
    return plain if chord.meets(plain) else chord


# ---- Marks ---------------------------------------------------------------------------------


def _marks(melody: Melody, bar: Sequence[Piece], laid: Laid, begin: Fraction) -> LickBar:
    return tuple(
        LickMark(
            kind=piece.kind,
            onset=piece.onset,
            value=piece.value,
            span=NOWHERE,
            tab=laid.choices[piece.tone].tab if piece.kind is Kind.NOTE else None,
            swings=_swings(melody, begin + piece.onset),
            technique=melody.tones[piece.tone].technique if piece.kind is Kind.NOTE else "",
            syllable=melody.tones[piece.tone].syllable if piece.kind is Kind.NOTE else "",
        )
        for piece in bar
    )


def _swings(melody: Melody, at: Fraction) -> bool | None:
    """The feel of a place if it is not that of the lesson."""
    now = None
    for place, feel in melody.feels:
        if place <= at:
            now = feel
    return None if now is None or now == melody.feel else now.swings


def joined(bars: Sequence[LickBar], swings: bool) -> list[LickBar]:
    """The bars of one lick: after a change of feel, a return to the lesson's is marked too.

    In the language a swing or straight mark holds to the end of the lick; `swings` is the lesson's.
    """
    found: list[LickBar] = []
    changed = False
    for bar in bars:
        marks = []
        for mark in bar:
            changed = changed or mark.swings is not None
            again = changed and mark.swings is None
            marks.append(mark._replace(swings=swings) if again else mark)
        found.append(tuple(marks))
    return found
