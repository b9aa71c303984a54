"""Pages of PDFs as pixels, and how far two of them differ."""

from __future__ import annotations

import numpy as np
import pypdfium2
from numpy.typing import NDArray
from PIL import Image, ImageFilter

DPI = 100
NEAR = 3  # pixels wide and high: the edge of a stroke may fall on the next pixel
APART = 100  # of 255: what the smoothing of edges may do to a pixel
BLUR = 6  # pixels, 1.5 mm: the smoothing of edges, and a shift by a pixel, even out


def pages_of(pdf: bytes) -> list[Image.Image]:
    """The pages in colour, as PDFium renders them: it does not move strokes to whole pixels."""
    with pypdfium2.PdfDocument(pdf) as document:
        return [page.render(scale=DPI / 72).to_pil().convert("RGB") for page in document]


def unlike(one: Image.Image, other: Image.Image) -> int:
    """Pixels of either page that are much lighter or darker than all near them on the other.

    Of red, green and blue each, so that colours are compared too.
    """
    assert one.size == other.size
    return _beyond(one, other) + _beyond(other, one)


def _beyond(one: Image.Image, other: Image.Image) -> int:
    pixels = _values(one)
    darker = _values(other.filter(ImageFilter.MinFilter(NEAR))) - pixels
    lighter = pixels - _values(other.filter(ImageFilter.MaxFilter(NEAR)))
    return int((np.maximum(darker, lighter) > APART).any(axis=2).sum())


def tint(one: Image.Image, other: Image.Image) -> int:
    """The greatest difference (of 255) of the blurred pages: of pale areas, of weights."""
    assert one.size == other.size
    blur = ImageFilter.GaussianBlur(BLUR)
    return int(np.abs(_values(one.filter(blur)) - _values(other.filter(blur))).max())


def _values(page: Image.Image) -> NDArray[np.int16]:
    return np.asarray(page).astype(np.int16)
