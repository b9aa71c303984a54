"""A known lick in a recording: when each note sounds, and what differs."""

from __future__ import annotations

import pytest

from formsheet.hearing.alignment import Alignment, Expected, Kind, align
from formsheet.sound.samples import RATE
from tests.hearing.made_licks import harp_of, tab_of
from tests.hearing.sounded import PORCH, recording

TEMPO = 96
BEFORE = 0.25 + 4 * 60 / TEMPO  # seconds to the first bar line


def written(*changes: tuple[int, str | None]) -> list[Expected]:
    """The lick, with another tab at a place, or without that note."""
    tabs: list[str | None] = [tab for tab, _, _ in PORCH]
    for at, tab in changes:
        tabs[at] = tab
    beat = 60 / TEMPO
    return [
        Expected(tab_of(tab), start * beat, (start + length) * beat)
        for tab, (_, start, length) in zip(tabs, PORCH, strict=True)
        if tab
    ]


def held(notes: list[Expected], tempo: float = TEMPO) -> Alignment:
    return align(recording(tempo=tempo), RATE, harp_of("A"), notes, tempo=TEMPO)


def test_a_right_lick() -> None:
    """12 ms in the middle and 40 ms for 95 in a hundred: the acceptance of issue 17."""
    found = held(written())
    assert not [each for each in found.differences if each.sure]
    off = sorted(
        abs(note.start - BEFORE - start * 60 / TEMPO)
        for note, (_, start, _) in zip(found.notes, PORCH, strict=True)
    )
    assert off[len(off) // 2] < 0.012
    assert off[-1] < 0.04


def test_bends_have_their_cents() -> None:
    found = held(written())
    bend = found.notes[1]
    assert bend.cents == pytest.approx(0, abs=8)


def test_a_slower_take() -> None:
    found = held(written(), tempo=72)
    assert found.stretch == pytest.approx(96 / 72, rel=0.01)
    assert all(note.heard for note in found.notes)
    assert not [each for each in found.differences if each.sure]


def test_another_note_is_played() -> None:
    found = held(written((1, "5d")))
    sure = [each for each in found.differences if each.sure]
    assert [(each.kind, each.written) for each in sure] == [(Kind.OTHER, 1)]
    assert sure[0].heard is not None
    assert [str(tab) for tab in sure[0].heard.action.tabs] == ["3d'"]


def test_a_note_is_played_that_is_not_written() -> None:
    found = held(written((3, None)))
    sure = [each for each in found.differences if each.sure]
    assert [each.kind for each in sure] == [Kind.EXTRA]


def test_a_note_is_written_that_is_not_played() -> None:
    notes = written()
    last = notes[-1]
    notes[-1] = last._replace(end=last.start + 0.6)
    notes.append(Expected(tab_of("5d"), last.start + 0.6, last.start + 1.2))
    found = held(notes)
    sure = [each for each in found.differences if each.sure]
    assert [(each.kind, each.written) for each in sure] == [(Kind.LEFT_OUT, 8)]


def test_a_repeat_is_perhaps() -> None:
    notes = written()
    first = notes[0]
    middle = (first.start + first.end) / 2
    notes[:1] = [first._replace(end=middle), first._replace(start=middle)]
    found = held(notes)
    assert [(each.kind, each.sure) for each in found.differences] == [(Kind.HELD, False)]


def test_an_octave_is_perhaps() -> None:
    found = held(written((3, "7b")))
    assert [(each.kind, each.sure) for each in found.differences] == [(Kind.OCTAVE, False)]


def test_nothing_is_written_or_played() -> None:
    assert held([]).notes == ()
