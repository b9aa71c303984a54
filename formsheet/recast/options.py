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
from formsheet.judge.verdicts import Verdict, tone_verdict, verdict_on
from formsheet.music.chord import Chord
from formsheet.music.harp import Harp
from formsheet.music.key import Key
from formsheet.music.tab import Breath, Shape, Tab
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
COLOUR = 4  # a note of colour, and one more for each half step away
COLOUR_STAYS = 3  # more if it stays
ANOTHER_OCTAVE = 8
OTHER_BLOCK = 2  # another block of the same chord, and one more for each third away
WIDER = 6  # for each hole by which a split is wider than in the lick
ROOT_DOUBLED = 4  # a split of two roots
OTHER_OCTAVE = 3  # the same split an octave away
OTHER_SPLIT = 7  # two notes of the chord
OTHER_DOUBLED = 12  # a split of two thirds, fifths or sevenths
OTHER_SHAPE = 4  # a block for a split
ROOT_ALONE = 8
SHAKEN_BEND = 6  # a shake between a bent note and its neighbour
OTHER_WAY = 1  # the same note as in the lick, with another tab
FAR_OFF = 20  # the nearest note, at the end of the harp's range
_A_STEP, _A_THIRD = 2, 4  # half steps
SAME_PITCH = 3  # the note that makes the lick at its own pitch, and one for each step away
#: What another note on the wanted breath is worth, by its verdict, where the breath must be kept.
ON_BREATH = {Verdict.CHORD_TONE: 2, Verdict.IDIOMATIC: 3, Verdict.COLOUR: 4, Verdict.AVOID: 9}
_BREATH_REACH = 9  # most half steps of such a note from the wanted one
AVOIDED = 8  # an avoid note that stays, in an easy recast
#: Factor for bends in an easy recast, compared with a faithful one; for one in a hurry twice that.
_BENDS_COUNT = 2
_HURRIED = 2


def options(
    wanted: Wanted, key: Key, harp: Harp, overbends: bool, stays: bool = True
) -> tuple[Choice, ...]:
    """All ways of playing a wanted sound and its replacements; never empty.

    `Cost.replaced` is the distance of a replacement from the wanted sound; `stays`: the note does.
    """
    midi, sounding = wanted.midi, reach(harp, overbends)
    near = _for_chord(wanted, key, harp) if len(midi) > 1 else _for_note(wanted, key, harp, stays)
    found = [(tab, 0) for tab in sounding.get(midi, ())] + [*near]
    if not found:
        found = [
            (tab, FAR_OFF)
            for each in nearest_sounds(midi[-1], reach(harp, False))
            for tab in sounding[each]
        ]
    return tuple(_choice(tab, harp, away, wanted) for tab, away in found)


def at_its_pitch(wanted: Wanted, harp: Harp) -> tuple[Choice, ...]:
    """All ways of playing a sound at the pitch that it has in the lick."""
    midi = wanted.sound.midi
    apart = abs(midi[-1] - wanted.midi[-1])
    away = SAME_PITCH + apart // _A_STEP if apart else 0
    overbent = bool(wanted.mark.tab and wanted.mark.tab.overbend)
    return tuple(_choice(tab, harp, away, wanted) for tab in reach(harp, overbent).get(midi, ()))


def on_breath(wanted: Wanted, key: Key, harp: Harp, breath: Breath) -> tuple[Choice, ...]:
    """What may be played for a sound on a breath, in the shape that it has in the lick."""
    tab = wanted.mark.tab
    assert tab
    many = blocks(len(tab.holes)) if tab.shape is Shape.BLOCK else splits()
    singles = (each for each, _ in harp.single_notes() if not each.bend)
    found = []
    for each in singles if tab.shape is Shape.SINGLE else many:
        midi = harp.pitches(each)
        apart = abs(midi[-1] - wanted.midi[-1])
        if each.breath is breath and apart <= _BREATH_REACH:
            away = ON_BREATH[verdict_on(midi, wanted.new, key)] + apart // _A_THIRD
            found.append(_choice(each, harp, 0 if midi == wanted.midi else away, wanted))
    return tuple(found)


def eased(choice: Choice, hurried: bool, avoided: bool) -> Choice:
    """The choice with costs for a beginner: a replacement is cheap if it saves bends.

    `hurried`: there is less time for a bend than it takes at ease; `avoided`: it is an avoid note
    that stays.
    """
    cost = choice.cost
    weight = _BENDS_COUNT * (_HURRIED if hurried and choice.tab.bend else 1)
    burden = weight * cost.burden + cost.replaced + AVOIDED * avoided
    return replace(choice, cost=Cost(burden=burden))


def _choice(tab: Tab, harp: Harp, away: int, wanted: Wanted) -> Choice:
    technique, midi = wanted.mark.technique, harp.pitches(tab)
    old = wanted.mark.tab
    weight = 0 if tab == old else burden(tab)  # the student can play what the lick has
    if technique in BENT_TECHNIQUES and not harp.bends(tab):
        weight += STIFF
    if technique == _SHAKE and (tab.bend or tab.overbend):
        weight += SHAKEN_BEND
    if midi == wanted.sound.midi and tab != old:
        weight += OTHER_WAY
    if old and old.shape is tab.shape is Shape.SPLIT:
        weight += WIDER * max(0, tab.span - old.span)
    kept = Kept.STAND_IN if away else Kept.EXACT
    return Choice(tab, midi, kept, Cost(replaced=away, burden=weight))


def _for_note(wanted: Wanted, key: Key, harp: Harp, stays: bool) -> Iterator[tuple[Tab, int]]:
    """Natural notes near a wanted one, each with its distance in bends."""
    midi, chord = wanted.midi[0], wanted.new
    third = key.above_root(midi, chord) == 4
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
        elif distance <= _A_STEP and _plain_colour(key.above_root(each, chord), chord):
            yield tab, COLOUR + distance + COLOUR_STAYS * stays


def _plain_colour(above_root: int, chord: Chord) -> bool:
    """Whether a tone passes for a neighbour: the 9, the 6, over a minor chord the 4."""
    return above_root in (2, 9) or (above_root == 5 and chord.minor_third)


def _for_chord(wanted: Wanted, key: Key, harp: Harp) -> Iterator[tuple[Tab, int]]:
    """Blocks, splits and roots of the chord near a wanted block, each with its distance."""
    midi, chord = wanted.midi, wanted.new
    root = (key.pitch_class + chord.root) % _OCTAVE
    split = bool(wanted.mark.tab and wanted.mark.tab.shape is Shape.SPLIT)
    for tab in _chords_on(harp, root, frozenset(chord.tones)):
        sounding = harp.pitches(tab)
        apart = abs(sounding[-1] - midi[-1])
        if sounding == midi or apart > _VOICING_REACH:
            continue
        far = apart // _A_THIRD
        if tab.shape is Shape.BLOCK:
            smaller = abs(len(sounding) - len(midi))
            yield tab, OTHER_BLOCK + far + 2 * smaller + OTHER_SHAPE * split
        elif tab.shape is Shape.SPLIT:
            classes = {each % _OCTAVE for each in sounding}
            if split and classes == {each % _OCTAVE for each in midi}:
                yield tab, OTHER_OCTAVE
            elif len(classes) > 1:
                yield tab, OTHER_SPLIT + far
            else:
                yield tab, (ROOT_DOUBLED if classes == {root} else OTHER_DOUBLED) + far
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
