"""The drawings of a page, written into its PDF as forms (ISO 32000-1, 8.10).

During typesetting a blank image is the placeholder of each drawing: it has the size, and the tag
of a figure with its alternative text. The width of the image in pixels is the number of the
drawing. Afterwards each image is replaced by its drawing. Drawing through WeasyPrint would take
noticeably longer.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import cache
from io import BytesIO
from typing import TYPE_CHECKING

from formsheet.sheet.draw.canvas import Canvas
from formsheet.sheet.draw.svg import svg

if TYPE_CHECKING:
    from pydyf import PDF, Stream

    from formsheet.sheet.pdf.content import Content


class Drawings:
    """Collects the drawings of a page, provides the placeholder files, and completes the PDF.

    A drawing with texts that must be shaped is typeset by WeasyPrint as SVG; with `as_svg`, all
    are.
    """

    def __init__(self, *, as_svg: bool = False) -> None:
        self.files: dict[str, bytes] = {}
        self._as_svg = as_svg
        self._forms: list[tuple[Canvas, Content]] = []
        self._names: dict[object, str] = {}

    def add(self, canvas: Canvas, *, whole: bool = True) -> str:
        """Add a drawing; returns the name of its file. Equal drawings are added once.

        Unless `whole`, the page sets its shaped texts over it.
        """
        if self._as_svg or (whole and canvas.shaped):
            document = svg(canvas, whole=whole)
            return self._named(document, lambda count: (f"{count}.svg", document.encode()))
        from formsheet.sheet.pdf.content import content

        drawn = content(canvas)

        def stand_in(count: int) -> tuple[str, bytes]:
            self._forms.append((canvas, drawn))
            return f"{count}.jpg", empty_image(len(self._forms))

        return self._named((canvas.width, canvas.height, drawn.operators), stand_in)

    def _named(self, drawn: object, make: Callable[[int], tuple[str, bytes]]) -> str:
        if drawn not in self._names:
            name, data = make(len(self._names))
            self._names[drawn] = f"drawing-{name}"
            self.files[self._names[drawn]] = data
        return self._names[drawn]

    def finish(self, _document: object, pdf: PDF) -> None:
        """Replace each placeholder by its drawing; WeasyPrint calls this after typesetting."""
        from pydyf import Dictionary, Stream

        from formsheet.sheet.pdf.fonts import add_font

        images = [
            each
            for each in pdf.objects
            if isinstance(each, Stream) and each.extra.get("Subtype") == "/Image"
        ]
        used: dict[str, set[str]] = {}
        for _, drawn in self._forms:
            for face, characters in drawn.used.items():
                used.setdefault(face, set()).update(characters)
        fonts = Dictionary({face: add_font(pdf, face, used[face]) for face in sorted(used)})
        pdf.add_object(fonts)
        for image in images:
            canvas, drawn = self._forms[image.extra["Width"] - 1]
            _become_form(image, canvas, drawn, fonts.reference)


def _become_form(image: Stream, canvas: Canvas, drawn: Content, fonts: bytes) -> None:
    """Turn an image into a form; both fill a square of one unit."""
    from pydyf import Array, Dictionary

    image.stream = [drawn.operators]
    image.compress = True
    image.extra = {
        "Type": "/XObject",
        "Subtype": "/Form",
        "BBox": Array([0, 0, canvas.width, canvas.height]),
        "Matrix": Array([1 / canvas.width, 0, 0, -1 / canvas.height, 0, 1]),
        "Resources": Dictionary({"Font": fonts}),
    }


@cache
def empty_image(width: int) -> bytes:
    """A white JPEG image, `width` pixels wide and one high."""
    from PIL import Image

    file = BytesIO()
    Image.new("L", (width, 1), 255).save(file, "JPEG")
    return file.getvalue()
