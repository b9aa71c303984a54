"""What may be played for a wanted sound: the sound itself, and possible replacements."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from functools import cache

from formsheet.arrange.choices import Choice, reach
from formsheet.arrange.cost import STIFF, Cost, burden
from formsheet.arrange.fallbacks import Kept
from formsheet.arrange.fallbacks import stand_ins as nearest_sounds
from formsheet.judge.harmony import LARGEST_BLOCK, blocks, splits
from formsheet.judge.verdicts import Verdict, tone_verdict
from formsheet.music.harp import Harp
from formsheet.music.key import Key
from formsheet.music.tab import Shape, Tab
from formsheet.recast.target import Wanted
from formsheet.vocabulary.techniques import BENT_TECHNIQUES

_OCTAVE = 12
_SHAKE = "shake"
_NEAR = 3  # half steps; a note farther away makes another melody
_VOICING_REACH = 12  # most half steps between the top notes of a chord and its replacement

#: Distance of a replacement from the wanted sound, in bends (units of `Cost.burden`). Our own
#: choice.
OTHER_THIRD = 2  # the blue third for the major one
CHORD_TONE = 3  # another note of the chord, and one more for each half step away
BLUE_NOTE = 5
ANOTHER_OCTAVE = 8
OTHER_BLOCK = 2  # another block of the same chord, and one more for each third away
ROOT_DOUBLED = 4  # a split of two roots
OTHER_SPLIT = 7
ROOT_ALONE = 8
SHAKEN_BEND = 6  # a shake between a bent note and its neighbour
OTHER_WAY = 1  # the same note as in the lick, with another tab
FAR_OFF = 20  # the nearest note, at the end of the harp's range
_A_THIRD = 4  # half steps
#: Factor for bends in an easy recast, compared with a faithful one.
_BENDS_COUNT = 2


def options(wanted: Wanted, key: Key, harp: Harp, overbends: bool) -> tuple[Choice, ...]:
    """All ways of playing a wanted sound and its replacements; never empty.

    `Cost.replaced` is the distance of a replacement from the wanted sound.
    """
    midi, sounding = wanted.midi, reach(harp, overbends)
    near = _for_chord(wanted, key, harp) if len(midi) > 1 else _for_note(wanted, key, harp)
    found = [(tab, 0) for tab in sounding.get(midi, ())] + [*near]
    if not found:
        found = [
            (tab, FAR_OFF)
            for each in nearest_sounds(midi[-1], reach(harp, False))
            for tab in sounding[each]
        ]
    return tuple(_choice(tab, harp, away, wanted) for tab, away in found)


def eased(choice: Choice) -> Choice:
    """The choice with costs for a beginner: a replacement is cheap if it saves bends."""
    cost = choice.cost
    return replace(choice, cost=Cost(burden=_BENDS_COUNT * cost.burden + cost.replaced))


def _choice(tab: Tab, harp: Harp, away: int, wanted: Wanted) -> Choice:
    technique, midi = wanted.mark.technique, harp.pitches(tab)
    weight = burden(tab)
    if technique in BENT_TECHNIQUES and not harp.bends(tab):
        weight += STIFF
    if technique == _SHAKE and (tab.bend or tab.overbend):
        weight += SHAKEN_BEND
    if midi == wanted.sound.midi and tab != wanted.mark.tab:
        weight += OTHER_WAY
    kept = Kept.STAND_IN if away else Kept.EXACT
    return Choice(tab, midi, kept, Cost(replaced=away, burden=weight))


def _for_note(wanted: Wanted, key: Key, harp: Harp) -> Iterator[tuple[Tab, int]]:
    """Natural notes near a wanted one, each with its distance in bends."""
    midi, chord = wanted.midi[0], wanted.new
    root = key.pitch_class + chord.root
    third = (midi - root) % _OCTAVE == 4
    for tab, each in harp.single_notes():
        distance = abs(each - midi)
        verdict = tone_verdict(each % _OCTAVE, chord, key)
        if tab.bend or not distance:
            continue
        if distance in (_OCTAVE, 2 * _OCTAVE):
            yield tab, ANOTHER_OCTAVE * distance // _OCTAVE
        elif third and each == midi - 1 and verdict is not Verdict.AVOID:
            yield tab, OTHER_THIRD
        elif verdict is Verdict.CHORD_TONE and distance <= 2 * _NEAR:
            yield tab, CHORD_TONE + distance
        elif verdict is Verdict.IDIOMATIC and distance <= _NEAR:
            yield tab, BLUE_NOTE + distance


def _for_chord(wanted: Wanted, key: Key, harp: Harp) -> Iterator[tuple[Tab, int]]:
    """Blocks, splits and roots of the chord near a wanted block, each with its distance."""
    midi, chord = wanted.midi, wanted.new
    root = (key.pitch_class + chord.root) % _OCTAVE
    for tab in _chords_on(harp, root, frozenset(chord.tones)):
        sounding = harp.pitches(tab)
        apart = abs(sounding[-1] - midi[-1])
        if sounding == midi or apart > _VOICING_REACH:
            continue
        far = apart // _A_THIRD
        if tab.shape is Shape.BLOCK:
            yield tab, OTHER_BLOCK + far + 2 * abs(len(sounding) - len(midi))
        elif tab.shape is Shape.SPLIT:
            doubled = {each % _OCTAVE for each in sounding} == {root}
            yield tab, (ROOT_DOUBLED if doubled else OTHER_SPLIT) + far
        else:
            yield tab, ROOT_ALONE + far


@cache
def _chords_on(harp: Harp, root: int, tones: frozenset[int]) -> tuple[Tab, ...]:
    """Every block and split of chord tones, and the natural roots."""
    wanted = {(root + tone) % _OCTAVE for tone in tones}
    many = [tab for size in range(2, LARGEST_BLOCK + 1) for tab in blocks(size)] + [*splits()]
    chords = [tab for tab in many if all(m % _OCTAVE in wanted for m in harp.pitches(tab))]
    roots = [tab for tab, m in harp.single_notes() if not tab.bend and m % _OCTAVE == root]
    return (*chords, *roots)
