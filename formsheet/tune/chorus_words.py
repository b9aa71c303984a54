"""Words for choruses, for how often they are played, and for their bars."""

from __future__ import annotations

from formsheet.listing import bars_words


def chorus_words(first: int, last: int) -> str:
    """Choruses by number: "Chorus 2", "Choruses 1 to 3"."""
    return f"Chorus {first}" if first == last else f"Choruses {first} to {last}"


def last_time_words(title: str, bars: list[int]) -> str:
    """The title of a last time; with its bars if only some are printed."""
    words = f"{title}, last time" if title else "Last time"
    return f"{words}, {bars_words(bars)}" if bars else words


def own_bars_words(times: str, bars: list[int]) -> str:
    """How often a chorus is played, if some bars of its last time differ."""
    return f"{times}, the last time with its own {bars_words(bars)}"


def times_words(times: int) -> str:
    """How often a chorus is played."""
    return "" if times == 1 else "play twice" if times == 2 else f"play {times} times"


def pickup_once_words(note: str) -> str:
    """How often a chorus is played, before which there is a pick-up that is played once."""
    return "; ".join(filter(None, [note, "pick-up only once, at the very beginning"]))


def bars_run(first: int, last: int) -> str:
    """A range of bars: "3", "1-4"."""
    return str(first) if first == last else f"{first}-{last}"


_ORDINALS = {1: "1st", 2: "2nd", 3: "3rd"}


def ordinal_times(times: int) -> str:
    """When bars are played that the last time replaces: "1st time", "1st to 3rd time"."""
    last = _ORDINALS.get(times, f"{times}th")
    if times < 3:
        return "1st time" if times == 1 else f"1st and {last} time"
    return f"1st to {last} time"


def instead_words(bars: list[int]) -> str:
    """The words over the bars of a last time that differ: counted from 1."""
    return f"Last time, instead of {bars_words(bars)}"


_TIMES = {2: "twice", 3: "three times", 4: "four times"}


def play_times_words(times: int) -> str:
    """How often the form is played, after its name: "three times"."""
    return _TIMES.get(times, f"{times} times")
