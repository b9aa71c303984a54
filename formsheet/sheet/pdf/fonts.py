"""The sheet's typefaces as PDF fonts for the drawings (ISO 32000-1, 9.7: composite fonts)."""

from __future__ import annotations

import zlib
from collections.abc import Mapping
from functools import cache

from pydyf import PDF, Array, Dictionary, Object, Stream, String

from formsheet.sheet.draw.typeface import typeface
from formsheet.sheet.pdf.content import glyph_id

NAMES = {
    "regular": "Lesson-Sans",
    "bold": "Lesson-Sans-Bold",
    "italic": "Lesson-Sans-Italic",
    "signs": "Lesson-Signs",
}
_SYMBOLIC, _ITALIC = 1 << 2, 1 << 6  # flags of a font (table 123)
_STEM = 80  # thousandths of an em, approximate; used only if a viewer substitutes the font
_CMAP = """\
/CIDInit /ProcSet findresource begin
12 dict begin
begincmap
/CIDSystemInfo << /Registry (Adobe) /Ordering (UCS) /Supplement 0 >> def
/CMapName /Adobe-Identity-UCS def
/CMapType 2 def
1 begincodespacerange
<0000> <ffff>
endcodespacerange
{maps}
endcmap
CMapName currentdict /CMap defineresource pop
end
end"""
_MAPS = 100  # most entries in one list of a CMap


def add_font(pdf: PDF, face: str, characters: set[str]) -> bytes:
    """Embed a face in a PDF for these characters; returns its reference."""
    glyphs = {glyph_id(character, face): character for character in sorted(characters)}
    descendant = Dictionary(
        {
            "Type": "/Font",
            "Subtype": "/CIDFontType2",
            "BaseFont": f"/{NAMES[face]}",
            "CIDSystemInfo": Dictionary(
                {"Registry": String("Adobe"), "Ordering": String("Identity"), "Supplement": 0}
            ),
            "CIDToGIDMap": "/Identity",
            "FontDescriptor": _added(pdf, _descriptor(pdf, face)),
            "W": _widths(face, glyphs),
        }
    )
    return _added(
        pdf,
        Dictionary(
            {
                "Type": "/Font",
                "Subtype": "/Type0",
                "BaseFont": f"/{NAMES[face]}",
                "Encoding": "/Identity-H",
                "DescendantFonts": Array([_added(pdf, descendant)]),
                "ToUnicode": _added(pdf, _to_unicode(glyphs)),
            }
        ),
    )


def _added(pdf: PDF, made: Object) -> bytes:
    pdf.add_object(made)
    reference: bytes = made.reference
    return reference


def _descriptor(pdf: PDF, face: str) -> Dictionary:
    each = typeface(face)
    head, hhea, os2 = (each.font[table] for table in ("head", "hhea", "OS/2"))
    box = (head.xMin, head.yMin, head.xMax, head.yMax)
    angle = each.font["post"].italicAngle
    return Dictionary(
        {
            "Type": "/FontDescriptor",
            "FontName": f"/{NAMES[face]}",
            "Flags": _SYMBOLIC | (_ITALIC if angle else 0),
            "FontBBox": Array([_thousandths(each.em, side) for side in box]),
            "ItalicAngle": angle,
            "Ascent": _thousandths(each.em, hhea.ascent),
            "Descent": _thousandths(each.em, hhea.descent),
            "CapHeight": _thousandths(each.em, getattr(os2, "sCapHeight", 0)),
            "StemV": _STEM,
            "FontFile2": _added(pdf, _file(face)),
        }
    )


def _thousandths(em: int, units: int) -> int:
    return round(1000 * units / em)


def _widths(face: str, glyphs: Mapping[int, str]) -> Array:
    """The advance of each glyph, in thousandths of an em."""
    each = typeface(face)
    advances, order = each.font["hmtx"].metrics, each.font.getGlyphOrder()
    widths = Array()
    for glyph in sorted(glyphs):
        widths += [glyph, Array([1000 * advances[order[glyph]][0] / each.em])]
    return widths


def _file(face: str) -> Stream:
    extra = {"Length1": len(typeface(face).file), "Filter": "/FlateDecode"}
    return Stream([_packed(face)], extra)


@cache
def _packed(face: str) -> bytes:
    return zlib.compress(typeface(face).file, 9)


def _to_unicode(glyphs: Mapping[int, str]) -> Stream:
    """The map from glyphs to characters, for copying and for screen readers."""
    maps = [f"<{glyph:04x}> <{text.encode('utf-16-be').hex()}>" for glyph, text in glyphs.items()]
    lists = [maps[start : start + _MAPS] for start in range(0, len(maps), _MAPS)]
    written = "\n".join(
        f"{len(part)} beginbfchar\n" + "\n".join(part) + "\nendbfchar" for part in lists
    )
    return Stream([_CMAP.format(maps=written).encode("ascii")], compress=True)
