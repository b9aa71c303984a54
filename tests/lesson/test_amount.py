"""How much one file may hold."""

from __future__ import annotations

import pytest

from tests.helpers import lesson_text, slugs_of


# Our own choice: 20,000 marks of a file, values counted; ten licks hold 2000 each.
@pytest.mark.limit("lesson.amount.MOST_MARKS_OF_FILE")
@pytest.mark.parametrize(("last", "too_long"), [("", False), ("lick last on I\n  1d\n", True)])
def test_most_marks_of_a_file(last: str, too_long: bool) -> None:
    licks = "".join(f"lick a{at} on I\n  [ [ s - ]x50 ]x20\n" for at in range(10))
    text = lesson_text(f"{licks}{last}play\n  bars 1-12 rest")
    assert ("file-too-long" in slugs_of(text)) is too_long
