"""Blow and draw are told apart on a copy of a copy, on a grey page, and by colour-blind readers."""

from __future__ import annotations

from functools import cache
from pathlib import Path
from statistics import mean
from subprocess import run

import numpy as np
import pytest
from PIL import Image, ImageFilter

from formsheet.sheet.mark_styles import MARK_STYLES
from formsheet.sheet.options import Options
from formsheet.sheet.typeset import sheet_pdf
from tests.sheet.contrast import contrast
from tests.sheet.gallery import COLOURS, gallery_sheet
from tests.sheet.inks import rgb
from tests.sheet.placed import PrintedBox, placed_bars
from tests.sheet.printed import MM, read

DPI = 120
SCALE = DPI / 72  # pixels a point
EDGE = 1.4  # mm: the outer part of a box, where light ink has its foot
WHITE = (255.0, 255.0, 255.0)
TEXT_CONTRAST = 4.5  # WCAG 2.2, success criterion 1.4.3
GRAPHIC_CONTRAST = 3.0  # WCAG 2.2, success criterion 1.4.11

#: What people see who lack one kind of cones, in linear light: the matrices for severity 1.0 of
#: Machado, Oliveira and Fernandes, "A Physiologically-based Model for Simulation of Color Vision
#: Deficiency" (IEEE TVCG 15, 2009), table of the supplement; from memory.
BLIND = {
    "protanopia": ((0.152286, 1.052583, -0.204868), (0.114503, 0.786281, 0.099216),
                   (-0.003882, -0.048116, 1.051998)),
    "deuteranopia": ((0.367322, 0.860646, -0.227968), (0.280085, 0.672501, 0.047413),
                     (-0.011820, 0.042940, 0.968881)),
    "tritanopia": ((1.255528, -0.076749, -0.178779), (-0.078411, 0.930809, 0.147602),
                   (0.004733, 0.691367, 0.303900)),
}  # fmt: skip


@cache
def printed(name: str, options: Options) -> bytes:
    return sheet_pdf(gallery_sheet(name), options)


@cache
def boxes(name: str, options: Options) -> tuple[PrintedBox, ...]:
    """The boxes of struck notes on the first page."""
    data = printed(name, options)
    found = placed_bars(gallery_sheet(name), data, read(data))
    return tuple(
        box for placed in found if placed.page == 0
        for box, note in zip(placed.boxes, placed.sounding, strict=True) if note.struck
    )  # fmt: skip


def picture(name: str, options: Options, folder: Path) -> Image.Image:
    """The first page."""
    path = folder / "sheet.pdf"
    path.write_bytes(printed(name, options))
    command = ["pdftoppm", "-r", str(DPI), "-f", "1", "-l", "1", "-png", "sheet.pdf", "page"]
    run(command, cwd=folder, check=True)
    (png,) = folder.glob("page*.png")
    return Image.open(png).convert("RGB")


def copied(page: Image.Image, seed: int) -> Image.Image:
    """A copy as a worn machine makes it: blurred, black or white alone, with specks and gaps."""
    chance = np.random.default_rng(seed)
    blurred = np.asarray(page.convert("L").filter(ImageFilter.GaussianBlur(1.2))).astype(float)
    noisy = blurred + chance.normal(0, 25, blurred.shape)
    dark = noisy < 118 + 20 * chance.random()
    specks = chance.random(blurred.shape)
    dark = (dark | (specks > 0.997)) & (specks > 0.01)
    return Image.fromarray(np.where(dark, 0, 255).astype(np.uint8)).convert("RGB")


def ink_share(page: Image.Image, box: PrintedBox, *, edge: bool) -> float:
    """The share of a box's area that is dark, 0 to 1; `edge`: of its outer edge alone."""
    grey = np.asarray(page.convert("L"))
    top, bottom = box.top, box.bottom
    if edge and box.drawn:
        top = bottom - EDGE * MM
    elif edge:
        bottom = top + EDGE * MM
    left, right = box.left + 0.5 * MM, box.right - 0.5 * MM
    part = grey[int(top * SCALE) : int(bottom * SCALE), int(left * SCALE) : int(right * SCALE)]
    return float((255 - part).mean() / 255)


STYLES = {
    **{style.name: Options(marks=style) for style in MARK_STYLES},
    "light": Options(light=True),
    "coloured": Options(colours=COLOURS),
    "coloured-light": Options(colours=COLOURS, light=True),
    "upright": Options(page_size="A4 portrait"),
    "large": Options(large=True),
}


@pytest.mark.parametrize("copies", [0, 2], ids=["grey", "copied twice"])
@pytest.mark.parametrize("style", STYLES)
def test_each_draw_box_has_more_ink_than_each_blow_box(
    style: str, copies: int, tmp_path: Path
) -> None:
    """Of boxes of single holes; in light ink at their outer edge, where the foot is."""
    options = STYLES[style]
    page = picture("common", options, tmp_path)
    for seed in range(copies):
        page = copied(page, seed)
    found = {
        drawn: [
            ink_share(page, box, edge=options.light)
            for box in boxes("common", options) if box.drawn == drawn
        ]
        for drawn in (False, True)
    }  # fmt: skip
    assert min(map(len, found.values())) > 3
    assert min(found[True]) > max(found[False]) + 0.08
    assert mean(found[True]) > 1.5 * mean(found[False])


@pytest.mark.parametrize("name", ["dense", "blocks", "overbends", "compound"])
@pytest.mark.parametrize("light", [False, True])
def test_so_have_narrow_boxes_chords_and_bends(name: str, light: bool, tmp_path: Path) -> None:
    options = Options(light=light)
    page = copied(copied(picture(name, options, tmp_path), 1), 2)
    found = {
        drawn: [
            ink_share(page, box, edge=light) for box in boxes(name, options) if box.drawn == drawn
        ]
        for drawn in (False, True)
    }  # fmt: skip
    assert min(map(len, found.values())) > 2
    assert min(found[True]) > max(found[False])
    assert mean(found[True]) > 1.3 * mean(found[False])


def seen(colour: tuple[float, float, float], kind: str) -> tuple[float, float, float]:
    """A colour of 0 to 255 as people of a kind see it."""
    linear = np.array([_linear(part / 255) for part in colour])
    red, green, blue = (255 * _stored(part) for part in np.array(BLIND[kind]) @ linear)
    return red, green, blue


def _linear(value: float) -> float:
    return value / 12.92 if value <= 0.04045 else float(((value + 0.055) / 1.055) ** 2.4)


def _stored(value: float) -> float:
    value = min(1.0, max(0.0, value))
    return 12.92 * value if value <= 0.0031308 else float(1.055 * value ** (1 / 2.4) - 0.055)


@pytest.mark.parametrize("kind", BLIND)
def test_grey_and_white_stay_as_they_are(kind: str) -> None:
    """The rows of each matrix add up to 1."""
    assert seen(WHITE, kind) == pytest.approx(WHITE, abs=0.5)
    assert seen((119.0, 119.0, 119.0), kind) == pytest.approx((119.0,) * 3, abs=0.5)


@pytest.mark.parametrize("kind", BLIND)
@pytest.mark.parametrize("light", [False, True])
def test_two_colours_are_read_by_position_and_fill(kind: str, light: bool, tmp_path: Path) -> None:
    """Even where both colours look alike."""
    options = Options(colours=COLOURS, light=light)
    page = picture("common", options, tmp_path)
    pixels = np.asarray(page).reshape(-1, 3)
    colours, places = np.unique(pixels, axis=0, return_inverse=True)
    table = np.array([seen((float(r), float(g), float(b)), kind) for r, g, b in colours])
    shown = table[places.reshape(-1)]
    changed = Image.fromarray(shown.reshape(page.height, page.width, 3).astype(np.uint8))
    found = {
        drawn: [
            ink_share(changed, box, edge=light)
            for box in boxes("common", options) if box.drawn == drawn
        ]
        for drawn in (False, True)
    }  # fmt: skip
    assert min(found[True]) > max(found[False]) + 0.1
    for box in boxes("common", options):
        assert box.filled == (box.drawn and not light)
    for ink in COLOURS:
        assert contrast(rgb(ink), WHITE) >= TEXT_CONTRAST
        assert contrast(seen(rgb(ink), kind), WHITE) >= GRAPHIC_CONTRAST
