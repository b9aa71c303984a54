"""The text of the chords that a lick is written for, as after `on` in the file."""

from __future__ import annotations

from collections.abc import Sequence

from formsheet.lesson.model import AskedBar, Lick


def asked_entries(on: Sequence[AskedBar]) -> Sequence[AskedBar]:
    """An entry for each bar; a single one if all bars have the same."""
    return on[:1] if len(set(on)) == 1 else on


def asked_words(asked: AskedBar) -> str:
    """What a bar of a lick is written for: "I, IV", "I V"."""
    return " ".join(", ".join(map(str, alternatives)) for alternatives in asked)


def lick_asked_words(lick: Lick) -> str:
    """What a lick is written for: "I", "I | V", "I | V | I"."""
    return " | ".join(map(asked_words, asked_entries(lick.on)))
