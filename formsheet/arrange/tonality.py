"""The key of a melody: as asked, as its source says, by its chords, or found from its notes.

A blues is often written with the signature of another key: of C where the writer set none, or of
the IV, in which its b7 needs no sign. So where the chords are a built-in form in some key, or the
notes go with its twelve bars, that key is taken before that of the signature, and it is said.
"""

from __future__ import annotations

from typing import NamedTuple

from formsheet.arrange.chorus import chord_bars, choruses_of
from formsheet.music.form import FORMS, Form
from formsheet.music.key import Key
from formsheet.notes.blueskey import is_blues_form
from formsheet.notes.keyfinding import KeysFound, found_keys
from formsheet.notes.melody import Melody, NotesError

_FOURTH = 5  # half steps


class Tonality(NamedTuple):
    """A key, why, the next best one, and whether the melody is a blues in it."""

    key: Key
    why: str  # a key of `KEYS` in report/tab.py
    written: Key  # in which its chords are read
    second: Key | None = None
    blues: bool = False
    form: Form | None = None  # where the notes tell it
    said: Key | None = None  # the key of the source, if another is taken


def tonality(melody: Melody, asked: Key | None, form: Form | None) -> Tonality:
    """The key of a melody; `asked` and `form` are what the user says."""
    found = found_keys(melody.tones, melody.signature, melody.meter.bar)
    if asked:
        return _with(asked, "asked", found, melody, form)
    by_chords = _key_of_chords(melody)
    said = melody.key
    if by_chords and (said is None or said.pitch_class != by_chords.pitch_class):
        return _with(by_chords, "chords", found, melody, form)._replace(said=said)
    if said is None:
        why = "signature" if melody.signature is not None and not found.blues else "notes"
        return _with(found.best, why, found, melody, form)
    other = found.best.pitch_class != said.pitch_class
    if found.form and other and _may_be_signed(found.best, said) and not melody.tabbed:
        return _with(found.best, "blues", found, melody, form)._replace(said=said)
    return _with(said, "file", found, melody, form)


def _with(key: Key, why: str, found: KeysFound, melody: Melody, form: Form | None) -> Tonality:
    here = found.best.pitch_class == key.pitch_class
    second = found.second if here else found.best
    chords, _ = chord_bars(melody, key)
    blues = (here and found.blues) or is_blues_form(chords or (form.bars if form else ()))
    known = found.form if here and found.blues else None
    return Tonality(key, why, key, second, blues, known)


def _may_be_signed(blues: Key, said: Key) -> bool:
    """Whether a blues in one key may have the signature of the other."""
    return said == Key("C", False) or said.pitch_class == (blues.pitch_class + _FOURTH) % 12


def _key_of_chords(melody: Melody) -> Key | None:
    """The key in which the chords are a built-in form; None if they are none, or in several."""
    if not melody.chords:
        return None
    names = dict.fromkeys(symbol.root for _, symbol in melody.chords)
    for root in names:
        key = Key(root, False)
        chords, _ = chord_bars(melody, key)
        try:
            form = choruses_of(chords).form
        except NotesError:
            continue
        if form.name in FORMS:
            return key._replace(minor=form.minor)
    return None
