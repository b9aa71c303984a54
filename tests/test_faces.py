"""The sheet's typeface: its list of characters, its licence and the script that makes it."""

from __future__ import annotations

import runpy
import sys
from io import BytesIO, StringIO
from pathlib import Path
from unicodedata import category

import pytest
from fontTools.ttLib import TTFont

from formsheet.faces import in_face, missing
from formsheet.sheet.draw.typeface import FACE_FILES, FONTS


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


@pytest.mark.parametrize("path", sorted(FONTS.glob("*.ttf")), ids=lambda path: path.stem)
def test_each_face_carries_its_licence_and_may_be_embedded(path: Path) -> None:
    """OpenType 1.9: name IDs 0, 13 and 14; fsType 0 is installable embedding, no restriction."""
    with TTFont(path) as face:
        names = {entry.nameID: entry.toUnicode() for entry in face["name"].names}
        assert face["OS/2"].fsType == 0
    assert names[0].startswith("Copyright 20")
    assert "licensed under the SIL Open Font License, Version 1.1" in names[13]
    assert names[14] == "https://openfontlicense.org"


def test_these_are_all_the_faces() -> None:
    assert {path.name for path in FONTS.glob("*.ttf")} == set(FACE_FILES.values())


def test_the_script_makes_the_signs_as_they_are() -> None:
    """The other faces need the upstream files, which are not in this repository."""
    made = runpy.run_path(str(FONTS / "make_faces.py"))["signs"]()
    data = BytesIO()
    made.save(data)
    data.seek(0)
    assert tables(TTFont(data)) == tables(TTFont(FONTS / FACE_FILES["signs"]))


def tables(face: TTFont) -> str:
    """All that a face says but its dates and check sums."""
    out = StringIO()
    face.saveXML(out, skipTables=["head"], writeVersion=False)
    return out.getvalue()
