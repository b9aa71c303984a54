"""Samples of a problem, completed from a few lines to a whole lesson.

A piece of a lesson is cut into blocks: a line at the margin and the indented lines below it.
A block takes the place of the frame's block that begins with the same word (of a lick or a rhythm:
that has the same name). A line of `play` (`bar 9 gate`) goes to the end of the frame's `play`. Any
other block goes after the block before it in the piece; the first goes after the frame's facts.
"""

from __future__ import annotations

from inspect import cleandoc
from typing import Any, NamedTuple

from formsheet.problems.problem import Problem, Sample

#: A lesson about which there is nothing to say.
_FRAME = """
    title     Kitchen Shuffle
    harp      C
    position  2nd
    form      12-bar standard
    tempo     100

    lick porch on I
      q 2d 3d 4d 2d
    lick creek on IV
      q 4b 5b 6b -
    lick gate on V
      q 4d 5d 4d -

    play
      every I   porch
      every IV  creek
      every V   gate
    """
_LAST_FACT = "tempo"
_NAMED = ("lick", "turnaround", "rhythm")  # words that begin a block with a name
_PLACING = ("every", "bar", "bars", "last")  # words that begin a line of `play`
_LESSON_SUFFIX = ".lesson"


class _Block(NamedTuple):
    """A line at the margin with the indented lines below it."""

    key: str
    text: str


def bad_and_good(kind: type[Problem]) -> tuple[Sample, Sample]:
    """The samples of a kind."""
    own: Any = kind  # in the base class they are properties, in a kind they are values
    return as_sample(own.bad), as_sample(own.good)


def as_sample(sample: str | Sample) -> Sample:
    """A sample with its text at the margin, whether given as a piece of a lesson or as files."""
    if isinstance(sample, str):
        sample = Sample(sample)
    if isinstance(sample.text, str):
        return sample._replace(text=cleandoc(sample.text))
    return sample


def files_of(sample: Sample) -> dict[str, bytes]:
    """The files of a sample by name, its lesson completed; without one that it says is missing."""
    files = {name: text.encode() for name, text in sample.beside}
    if isinstance(sample.text, str):
        is_piece = sample.name.endswith(_LESSON_SUFFIX)
        text = completed(sample.text, sample.without) if is_piece else sample.text
        files[sample.name] = text.encode()
    elif sample.text is not None:
        files[sample.name] = sample.text
    return files


def completed(piece: str, without: tuple[str, ...] = ()) -> str:
    """A piece of a lesson as a whole lesson, without the frame's blocks of these keys."""
    lesson = [block for block in _blocks(cleandoc(_FRAME)) if block.key not in without]
    keys = [block.key for block in lesson]
    own = {block.key for block in _blocks(piece)} & set(keys)
    after = keys.index(_LAST_FACT) if _LAST_FACT in keys else 0
    at: int = after
    replaced: set[str] = set()
    for block in _blocks(piece):
        if block.key in _PLACING and "play" in keys:
            last = lesson[-1]
            lesson[-1] = last._replace(text=f"{last.text}\n  {block.text}")
            continue
        if block.key in own and block.key not in replaced:
            replaced.add(block.key)
            at = next(n for n, each in enumerate(lesson) if each.key == block.key)
            lesson[at] = block
        else:
            at += 1
            lesson.insert(at, block)
    return "".join(f"{block.text}\n" for block in lesson)


def _blocks(text: str) -> list[_Block]:
    blocks: list[_Block] = []
    for line in text.rstrip().split("\n"):
        if blocks and (not line or line[0].isspace()):
            last = blocks[-1]
            blocks[-1] = last._replace(text=f"{last.text}\n{line}")
        else:
            words = line.split()
            named = words[:1] and words[0] in _NAMED
            blocks.append(_Block(" ".join(words[: 2 if named else 1]), line))
    return blocks
