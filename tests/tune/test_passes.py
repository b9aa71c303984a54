"""Which choruses are printed: a last time by its changed bars alone, or whole."""

from __future__ import annotations

import pytest

from formsheet.tune.passes import printed_choruses
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
