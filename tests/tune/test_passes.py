"""Which choruses are printed: a last time by its changed bars alone, or whole."""

from __future__ import annotations

import pytest

from formsheet.tune.passes import note_of, printed_choruses, title_of
from tests.helpers import lesson_text, tune_of


# Our own choice: one line's worth of bars.
@pytest.mark.limit("tune.passes.MOST_CHANGED")
@pytest.mark.parametrize(("bars", "changed"), [("9-12", (8, 9, 10, 11)), ("8-12", ())])
def test_a_last_time_is_printed_by_its_changed_bars(bars: str, changed: tuple[int, ...]) -> None:
    text = lesson_text(
        "lick a on I, IV, V\n  w 2d\n"
        "play x2\n  every I a\n  every IV a\n  every V a\n"
        f"  last time bars {bars} rest"
    )
    assert [each.changed for each in printed_choruses(tune_of(text))] == [(), changed]


def printed(*plays: str, alone: bool = False) -> list[tuple[str, str]]:
    """Titles and notes of the choruses that are printed."""
    tune = tune_of(lesson_text("lick a on I, IV, V\n  w 2d\n" + "\n".join(plays)))
    found = printed_choruses(tune)
    after = [*found[1:], None]
    return [
        (title_of(each, alone), note_of(tune, each, following))
        for each, following in zip(found, after, strict=True)
    ]


WHOLE = "  every I a\n  every IV a\n  every V a"


def test_titles_and_notes_of_choruses() -> None:
    assert printed(f"play\n{WHOLE}", f"play x2\n{WHOLE}", f"play x3\n{WHOLE}") == [
        ("Chorus 1", ""),
        ("Choruses 2 to 3", "play twice"),
        ("Choruses 4 to 6", "play 3 times"),
    ]


def test_the_only_chorus_needs_no_title() -> None:
    assert printed(f"play\n{WHOLE}", alone=True) == [("", "")]
    assert printed(f'play "Head"\n{WHOLE}', alone=True) == [("Head", "")]


def test_titles_of_a_last_time() -> None:
    assert printed(f"play x3\n{WHOLE}\n  last time bar 12 rest") == [
        ("Choruses 1 to 2", "play 3 times, the last time with its own bar 12"),
        ("Choruses 1 to 3, last time, bar 12", ""),
    ]
    assert printed(f"play x3\n{WHOLE}\n  last time bars 1-12 rest") == [
        ("Choruses 1 to 2", "play twice"),
        ("Chorus 3, last time", ""),
    ]


def test_a_changed_bar_is_printed_from_the_start_of_its_lick() -> None:
    text = lesson_text(
        f"lick a on I, IV, V\n  w 2d\nlick b on I | V, I\n  w 2d | w 2d\nplay x3\n{WHOLE}\n"
        "  bars 11-12 b\n  last time ending I"
    )
    assert printed_choruses(tune_of(text))[-1].changed == (10, 11)
