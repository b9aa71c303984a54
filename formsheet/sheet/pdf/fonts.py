"""The sheet's typefaces as PDF fonts for the drawings (ISO 32000-1, 9.7: composite fonts).

The setter embeds a subset of each face for its own text. The drawings use the same font, with
their glyphs added; a face that the setter has not used is added for them. Glyphs have the numbers
of the face in both.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Set
from dataclasses import dataclass
from hashlib import sha256

from pydyf import PDF, Array, Dictionary, Object, Stream, String

from formsheet.sheet.draw.typeface import typeface
from formsheet.sheet.pdf.content import glyph_id
from formsheet.sheet.pdf.face_subset import subset
from formsheet.sheet.pdf.page_content import dictionaries, found

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
_LISTED = re.compile(rb"beginbfchar(.*?)endbfchar", re.DOTALL)
_MAPPED = re.compile(rb"<([0-9a-f]{4})> <([0-9a-f]*)>")
_IDENTITY = "/Identity-H"  # codes are the numbers of glyphs


def add_font(pdf: PDF, face: str, characters: Set[str]) -> bytes:
    """Embed these characters of a face in a PDF; returns the reference of its font."""
    glyphs = {glyph_id(character, face): character for character in sorted(characters)}
    set_already = _font_of_setter(pdf, face)
    if set_already:
        set_already.add(glyphs)
        return set_already.reference
    return _new_font(pdf, face, glyphs)


def _new_font(pdf: PDF, face: str, glyphs: Mapping[int, str]) -> bytes:
    name = f"/{_tag(glyphs)}+{NAMES[face]}".encode("ascii")
    descendant = Dictionary(
        {
            "Type": "/Font",
            "Subtype": "/CIDFontType2",
            "BaseFont": name,
            "CIDSystemInfo": Dictionary(
                {"Registry": String("Adobe"), "Ordering": String("Identity"), "Supplement": 0}
            ),
            "CIDToGIDMap": "/Identity",
            "FontDescriptor": _added(pdf, _descriptor(pdf, face, name, glyphs.keys())),
            "W": _width_array(_widths(face, glyphs)),
        }
    )
    return _added(
        pdf,
        Dictionary(
            {
                "Type": "/Font",
                "Subtype": "/Type0",
                "BaseFont": name,
                "Encoding": _IDENTITY,
                "DescendantFonts": Array([_added(pdf, descendant)]),
                "ToUnicode": _added(pdf, Stream([_to_unicode(glyphs)], compress=True)),
            }
        ),
    )


def _tag(glyphs: Set[int] | Mapping[int, str]) -> str:
    """The tag of a subset (ISO 32000-1, 9.6.4): six capitals, others for other glyphs."""
    digest = sha256(repr(sorted(glyphs)).encode()).digest()
    return "".join(chr(ord("A") + byte % 26) for byte in digest[:6])


@dataclass(frozen=True, slots=True)
class _SetFont:
    """A font that the setter has embedded."""

    face: str
    reference: bytes
    descendants: tuple[Dictionary, ...]  # all fonts of the same file, its own first
    to_unicode: Stream
    file: Stream

    def add(self, glyphs: Mapping[int, str]) -> None:
        """Add glyphs to the font and to its file."""
        own = self.descendants[0]
        texts = _texts(self.to_unicode)
        added = {glyph: text for glyph, text in glyphs.items() if glyph not in texts}
        self.to_unicode.stream = [_to_unicode(texts | added)]
        own["W"] = _width_array(_read_widths(own["W"]) | _widths(self.face, added))
        used = {glyph for each in self.descendants for glyph in _read_widths(each["W"])}
        file = subset(self.face, used)
        self.file.stream = [file]
        self.file.extra["Length1"] = len(file)


def _font_of_setter(pdf: PDF, face: str) -> _SetFont | None:
    """The font that the setter has embedded for a face, unless its codes are not glyphs."""
    name = re.compile(rb"/[A-Z]{6}\+" + NAMES[face].encode())
    for composite in dictionaries(pdf, Subtype="/Type0", Encoding=_IDENTITY):
        if name.fullmatch(composite["BaseFont"]):
            own = found(pdf, composite["DescendantFonts"][0])
            file = _file_of(pdf, own)
            others = (
                each
                for each in dictionaries(pdf, Subtype="/CIDFontType2")
                if each is not own and _file_of(pdf, each) is file
            )
            to_unicode = found(pdf, composite["ToUnicode"])
            return _SetFont(face, composite.reference, (own, *others), to_unicode, file)
    return None


def _file_of(pdf: PDF, font: Dictionary) -> Stream:
    return found(pdf, found(pdf, font["FontDescriptor"])["FontFile2"])


def _added(pdf: PDF, made: Object) -> bytes:
    pdf.add_object(made)
    reference: bytes = made.reference
    return reference


def _descriptor(pdf: PDF, face: str, name: bytes, glyphs: Set[int]) -> Dictionary:
    each = typeface(face)
    head, hhea, os2 = (each.font[table] for table in ("head", "hhea", "OS/2"))
    box = (head.xMin, head.yMin, head.xMax, head.yMax)
    angle = each.font["post"].italicAngle
    file = subset(face, glyphs)
    return Dictionary(
        {
            "Type": "/FontDescriptor",
            "FontName": name,
            "Flags": _SYMBOLIC | (_ITALIC if angle else 0),
            "FontBBox": Array([_thousandths(each.em, side) for side in box]),
            "ItalicAngle": angle,
            "Ascent": _thousandths(each.em, hhea.ascent),
            "Descent": _thousandths(each.em, hhea.descent),
            "CapHeight": _thousandths(each.em, getattr(os2, "sCapHeight", 0)),
            "StemV": _STEM,
            "FontFile2": _added(pdf, Stream([file], {"Length1": len(file)}, compress=True)),
        }
    )


def _thousandths(em: int, units: int) -> int:
    return round(1000 * units / em)


def _widths(face: str, glyphs: Mapping[int, str]) -> dict[int, float]:
    """The advance of each glyph, in thousandths of an em."""
    each = typeface(face)
    advances, order = each.font["hmtx"].metrics, each.font.getGlyphOrder()
    return {glyph: 1000 * advances[order[glyph]][0] / each.em for glyph in glyphs}


def _width_array(widths: Mapping[int, float]) -> Array:
    """Widths by glyph: the first of each unbroken run, then the widths of the run (9.7.4.3)."""
    array = Array()
    for glyph in sorted(widths):
        if glyph - 1 not in widths:
            array += [glyph, Array()]
        array[-1].append(widths[glyph])
    return array


def _read_widths(array: Array) -> dict[int, float]:
    """Widths by glyph, from an array of runs."""
    runs = zip(array[::2], array[1::2], strict=True)
    return {first + place: width for first, run in runs for place, width in enumerate(run)}


def _to_unicode(glyphs: Mapping[int, str]) -> bytes:
    """The map from glyphs to characters, for copying and for screen readers."""
    maps = [f"<{glyph:04x}> <{text.encode('utf-16-be').hex()}>" for glyph, text in glyphs.items()]
    lists = [maps[start : start + _MAPS] for start in range(0, len(maps), _MAPS)]
    written = "\n".join(
        f"{len(part)} beginbfchar\n" + "\n".join(part) + "\nendbfchar" for part in lists
    )
    return _CMAP.format(maps=written).encode("ascii")


def _texts(to_unicode: Stream) -> dict[int, str]:
    """What such a map says of each glyph."""
    written = b"\n".join(to_unicode.stream)
    maps = [each for part in _LISTED.findall(written) for each in _MAPPED.findall(part)]
    return {
        int(glyph, 16): bytes.fromhex(text.decode()).decode("utf-16-be") for glyph, text in maps
    }
