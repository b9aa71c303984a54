"""The report on licks moved to a new layout, printed beside the text itself."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from formsheet.arrange.choices import Choice
from formsheet.arrange.doubts import Doubt
from formsheet.arrange.fallbacks import Kept
from formsheet.arrange.offers import Missing, missing_notes
from formsheet.arrange.rank import Layout
from formsheet.arrange.retab import Retabbed
from formsheet.lesson.lengths import mixed
from formsheet.music.harp import Harp
from formsheet.music.key import Key, position_name
from formsheet.music.naming import INTERVALS
from formsheet.music.rhythm import Meter

_MOST_LAYOUTS = 3
_OCTAVE = 12

_KEPT = {
    Kept.VOICING: "the same notes in another voicing",
    Kept.PART: "a part of it, the top note kept",
    Kept.TOP: "its top note alone",
    Kept.SOME: "some of it, the top note lost",
    Kept.TONE: "one note of it, not the top one",
}


def layout_words(harp: Harp, position: int, key: Key) -> str:
    """Harp, tuning, position and key: "G harp, 1st position, key of G"."""
    return f"{harp.name} harp{harp.tuned}, {position_name(position)} position, key of {key.name}"


def octave_words(octaves: int) -> str:
    """How far the music was moved: "an octave lower", "2 octaves higher"."""
    if not octaves:
        return "where it was"
    many = f"{abs(octaves)} octaves" if abs(octaves) > 1 else "an octave"
    return f"{many} {'higher' if octaves > 0 else 'lower'}"


def steps_words(half_steps: int) -> str:
    """A distance up or down: "a fourth up", "a minor third down"."""
    name = INTERVALS[abs(half_steps) % _OCTAVE]
    article = "an" if name[0] in "aeiou" else "a"
    return f"{article} {name} {'up' if half_steps > 0 else 'down'}"


def place_words(bar: int, onset: Fraction, meter: Meter) -> str:
    """A place in a lick: "bar 2, beat 3 1/2"; a pick-up has no bar."""
    beat = f"beat {mixed(onset / meter.beat + 1)}"
    return f"bar {bar}, {beat}" if bar else f"pick-up, {beat}"


def retab_report(
    done: Retabbed, meter: Meter, others: Sequence[Layout], doubts: Sequence[Doubt]
) -> Iterator[str]:
    """The report on the new layout, line by line."""
    yield layout_words(done.harp, done.position, done.key)
    if done.half_steps:
        yield f"the key goes from {done.old_key.name} to {done.key.name}: " + (
            f"everything is {steps_words(done.half_steps)}, "
            f"then {octave_words(done.arranged.octaves)}"
        )
    else:
        yield f"the key stays {done.key.name}; everything sounds " + octave_words(
            done.arranged.octaves
        )
    yield from _lick_lines(done, meter)
    if done.arranged.missing:
        yield from _elsewhere(others)
    for each in doubts:
        yield f"{each.place}: {each.why}; read it again: {each.text}"


def _lick_lines(done: Retabbed, meter: Meter) -> Iterator[str]:
    for name, laid in done.laid.items():
        for missing in missing_notes(laid, done.harp):
            place = place_words(missing.bar, missing.onset, meter)
            yield f"{name}, {place}: " + missing_words(missing, done.key)
        reported: set[tuple[int, ...]] = set()
        for index in laid.replaced:
            sound, choice = laid.line[index], laid.choices[index]
            if sound.midi not in reported:
                reported.add(sound.midi)
                place = place_words(sound.bar, sound.onset, meter)
                yield f"{name}, {place}: " + replaced_words(sound.midi, choice, done.key)


def missing_words(missing: Missing, key: Key) -> str:
    """A note that the harp does not have, and what replaces it."""
    stand_in = missing.stand_in
    sounding = key.spell_octave(stand_in.midi[0])
    words = [f"{key.spell_octave(missing.midi)} is not on this harp; {stand_in.tab} ({sounding})"]
    words[0] += " replaces it"
    if missing.overbend:
        words.append(f"with --overbends it is {missing.overbend}")
    if missing.octave:
        octaves, tab = missing.octave
        words.append(f"{octave_words(octaves)} it would be {tab}")
    return "; ".join(words)


def replaced_words(midi: Sequence[int], choice: Choice, key: Key) -> str:
    """A chord that the harp does not have, and what replaces it."""
    asked = " ".join(map(key.spell_octave, midi))
    moves = {new - old for old, new in zip(midi, choice.midi, strict=False)}
    whole = choice.kept is Kept.VOICING and len(moves) == 1 and len(midi) == len(choice.midi)
    kept = octave_words(moves.pop() // _OCTAVE) if whole else _KEPT[choice.kept]
    return f"the chord {asked} becomes {choice.tab}, {kept}"


def _elsewhere(others: Sequence[Layout]) -> Iterator[str]:
    if not others:
        yield "no other harp has all the notes"
        return
    named = [
        f"{layout.harp.name} harp, {position_name(layout.position)} position"
        for layout in others[:_MOST_LAYOUTS]
    ]
    yield "all the notes can be played on: " + "; ".join(named)
