"""Make the font files of this folder; run by hand when a face changes.

    python make_faces.py SOURCES

SOURCES has the upstream files (see README.md): `latin` and `latin-ext` of each style. They are
joined to one small file a style, so that a page needs three faces and no system font. The files
are not compressed, since decompression took a quarter of the time of a sheet. The signs
(accidentals and the bend tick) are drawn here.
"""

from __future__ import annotations

import sys
import tempfile
from pathlib import Path

from fontTools.fontBuilder import FontBuilder
from fontTools.merge import Merger
from fontTools.pens.cu2quPen import Cu2QuPen
from fontTools.pens.ttGlyphPen import TTGlyphPen
from fontTools.subset import Options, Subsetter
from fontTools.ttLib import TTFont
from fontTools.ttLib.tables._g_l_y_f import Glyph, GlyphCoordinates

HERE = Path(__file__).parent
STYLES = {"regular": "400-normal", "bold": "700-normal", "italic": "400-italic"}
NAMES = {"regular": "Regular", "bold": "Bold", "italic": "Italic"}
FAMILY = "Lesson Sans"
SIGNS = "Lesson Signs"
STROKES = {"regular": (76, 70), "bold": (128, 112), "italic": (74, 70)}  # of a zero: side, top
LICENCE = (
    "This Font Software is licensed under the SIL Open Font License, Version 1.1. "
    "This license is available with a FAQ at: https://openfontlicense.org"
)
LICENCE_URL = "https://openfontlicense.org"
SIGNS_COPYRIGHT = "Copyright 2026 The formsheet authors"
MAY_EMBED = 0  # OS/2 fsType: installable embedding, no restriction (OpenType 1.9, "fsType")
#: IDs of the name table (OpenType 1.9, "Name IDs").
COPYRIGHT_ID, FAMILY_ID, STYLE_ID, FULL_ID, POSTSCRIPT_ID = 0, 1, 2, 4, 6
LICENCE_ID, LICENCE_URL_ID = 13, 14
EPOCH = 3_786_912_000  # a fixed date (seconds since 1904), so that a rebuild gives the same bytes
Point = tuple[float, float]


def _plain(path: Path, without: set[int]) -> TTFont:
    """The face subset to its characters except `without`, without layout tables and hints."""
    font = TTFont(path)
    options = Options(
        layout_features=[], hinting=False, notdef_outline=True, name_IDs=[COPYRIGHT_ID]
    )
    subsetter = Subsetter(options)
    subsetter.populate(unicodes=set(font.getBestCmap()) - without)
    subsetter.subset(font)
    font.flavor = None
    return font


def join(style: str, sources: Path) -> TTFont:
    """One style's latin and latin-ext files as one face."""
    latin, extended = (
        next(sources.glob(f"*-{part}-{STYLES[style]}.woff2")) for part in ("latin", "latin-ext")
    )
    first = _plain(latin, set())
    second = _plain(extended, set(first.getBestCmap()))
    with tempfile.TemporaryDirectory() as folder:
        paths = [str(Path(folder) / f"{i}.ttf") for i in range(2)]
        for font, path in zip((first, second), paths, strict=True):
            font.save(path)
        face = Merger().merge(paths)
    _open_zero(face, *STROKES[style])
    _name(
        face,
        {
            FAMILY_ID: FAMILY,
            STYLE_ID: NAMES[style],
            FULL_ID: f"{FAMILY} {NAMES[style]}",
            POSTSCRIPT_ID: f"{FAMILY.replace(' ', '')}-{NAMES[style]}",
        },
    )
    return face


def _name(face: TTFont, names: dict[int, str]) -> None:
    """Set names, licence and its address, for all systems (platform 3, US English)."""
    licence = {LICENCE_ID: LICENCE, LICENCE_URL_ID: LICENCE_URL}
    for name_id, text in (names | licence).items():
        face["name"].setName(text, name_id, 3, 1, 0x409)
    face["OS/2"].fsType = MAY_EMBED


def _open_zero(font: TTFont, side: int, top: int) -> None:
    """Remove the slash from the zero: in hole 10 it would look like a separate mark."""
    glyphs, name = font["glyf"], font.getBestCmap()[ord("0")]
    source = glyphs[name]
    coordinates, ends, on_curve = source.getCoordinates(glyphs)
    outer = list(zip(coordinates[: ends[0] + 1], on_curve[: ends[0] + 1], strict=True))
    middle = ((source.xMin + source.xMax) / 2, (source.yMin + source.yMax) / 2)
    wide, high = source.xMax - source.xMin, source.yMax - source.yMin
    scale = (1 - 2 * side / wide, 1 - 2 * top / high)
    inner = [
        (tuple(m + (v - m) * k for m, v, k in zip(middle, point, scale, strict=True)), flag)
        for point, flag in reversed(outer)
    ]
    points = [*outer, *inner]
    source.coordinates = GlyphCoordinates([(round(x), round(y)) for (x, y), _ in points])
    source.flags = bytearray(flag for _, flag in points)
    source.endPtsOfContours = [len(outer) - 1, len(points) - 1]
    source.numberOfContours = 2


def _outline(contours: list[list[tuple[str, list[Point]]]]) -> Glyph:
    pen = TTGlyphPen(None)
    curves = Cu2QuPen(pen, 1.0, reverse_direction=True)
    for contour in contours:
        for verb, points in contour:
            getattr(curves, verb)(*points)
        curves.closePath()
    return pen.glyph()


def _polygon(*points: Point) -> list[tuple[str, list[Point]]]:
    return [("moveTo", [points[0]]), *[("lineTo", [point]) for point in points[1:]]]


def _flat() -> Glyph:
    stem = _polygon((70, 0), (132, 0), (132, 760), (70, 760))
    bowl: list[tuple[str, list[Point]]] = [
        ("moveTo", [(70, -16)]),
        ("curveTo", [(200, 60), (372, 150), (372, 300)]),
        ("curveTo", [(372, 396), (312, 446), (240, 446)]),
        ("curveTo", [(192, 446), (152, 424), (120, 390)]),
        ("lineTo", [(120, 318)]),
        ("curveTo", [(146, 354), (176, 374), (206, 374)]),
        ("curveTo", [(246, 374), (266, 344), (266, 296)]),
        ("curveTo", [(266, 216), (206, 142), (120, 84)]),
    ]
    return _outline([stem, bowl])


def _bar(
    x1: float, x2: float, middle: float, rise: float, half: float
) -> list[tuple[str, list[Point]]]:
    low, high = middle - rise / 2, middle + rise / 2
    return _polygon((x1, low - half), (x2, high - half), (x2, high + half), (x1, low + half))


def _sharp() -> Glyph:
    return _outline(
        [
            _polygon((128, -80), (182, -80), (182, 700), (128, 700)),
            _polygon((270, -50), (324, -50), (324, 730), (270, 730)),
            _bar(50, 402, 440, 76, 50),
            _bar(50, 402, 210, 76, 50),
        ]
    )


def _natural() -> Glyph:
    return _outline(
        [
            _polygon((70, 120), (124, 120), (124, 740), (70, 740)),
            _polygon((270, -90), (324, -90), (324, 530), (270, 530)),
            _bar(70, 324, 430, 56, 48),
            _bar(70, 324, 214, 56, 48),
        ]
    )


def _tick() -> Glyph:
    """The tick of a bend: a heavy wedge, slanted forward, narrow at the foot."""
    return _outline([_polygon((34, 430), (92, 430), (172, 728), (56, 728))])


def signs() -> TTFont:
    """The face of the signs: accidentals, and the tick of a bend as the apostrophe."""
    glyphs = {
        ".notdef": (_outline([]), 300),
        "space": (_outline([]), 250),
        "tick": (_tick(), 160),
        "flat": (_flat(), 400),
        "natural": (_natural(), 400),
        "sharp": (_sharp(), 452),
    }
    builder = FontBuilder(1000, isTTF=True)
    builder.setupGlyphOrder(list(glyphs))
    builder.setupCharacterMap(
        {0x20: "space", 0x27: "tick", 0x266D: "flat", 0x266E: "natural", 0x266F: "sharp"}
    )
    builder.setupGlyf({name: glyph for name, (glyph, _) in glyphs.items()})
    table = builder.font["glyf"]
    builder.setupHorizontalMetrics(
        {name: (width, getattr(table[name], "xMin", 0)) for name, (_, width) in glyphs.items()}
    )
    builder.setupHorizontalHeader(ascent=984, descent=-316)
    builder.setupNameTable({})
    builder.setupOS2(sTypoAscender=984, sTypoDescender=-316, usWinAscent=984, usWinDescent=316)
    builder.setupPost(isFixedPitch=0)
    _name(
        builder.font,
        {
            COPYRIGHT_ID: SIGNS_COPYRIGHT,
            FAMILY_ID: SIGNS,
            STYLE_ID: "Regular",
            FULL_ID: SIGNS,
            POSTSCRIPT_ID: "LessonSigns-Regular",
        },
    )
    return builder.font


def _write(font: TTFont, name: str) -> None:
    font["head"].created = font["head"].modified = EPOCH
    font.recalcTimestamp = False
    font.save(HERE / f"{name}.ttf")


def main() -> None:
    """Write the four faces beside this file."""
    sources = Path(sys.argv[1])
    for style in STYLES:
        _write(join(style, sources), f"sans-{style}")
    _write(signs(), "signs")


if __name__ == "__main__":
    main()
