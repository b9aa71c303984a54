"""A face's file with the outlines of some glyphs only, as it is embedded in a PDF.

Glyphs keep their numbers; the others become empty and take next to no room once compressed. The
tables are copied as bytes, which takes a millisecond; `fontTools.subset`, which interprets all of
them, takes longer than the drawings of a sheet. It relies on what our faces are: TrueType outlines
without hints and variations.
"""

from __future__ import annotations

from collections.abc import Iterator, Set
from functools import cache
from io import BytesIO
from itertools import pairwise
from struct import pack, unpack_from

from formsheet.sheet.draw.typeface import typeface

#: All that a PDF needs of a face without hints (ISO 32000-1, 9.9).
TABLES = ("head", "hhea", "hmtx", "maxp", "loca", "glyf")
TRUETYPE = "\0\1\0\0"

# Flags of a part of a composite glyph (OpenType 1.9, "glyf").
_WORDS, _SCALE, _MORE, _TWO_SCALES, _MATRIX = 0x1, 0x8, 0x20, 0x40, 0x80
_PARTS = 10  # bytes before the first part: the number of contours and the bounding box


def subset(face: str, glyphs: Set[int]) -> bytes:
    """The font file of a face with the outlines of `glyphs`, and of the glyphs they are made of."""
    from fontTools.ttLib.sfnt import SFNTWriter

    tables = _tables(face)
    whole = outlines(tables)
    kept = _with_parts(glyphs, whole)
    ends, end = [0], 0
    for glyph, outline in enumerate(whole):
        end += len(outline) if glyph in kept else 0
        ends.append(end)
    form, unit = _offsets(tables)
    made = tables | {
        "hmtx": _metrics(tables, kept),
        "loca": pack(f">{len(ends)}{form}", *(end // unit for end in ends)),
        "glyf": b"".join(outline for glyph, outline in enumerate(whole) if glyph in kept),
    }
    file = BytesIO()
    writer = SFNTWriter(file, len(TABLES), TRUETYPE)
    for tag in TABLES:
        writer[tag] = made[tag]
    writer.close()
    return file.getvalue()


@cache
def _tables(face: str) -> dict[str, bytes]:
    from fontTools.ttLib import TTFont

    with TTFont(BytesIO(typeface(face).file), lazy=True) as font:
        return {tag: font.getTableData(tag) for tag in TABLES}


def outlines(tables: dict[str, bytes]) -> list[bytes]:
    """The data of each glyph; empty if it has no outline."""
    (count,) = unpack_from(">H", tables["maxp"], 4)
    form, unit = _offsets(tables)
    offsets = [unit * each for each in unpack_from(f">{count + 1}{form}", tables["loca"])]
    return [tables["glyf"][start:end] for start, end in pairwise(offsets)]


def _offsets(tables: dict[str, bytes]) -> tuple[str, int]:
    """The format of an offset in `loca`, and its unit in bytes."""
    (long,) = unpack_from(">h", tables["head"], 50)
    return ("L", 1) if long else ("H", 2)


def _with_parts(glyphs: Set[int], whole: list[bytes]) -> set[int]:
    """The glyphs that the face has, and those that they are made of."""
    kept: set[int] = set()
    waiting = list(glyphs)
    while waiting:
        glyph = waiting.pop()
        if glyph not in kept and glyph < len(whole):
            kept.add(glyph)
            waiting += _parts(whole[glyph])
    return kept


def _parts(outline: bytes) -> Iterator[int]:
    """The glyphs of which a composite glyph is made (OpenType 1.9, "glyf")."""
    composite = outline and unpack_from(">h", outline)[0] < 0
    at = _PARTS
    while composite:
        flags, glyph = unpack_from(">HH", outline, at)
        yield glyph
        at += 8 if flags & _WORDS else 6
        at += 2 if flags & _SCALE else 4 if flags & _TWO_SCALES else 8 if flags & _MATRIX else 0
        composite = flags & _MORE


def _metrics(tables: dict[str, bytes], kept: set[int]) -> bytes:
    """The advances and bearings, zero for glyphs that are not kept.

    The last advance stays: it is that of all glyphs that follow, too.
    """
    (count,) = unpack_from(">H", tables["hhea"], 34)
    metrics = bytearray(tables["hmtx"])
    for glyph in range(count - 1):
        if glyph not in kept:
            metrics[4 * glyph : 4 * glyph + 4] = bytes(4)
    return bytes(metrics)
