"""Takes: an excerpt with its count-in, played a number of times, as one list of events."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from dataclasses import dataclass, replace

from formsheet.music.rhythm import Meter
from formsheet.sound.count_in import bars_before, click_events
from formsheet.sound.events import Event, Voice
from formsheet.sound.excerpts import Excerpt

GUIDE: tuple[Voice, ...] = ("guide",)
BAND: tuple[Voice, ...] = ("bass", "chord", "drum")


@dataclass(frozen=True)
class Take:
    """Events in order of time, from beat 0 to beat `beats`."""

    events: tuple[Event, ...]
    beats: float


def take(
    excerpt: Excerpt,
    meter: Meter,
    *,
    voices: Collection[Voice] = GUIDE,
    times: int = 1,
    count_in: int = 1,
) -> Take:
    """An excerpt with `count_in` bars of clicks, a pick-up within them, played `times` times.

    The clicks are included whatever `voices` are chosen. A pick-up that is played once sounds only
    in the first round.
    """
    pickup = excerpt.pickup if "guide" in voices else 0.0
    bars = bars_before(meter, count_in, pickup)
    before = float(bars * meter.beats)
    events = [*click_events(meter, bars), *_rounds(excerpt, voices, times, before)]
    ordered = sorted(events, key=lambda event: (event.start, event.voice, event.midi))
    return Take(tuple(ordered), before + times * excerpt.beats)


def _rounds(
    excerpt: Excerpt, voices: Collection[Voice], times: int, before: float
) -> Iterator[Event]:
    for number in range(times):
        for event in (*excerpt.guide, *excerpt.band):
            if event.voice in voices and not (event.once and number):
                yield replace(event, start=event.start + before + number * excerpt.beats)
