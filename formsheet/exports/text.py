"""`tab.txt`: the tune as plain text, bar by bar, for a message or a video description."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator

from formsheet.exports.columns import columns, rows
from formsheet.exports.text_key import key_lines
from formsheet.judge.practice import practice_of
from formsheet.judge.practice_words import slow_words
from formsheet.lesson.fact_words import feel_words, tempo_words
from formsheet.listing import bars_words
from formsheet.music.counting import count_words
from formsheet.music.key import position_name
from formsheet.tune.lick_letters import LickLetters
from formsheet.tune.passes import Printed, note_of, printed_choruses, title_of
from formsheet.tune.swing_times import feel_changes
from formsheet.tune.timeline import Bar, Tune, goes_on

WIDTH = 64  # cells: fits an upright phone in small type, and any mail program
_INDENT = "  "


def text_tab(tune: Tune) -> str:
    """The whole text; lines end in a line feed."""
    letters = LickLetters(tune)
    parts = (
        _head(tune),
        _says(tune),
        [_heading("How to read it"), *key_lines(tune, WIDTH)],
        *_choruses(tune, letters),
        _licks(tune, letters),
        _foot(tune),
    )
    return "\n\n".join("\n".join(part) for part in parts if part) + "\n"


def _head(tune: Tune) -> list[str]:
    lesson, facts = tune.lesson, tune.lesson.facts
    practice = practice_of(tune)
    start = f"{float(practice.ladder[0]):g}"
    return [
        *_wrapped(facts.title),
        f"Harp: {facts.harp.name}{facts.harp.tuned}, {position_name(facts.position)} position",
        f"Song key: {lesson.key.name}",
        *_wrapped(f"Form: {lesson.form.full_name}, {facts.meter.text}"),
        f"Tempo: {tempo_words(facts.tempo, facts.meter)}, start at {start}",
        *_wrapped(slow_words(practice).replace("`", "")),
        *_wrapped(feel_words(facts.feel, facts.meter)),
    ]


def _says(tune: Tune) -> list[str]:
    facts = tune.lesson.facts
    lines = [line for say in facts.says for line in _wrapped(say)]
    for link in facts.links:
        lines += [*_wrapped(f"{link.title}:"), link.address] if link.title else [link.address]
    return lines


def _choruses(tune: Tune, letters: LickLetters) -> Iterator[list[str]]:
    printed = printed_choruses(tune)
    alone = sum(not each.changed for each in printed) == 1
    for each, following in zip(printed, [*printed[1:], None], strict=True):
        head = _wrapped(_heading(title_of(each, alone) or "The tune"))
        note = note_of(tune, each, following)
        yield [*head, *_wrapped(note[:1].upper() + note[1:]), *_bars(tune, letters, each)]


def _bars(tune: Tune, letters: LickLetters, printed: Printed) -> Iterator[str]:
    """The bars of a chorus, with the pick-up before the first; of a last time only the changes."""
    chorus = printed.choruses[0]
    indices = [chorus.bars[at] for at in printed.changed] or list(chorus.bars)
    if chorus.number == 1 and tune.pickup:
        indices.insert(0, 0)
    for index in indices:
        yield ""
        yield from _bar(tune, letters, index)


def _bar(tune: Tune, letters: LickLetters, index: int) -> Iterator[str]:
    bar, meter = tune.bars[index], tune.lesson.facts.meter
    before = tune.bars[index - 1].marks if index else ()
    notes = [
        f"{'swing' if feel.swings else 'straight'} from {count_words(at, meter)}"
        for at, feel in feel_changes(bar.marks, before, tune.lesson.facts)
    ]
    pickup = next((played for played in bar.marks if played.pickup), None)
    if pickup and bar.number:
        notes.append(f"pick-up from {count_words(pickup.onset, meter)}")
    yield from _wrapped("; ".join([_bar_head(tune, letters, index), *notes]))
    first_beat = int(pickup.onset / meter.beat) if pickup and not bar.number else 0
    for row in rows(columns(bar.marks, meter, first_beat), WIDTH - len(_INDENT)):
        yield _INDENT + row


def _bar_head(tune: Tune, letters: LickLetters, index: int) -> str:
    """The head of a bar; its lick has a title the first time, afterwards only its letter."""
    bar = tune.bars[index]
    slot = bar.slot
    if not bar.number:
        return "Pick-up, before bar 1"
    lick = letters.of(bar.lick) or "rest"
    if bar.lick and letters.first_time(index):
        lick = letters.titled(bar.lick)
    rounds = f", {slot.round} of {slot.rounds}" if bar.lick and slot.rounds > 1 else ""
    on = ""
    if slot.bar_in_lick:
        whole = goes_on(tune.bars[index - 1], bar)
        on = " (goes on)" if whole else f" (from its bar {slot.bar_in_lick + 1})"
    return f"Bar {bar.number}, {_chords(tune, bar)}: {lick}{rounds}{on}"


def _chords(tune: Tune, bar: Bar) -> str:
    """The chords of a bar, later ones with their count: "I7 (G7), on 3 IV7 (C7)"."""
    tonic, meter = tune.lesson.key.tonic, tune.lesson.facts.meter
    return ", ".join(
        f"{f'on {count_words(at, meter)} ' if at else ''}{chord} ({chord.name(tonic)})"
        for at, chord in bar.chords
    )


def _licks(tune: Tune, letters: LickLetters) -> list[str]:
    """Each played lick with its letter, its bars and its tips."""
    played: dict[str, list[Bar]] = {}
    for bar in tune.bars:
        if bar.lick:
            played.setdefault(bar.lick.name, []).append(bar)
    lines = [_heading("The licks")] if played else []
    tips_before = True  # a line of space before the first lick, and around tips
    for bars in played.values():
        lick = bars[0].lick
        assert lick
        numbers = sorted({bar.number for bar in bars})
        if tips_before or lick.tips:
            lines.append("")
        tips_before = bool(lick.tips)
        lines += _wrapped(f"{letters.titled(lick)}: {bars_words(numbers)}")
        lines += [line for tip in lick.tips for line in _wrapped(tip, _INDENT)]
    return lines


def _foot(tune: Tune) -> list[str]:
    facts = tune.lesson.facts
    return [
        line
        for text in (facts.teacher, facts.rights, facts.date)
        if text
        for line in _wrapped(text)
    ]


def _heading(text: str) -> str:
    return f"--- {text} ---"


def _wrapped(text: str, indent: str = "") -> list[str]:
    return textwrap.wrap(
        text, WIDTH, initial_indent=indent, subsequent_indent=indent,
        break_long_words=False, break_on_hyphens=False,
    )  # fmt: skip
