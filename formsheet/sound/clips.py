"""The sound clips of a lesson, each as MP3 (or WAV) and as MIDI."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import TYPE_CHECKING

from formsheet.file_names import file_names
from formsheet.judge.joins import find_moves
from formsheet.judge.ladder import own_ladder, tune_ladder
from formsheet.judge.practice import lick_ladder
from formsheet.lesson.model import Facts
from formsheet.sound.balance import band_gain
from formsheet.sound.band_choruses import with_choruses
from formsheet.sound.events import Voice
from formsheet.sound.excerpts import Excerpt, lick_excerpts, move_excerpts, tune_excerpt
from formsheet.sound.midi import midi_bytes
from formsheet.sound.mix import mastered, samples_of
from formsheet.sound.mp3 import mp3_bytes
from formsheet.sound.takes import BAND, GUIDE, Take, take
from formsheet.sound.wav import ALBUM, ARTIST, DATE, RIGHTS, SOFTWARE, TITLE, wav_bytes
from formsheet.tune.timeline import Tune

if TYPE_CHECKING:
    from formsheet.sound.samples import Samples

LICK_TIMES = 2  # repeats of a lick
JOIN_TIMES = 4  # rounds of a join or a move
BAND_CHORUSES = 3  # of the band alone, at least


@dataclass(frozen=True)
class Clip:
    """A clip before synthesis."""

    name: str  # of its files, without suffix
    words: str  # for its title
    taken: Take
    tempo: Fraction  # beats of the meter a minute
    band: float = 1.0  # gain of the band


def clips_of(tune: Tune) -> tuple[Clip, ...]:
    """All clips of a tune: band, hard moves and joins, licks, the whole tune; names are unique."""
    clips = list(_clips(tune))
    names = file_names(clip.name for clip in clips)
    return tuple(replace(clip, name=name) for clip, name in zip(clips, names, strict=True))


def _clips(tune: Tune) -> Iterator[Clip]:
    facts = tune.lesson.facts
    moves = find_moves(tune)
    whole = tune_excerpt(tune)
    start = tune_ladder(moves, facts)[0]
    alone = tune_excerpt(with_choruses(tune, BAND_CHORUSES))
    for speed, tempo in _speeds(start, facts.tempo).items():
        taken = _taken(alone, facts, voices=BAND)
        yield Clip(f"band-alone-{speed}", "the band alone", taken, tempo)
    for number, (move, excerpt) in enumerate(move_excerpts(tune, moves), start=1):
        kind = "join" if move.joins else "move"
        name, taken = f"{kind}-{number}-{excerpt.name}", _taken(excerpt, facts, JOIN_TIMES)
        yield Clip(name, excerpt.title, taken, own_ladder([move], facts)[0])
    for excerpt in lick_excerpts(tune):
        taken = _taken(excerpt, facts, LICK_TIMES)
        own = lick_ladder(tune, moves, excerpt.name)[0]
        slow = own if own < facts.tempo else start
        for speed, tempo in _speeds(slow, facts.tempo).items():
            yield Clip(f"lick-{excerpt.name}-{speed}", excerpt.title, taken, tempo)
    for speed, tempo in _speeds(start, facts.tempo).items():
        yield Clip(f"tune-{speed}", "the whole tune", _taken(whole, facts), tempo)
    both = _taken(whole, facts, voices=(*GUIDE, *BAND))
    words = "the whole tune with the band"
    yield Clip("tune-with-band", words, both, facts.tempo, band_gain(tune))


def _speeds(slow: Fraction, full: Fraction) -> dict[str, Fraction]:
    """Slow and full tempo; only full if the student starts at the tune's own tempo."""
    return {"slow": slow, "full": full} if slow < full else {"full": full}


def _taken(
    excerpt: Excerpt, facts: Facts, times: int = 1, voices: tuple[Voice, ...] = GUIDE
) -> Take:
    """A take, always with a count-in: a student who plays along needs the tempo first."""
    count_in = max(1, facts.count_in)
    return take(excerpt, facts.meter, voices=voices, times=times, count_in=count_in)


def clip_samples(clip: Clip) -> Samples:
    """The sound of a clip, from -1 to 1."""
    return mastered(samples_of(clip.taken, float(clip.tempo), band=clip.band))


def clip_sound(clip: Clip, tune: Tune, *, wav: bool = False) -> bytes:
    """The file to be heard: MP3, or WAV."""
    tags = _tags(_title(clip, tune), tune.lesson.facts)
    return (wav_bytes if wav else mp3_bytes)(clip_samples(clip), tags)


def clip_midi(clip: Clip, tune: Tune) -> bytes:
    """The MIDI file."""
    return midi_bytes(clip.taken, tune.lesson, float(clip.tempo), _title(clip, tune))


def contents(clip: Clip, tune: Tune) -> str:
    """All that the file to be heard is made from, as text: what sounds, and what its tags say.

    Not where in the tune it comes from: a lick that has moved sounds the same.
    """
    sounding = [
        (
            each.voice, round(each.start, 6), round(each.length, 6), each.midi, each.loudness,
            each.technique, each.neighbour, each.draw, each.slide,
        )
        for each in clip.taken.events
    ]  # fmt: skip
    tags = _tags(_title(clip, tune), tune.lesson.facts)
    return repr((sounding, clip.taken.beats, clip.tempo, round(clip.band, 6), tags))


def _title(clip: Clip, tune: Tune) -> str:
    """The title of a clip: `Back Step Shuffle: On the porch (60 beats a minute)`."""
    return f"{tune.lesson.facts.title}: {clip.words} ({float(clip.tempo):g} beats a minute)"


def _tags(title: str, facts: Facts) -> dict[str, str]:
    return {
        TITLE: title,
        ALBUM: facts.title,
        ARTIST: facts.teacher,
        RIGHTS: facts.rights,
        DATE: facts.date,
        SOFTWARE: "formsheet",
    }
