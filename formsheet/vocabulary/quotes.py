"""Words in quotes: the double quotes of any language. A single curly quote is a tick, never one.

The grammar knows two pairs, "..." and “...”. The others are read as the first of them: the parser
is given a text of the same length in which they are written so (`plain_quotes`), while the words
themselves are taken from the file.
"""

from __future__ import annotations

from bisect import bisect_right

#: Every double quote, at either end.
DOUBLE = '"“”„‟«»＂〝〞〟❝❞'

#: What closes each, in one language or another.
_CLOSING = {'"': '"', "“": "”", "”": "”", "„": "“”", "‟": "”", "«": "»", "»": "«", "＂": "＂",
            "〝": "〞〟", "❝": "❞"}  # fmt: skip
_FREE = '"“'  # open words anywhere, where what belongs to them follows
_POINTED = "«»"  # a space inside them belongs to them (French)
_NOTE_ENDS = "bd'’′!}"  # what a syllable may follow
_DOUBLE = frozenset(DOUBLE)
_OTHER = frozenset(DOUBLE) - {'"'}


def quoted_parts(line: str) -> list[tuple[int, int]]:
    """The stretches of a line in quotes, from left to right, quotes included.

    "..." and “...” go to the quote that belongs to the first, whatever is between. Any other goes
    there if the quotes between are pairs; else to the next quote of any kind, where those behind
    are as many as close each other; else to the first that could close it.
    """
    marks = [at for at, char in enumerate(line) if char in _DOUBLE]
    places: dict[str, list[int]] = {}  # of each kind of quote, as indices of `marks`
    for index, at in enumerate(marks):
        places.setdefault(line[at], []).append(index)
    kinds = [line[at] for at in marks]
    parts: list[tuple[int, int]] = []
    index = 0
    while index < len(marks) - 1:
        last = _closing(kinds, places, index, begins=_begins(line, marks[index]))
        if last is not None:
            parts.append((marks[index], marks[last] + 1))
        index = index + 1 if last is None else last + 1
    return parts


def _closing(
    kinds: list[str], places: dict[str, list[int]], index: int, *, begins: bool
) -> int | None:
    """Which of the quotes of a line closes the one of this index; None where it opens nothing.

    There are more behind it. `begins`: it stands where words in quotes may begin.
    """
    later = [
        found[at]
        for kind in _CLOSING.get(kinds[index], "")
        if (at := bisect_right(found := places.get(kind, []), index)) < len(found)
    ]
    own = min(later, default=None)
    free = kinds[index] in _FREE
    if own is not None and (free or (begins and _pairs(kinds, index + 1, own))):
        return own
    if not begins:
        return None
    if (len(kinds) - index) % 2 == 0 or own is None:
        return index + 1
    return own


def _pairs(kinds: list[str], first: int, end: int) -> bool:
    """Whether the quotes from one to before another are pairs, one behind the other."""
    return (end - first) % 2 == 0 and all(
        kinds[at + 1] in _CLOSING.get(kinds[at], "") for at in range(first, end, 2)
    )


def _begins(line: str, at: int) -> bool:
    """Whether words may begin with the quote at a place: not so in `3d” 4d` and `6” long`."""
    begins = at == 0 or line[at - 1].isspace() or line[at - 1] in _NOTE_ENDS
    return begins and (line[at] in _POINTED or not line[at + 1 : at + 2].isspace())


def is_quoted(text: str) -> bool:
    """Whether a whole text is one stretch in quotes."""
    return text[:1] in _DOUBLE and quoted_parts(text)[:1] == [(0, len(text))]


def unquoted(quoted: str) -> str:
    """What stands between the quotes at the two ends of a text."""
    text = quoted[1:-1]
    return text.strip() if quoted[0] in _POINTED or quoted[-1] in _POINTED else text


def plain_quotes(text: str) -> str:
    """A text of the same length with all words in quotes written as the grammar has them."""
    if text.isascii() or _OTHER.isdisjoint(text):
        return text
    return "\n".join(
        line if _OTHER.isdisjoint(line) else _plain_line(line) for line in text.split("\n")
    )


def _plain_line(line: str) -> str:
    letters = list(line)
    for start, end in quoted_parts(line):
        letters[start] = letters[end - 1] = '"'
        for at in range(start + 1, end - 1):
            if letters[at] in _DOUBLE:
                letters[at] = "'"
    return "".join(letters)
