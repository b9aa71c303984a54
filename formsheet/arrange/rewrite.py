"""Rewrite the text of a lesson with new tab; everything else stays as written."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence

from formsheet.arrange.doubts import HOLES_CHANGED, Doubt, doubt
from formsheet.arrange.edits import Edit, edited
from formsheet.arrange.fallbacks import Kept
from formsheet.arrange.retab import Retabbed
from formsheet.language import tree as t
from formsheet.language.lines import without_comment
from formsheet.language.recovery import Unread
from formsheet.lesson.writing import lick_text
from formsheet.music.key import position_name
from formsheet.source import Source, Span

#: Comment after a text that may no longer be true, followed by the reason.
_READ_AGAIN = "# read again: "
_LICK_LINES = ("lick", "turnaround")
_MOVED = "# Moved from "
_OLD_COMMENTS = "; comments below may speak of that."


def rewritten(
    tree: t.FileTree, done: Retabbed, rhythms: Mapping[str, Sequence[t.AnyMark] | Unread]
) -> str:
    """The text of a lesson or shelf with the new tab.

    Licks and rhythms from shelves are written out before the first play line, since the shelf is
    for another position.
    """
    own = {block.name.text for block in tree.licks}
    taken = [name for name in done.licks if name not in own]
    edits = [*_facts(tree, done), *_without_uses(tree), *_doubts(tree, done)]
    for name in (name for name in done.licks if name in own):
        edits += _notes(done, name)
    blocks = [
        _rhythm_text(name, marks)
        for name, marks in rhythms.items()
        if not isinstance(marks, Unread)
    ]
    blocks += [doubted(lick_text(done.lick(name)).strip("\n"), done) for name in taken]
    if blocks:
        edits.append(_before_play(tree, "\n\n".join(blocks)))
    return edited(tree.source.text, edits)


def doubts(tree: t.FileTree, done: Retabbed) -> Iterator[Doubt]:
    """Texts for the student that may not be true of the new tab."""
    for word, licks in _said(tree, done):
        if why := doubt(word.text, done, licks):
            yield Doubt(f"line {word.span.line}", word.text, why)
    own = {block.name.text for block in tree.licks}
    yield from tips_to_doubt(done, [name for name in done.licks if name not in own])


def tips_to_doubt(done: Retabbed, licks: Sequence[str]) -> Iterator[Doubt]:
    """Tips of these licks that may not be true of the new tab."""
    for name in licks:
        for tip in done.licks[name].tips:
            if why := doubt(tip, done, [name]):
                yield Doubt(f"a tip of {name}", tip, why)


def _doubts(tree: t.FileTree, done: Retabbed) -> Iterator[Edit]:
    """Comments in the file after texts that may no longer be true."""
    text = tree.source.text
    for word, licks in _said(tree, done):
        if why := doubt(word.text, done, licks):
            rest = text[word.span.end : _line_end(tree.source, word.span.end)].rstrip("\n")
            kept = rest.partition(_READ_AGAIN)[0].rstrip()
            again = HOLES_CHANGED if _READ_AGAIN in rest else why  # the old reason may not hold
            yield Edit(word.span.end, word.span.end + len(rest), f"{kept}  {_READ_AGAIN}{again}")
    if "#" in text and not text.startswith(_MOVED):
        lines = {fact.keyword.text: fact for fact in tree.facts}
        old = [f"{word} {lines[word].value.text}" for word in ("harp", "position") if word in lines]
        yield Edit(0, 0, f"{_MOVED}{', '.join(old) or 'position 2nd'}{_OLD_COMMENTS}\n\n")


def _said(tree: t.FileTree, done: Retabbed) -> Iterator[tuple[t.Word, Sequence[str]]]:
    """The texts of a file for the student, each with the names of the licks that it is about."""
    for fact in tree.facts:
        if fact.keyword.text == "say":
            yield fact.words[0], [*done.licks]
    for lick in tree.licks:
        if lick.name.text in done.licks:
            for tip in lick.tips:
                yield tip.text, [lick.name.text]


def doubted(text: str, done: Retabbed) -> str:
    """The text of licks, with a comment after tips that may not be true of the new tab."""
    lines, lick = [], ""
    for line in text.splitlines():
        first, _, rest = line.strip().partition(" ")
        if first in _LICK_LINES:
            lick = rest.split(maxsplit=1)[0]
        why = doubt(rest, done, [lick]) if first == "tip" else ""
        lines.append(f"{line}  {_READ_AGAIN}{why}" if why else line)
    return "\n".join(lines)


# ---- Facts ---------------------------------------------------------------------------------


def _facts(tree: t.FileTree, done: Retabbed) -> Iterator[Edit]:
    """Edits of harp, position and tuning; a missing line is added below the harp."""
    wanted = {"harp": done.harp.name, "position": position_name(done.position)}
    lines = {fact.keyword.text: fact for fact in tree.facts}
    missing = []
    for keyword, text in wanted.items():
        if keyword in lines:
            span = lines[keyword].value
            yield Edit(span.start, span.end, text)
        elif keyword == "position":
            missing.append(f"{keyword} {text}")
    tuning = done.harp.tuning.name
    if tree.tunings and tree.tunings[0].line.name.text.casefold() != tuning:
        block = tree.tunings[0]
        span = block.line.name.span
        yield Edit(span.start, span.end, tuning)
        for reed in block.reeds:
            yield _whole_line(reed.keyword.span)
    elif not tree.tunings and done.harp.other_tuning:
        missing.append(f"tuning {tuning}")
    if missing:
        below = lines["harp"].value if "harp" in lines else None
        at = _line_end(tree.source, below.end) if below else 0
        yield Edit(at, at, "".join(f"{line}\n" for line in missing))


# ---- Licks ---------------------------------------------------------------------------------


def _notes(done: Retabbed, name: str) -> Iterator[Edit]:
    """Edits with the new tab of each note, and a comment after a line with missing notes."""
    choices, lick = done.choices(name), done.licks[name]
    asked = {sound.mark: sound.midi[-1] for sound in done.laid[name].line}
    lacking: dict[int, list[str]] = {}
    for mark in [*lick.pickup, *(mark for bar in lick.bars for mark in bar)]:
        if mark.tab is None:
            continue
        choice = choices[mark.span.place]
        start = mark.span.start
        yield Edit(start, start + len(_tab_as_written(mark.span)), str(choice.tab))
        if choice.kept is Kept.STAND_IN:
            words = f"{choice.tab} for {done.key.spell_octave(asked[mark.span.place])}"
            line = lacking.setdefault(_line_end(mark.span.source, mark.span.end), [])
            if words not in line:
                line.append(words)
    source = lick.span.source
    for end, words_of_line in lacking.items():
        at = len(source.text[:end].rstrip())
        written = source.text[source.text.rfind("\n", 0, at) + 1 : at]
        commented = without_comment(written) != written
        remark = "not on this harp: " + ", ".join(words_of_line)
        yield Edit(at, at, f"{'; ' if commented else '  # '}{remark}")


_TAB = re.compile(r"\d+o?[bd]['’′]*")


def _tab_as_written(span: Span) -> str:
    found = _TAB.match(span.source.text, span.start)
    assert found, span.text
    return found[0]


def _rhythm_text(name: str, marks: Sequence[t.AnyMark]) -> str:
    return f"rhythm {name}  {' '.join(mark.text for mark in marks if isinstance(mark, t.Mark))}"


def _without_uses(tree: t.FileTree) -> Iterator[Edit]:
    return (_whole_line(use.keyword.span) for use in tree.uses)


def _before_play(tree: t.FileTree, block: str) -> Edit:
    """Insert blocks before the first play line and its comments, or at the end."""
    source = tree.source
    if not tree.plays:
        return Edit(len(source.text), len(source.text), f"\n{block}\n")
    at = _line_start(source, tree.plays[0].line.keyword.span.start)
    while at and source.text[_line_start(source, at - 1) :].lstrip(" \t").startswith("#"):
        at = _line_start(source, at - 1)
    return Edit(at, at, f"{block}\n\n")


# ---- Lines ---------------------------------------------------------------------------------


def _line_start(source: Source, at: int) -> int:
    return source.text.rfind("\n", 0, at) + 1


def _line_end(source: Source, at: int) -> int:
    """The offset after the line break of the line at an offset."""
    found = source.text.find("\n", at)
    return len(source.text) if found < 0 else found + 1


def _whole_line(span: Span) -> Edit:
    """Remove the line of a span, and a blank line after it if there is one before it too."""
    source = span.source
    start, end = _line_start(source, span.start), _line_end(source, span.end)
    blank_before = start == 0 or source.text[:start].endswith("\n\n")
    if blank_before and source.text[end : end + 1] == "\n":
        end += 1
    return Edit(start, end, "")
