"""The count-in: a click on every beat, the first of each bar accented."""

from __future__ import annotations

from formsheet.music.rhythm import Meter
from formsheet.sound.events import Event

#: General MIDI percussion: high and low wood block (General MIDI 1, percussion key map).
ACCENT, CLICK = 76, 77
ACCENT_LOUDNESS, CLICK_LOUDNESS = 1.0, 0.7
CLICK_LENGTH = 0.1  # beats


def click_events(meter: Meter, bars: int, start: float = 0.0) -> tuple[Event, ...]:
    """Clicks for a number of whole bars, from `start` (in beats), which is a bar line."""
    return tuple(
        Event(
            voice="click",
            start=start + bar * meter.beats + beat,
            length=CLICK_LENGTH,
            midi=(CLICK if beat else ACCENT,),
            loudness=CLICK_LOUDNESS if beat else ACCENT_LOUDNESS,
        )
        for bar in range(bars)
        for beat in range(meter.beats)
    )


def bars_before(meter: Meter, bars: int, pickup: float) -> int:
    """The number of bars from the first click to the first bar line; `pickup` is in beats.

    The pick-up is played in the last bar of the count (common practice, no source). If it leaves
    less than half a bar to count, one more bar is counted. With a count-in of no bars, the pick-up
    still needs one bar to be played in.
    """
    if not pickup:
        return bars
    if not bars:
        return 1
    return bars if bars * meter.beats - pickup >= meter.beats / 2 else bars + 1
