"""Melodies in the language's values: nothing is lost, every bar is full, triplets are whole."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from formsheet.arrange.melody import melody_facts, melody_lesson, melody_lick, melody_line
from formsheet.arrange.rank import Layout, ranked
from formsheet.arrange.shelf import shelf_text
from formsheet.lesson.writing import lesson_text, lick_text
from formsheet.music.harp import Harp
from formsheet.music.key import Key
from formsheet.music.rhythm import METERS
from formsheet.notes.melody import Melody, Tone
from formsheet.notes.names import read_names
from formsheet.notes.quantise import quantised
from tests.arrange.melodies import lick_notes
from tests.helpers import examined, lesson_of, told, tune_of

C = Key("C", False)


def laid(melody: Melody) -> Layout:
    return ranked([melody_line(melody)], [(1, Harp("C"))], octaves=(0,))[0]


def written(text: str, meter: str = "4/4") -> str:
    """The music of the lick that a melody in words becomes, on one line."""
    melody = quantised(read_names(text, meter))
    lick = melody_lick(melody, laid(melody).arranged.laid[0], C, "run")
    return " ".join(" ".join(lick_text(lick).splitlines()[1:]).split())


@pytest.mark.parametrize(
    ("text", "meter", "music"),
    [
        ("q C5 D5 h E5", "4/4", "q 4b 4d h 5b"),
        ("q. C5 e D5 h E5", "4/4", "q. 4b e 4d h 5b"),
        ("e C5 q D5 e E5 h C5", "4/4", "e 4b q 4d e 5b h 4b"),  # an eighth may hold over a beat
        ("s C5 q D5 e. E5 h C5", "4/4", "s 4b e. 4d s = e. 5b h 4b"),  # a sixteenth is cut there
        ("h. C5 h D5 h. E5", "4/4", "h. 4b q 4d | = h. 5b"),
        ("w C5 = = ", "4/4", "w 4b | = | ="),
        ("e3 C5 D5 E5 q C5 h D5", "4/4", "e3 4b 4d 5b q 4b h 4d"),
        ("q3 C5 D5 E5 h C5", "4/4", "q3 4b 4d 5b h 4b"),
        ("e3 C5 D5 E5 = - - h C5", "4/4", "e3 4b 4d 5b = q3 - h 4b"),
        ("q C5 e3 = D5 E5 h C5", "4/4", "q 4b e3 = 4d 5b h 4b"),
        ("e C5 D5 E5 q. C5", "6/8", "e 4b 4d 5b q. 4b"),
        ("h. C5 = C5 =", "12/8", "w. 4b | 4b"),
        ("q C5 | h. C5 | h C5", "3/4", "pickup q 4b h. 4b | h 4b q -"),
        ("q - C5 | w = ", "4/4", "pickup q 4b w ="),
        ("e - C5 q D5", "3/4", "e - 4b q 4d -"),
        ("h C5 q - e - C5", "4/4", "h 4b q - e - 4b"),
        ("e. C5 s - q. - e D5 q C5", "4/4", "e. 4b s - q - e - 4d q 4b"),
    ],
)
def test_music(text: str, meter: str, music: str) -> None:
    assert written(text, meter) == music


lengths = st.sampled_from([Fraction(n, 4) for n in (1, 2, 3, 4, 5, 6, 8, 11, 16, 23)])
steps = st.one_of(
    st.tuples(st.just("note"), lengths),
    st.tuples(st.just("rest"), lengths),
    st.tuples(st.just("triplet"), st.sampled_from([Fraction(1), Fraction(2)])),
)


@settings(max_examples=30, derandomize=True, deadline=None, database=None)
@given(st.lists(steps, min_size=1, max_size=12), st.sampled_from(sorted(METERS)), st.booleans())
def test_the_lick_sounds_as_the_melody(
    parts: list[tuple[str, Fraction]], meter: str, pickup: bool
) -> None:
    """Written as a lesson, read again and assembled: the same onsets and lengths."""
    compound = METERS[meter].compound
    at, tones = Fraction(0), [Tone((60,), Fraction(-1), Fraction(0))] if pickup else []
    for kind, length in parts:
        if kind == "triplet" and not compound:
            at = Fraction(-(-at // 1))  # triplets begin on a beat
            third = length / 3
            tones += [Tone((60 + n,), at + n * third, at + (n + 1) * third) for n in range(3)]
        elif kind == "note":
            tones.append(Tone((67,), at, at + length))
        at += length
    if not tones:
        return
    melody = Melody(tuple(tones), METERS[meter], key=C, title="Any")
    layout = laid(melody)
    lesson = melody_lesson(melody, layout, C, "run")
    if melody.bars > 64:
        return
    tune = tune_of(lesson_text(lesson))
    found = [(tune.bars[n.bar].start + n.onset, n.duration) for n in tune.notes]
    assert found == [(tone.start, tone.end - tone.start) for tone in tones]
    lick = lesson_of(lesson_text(lesson)).licks["run"]
    pitches = [tone.midi[0] for tone in tones]
    assert lick_notes(lick, METERS[meter], pitches) == [
        (tone.midi[0], tone.start, tone.end) for tone in tones
    ]


def test_a_shelf_checks() -> None:
    melody = quantised(read_names("q G4 | h B4 D5 | w G5"))
    layout = laid(melody)
    lick = melody_lick(melody, layout.arranged.laid[0], C, "run")
    text = shelf_text(melody_facts(melody, layout), [lick])
    assert "form-missing" in told(examined(text).problems)  # no lesson yet
    assert text.startswith("harp      C\nposition  1st\nmeter     4/4\n")
