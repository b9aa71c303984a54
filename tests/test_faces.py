"""The list of characters that the sheet's typeface has, held against its files."""

from __future__ import annotations

import sys
from unicodedata import category

from fontTools.ttLib import TTFont

from formsheet.faces import in_face, missing
from formsheet.pack.draw.typeface import FACE_FILES, FONTS


def characters(face: str) -> set[str]:
    with TTFont(FONTS / FACE_FILES[face]) as font:
        return set(map(chr, font.getBestCmap()))


def test_the_list_is_what_all_faces_have() -> None:
    faces = [characters(face) for face in ("regular", "bold", "italic")]
    have = set.intersection(*faces) | characters("signs")
    listed = {
        chr(code)
        for code in range(sys.maxunicode + 1)
        if category(chr(code))[0] not in "CZ" and in_face(chr(code))
    }
    assert listed == {c for c in have if category(c)[0] not in "CZ"}


def test_missing_characters_are_told_once_in_order() -> None:
    assert missing("Mill – Zoë’s ♭7") == ""
    assert missing("水車 и 水") == "水車и"
