"""Words in quotes: the double quotes of any language. A single curly quote is always a tick.

The grammar has two pairs, "..." and “...”. Others are replaced by the first for the parser, in a
text of the same length (`plain_quotes`); the words themselves are taken from the file.
"""

from __future__ import annotations

from bisect import bisect_right

#: Every double quote, at either end.
DOUBLE = '"“”„‟«»＂〝〞〟❝❞'

#: The closing quotes of each opening one, in any language.
_CLOSING = {'"': '"', "“": "”", "”": "”", "„": "“”", "‟": "”", "«": "»", "»": "«", "＂": "＂",
            "〝": "〞〟", "❝": "❞"}  # fmt: skip
_FREE = '"“'  # may open anywhere, if a matching quote follows
_POINTED = "«»"  # a space inside is part of them (French)
_NOTE_ENDS = "bd'’′!}"  # characters that a syllable may follow
_DOUBLE = frozenset(DOUBLE)
_OTHER = frozenset(DOUBLE) - {'"'}


def quoted_parts(line: str) -> list[tuple[int, int]]:
    """The quoted parts of a line, from left to right, quotes included.

    "..." and “...” end at the matching quote, whatever is between. Any other ends there if the
    quotes between are pairs; else at the next quote of any kind, if the number of quotes from
    here on is even; else at the first that could close it.
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
    """The quote of a line that closes the one of this index; None if that does not open anything.

    It is not the last quote. `begins`: quoted words may begin at its place.
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
    """Whether the quotes from `first` up to but not including `end` are consecutive pairs."""
    return (end - first) % 2 == 0 and all(
        kinds[at + 1] in _CLOSING.get(kinds[at], "") for at in range(first, end, 2)
    )


def _begins(line: str, at: int) -> bool:
    """Whether quoted words may begin at a place: not in `3d” 4d` or `6” long`."""
    begins = at == 0 or line[at - 1].isspace() or line[at - 1] in _NOTE_ENDS
    return begins and (line[at] in _POINTED or not line[at + 1 : at + 2].isspace())


def is_quoted(text: str) -> bool:
    """Whether a whole text is one quoted part."""
    return text[:1] in _DOUBLE and quoted_parts(text)[:1] == [(0, len(text))]


def unquoted(quoted: str) -> str:
    """The text between the quotes at both ends."""
    text = quoted[1:-1]
    return text.strip() if quoted[0] in _POINTED or quoted[-1] in _POINTED else text


def plain_quotes(text: str) -> str:
    """A text of the same length with all quotes replaced by those of the grammar."""
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
