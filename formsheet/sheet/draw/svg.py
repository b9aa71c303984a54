"""A drawing as SVG, for the screen and for programs that cannot read the other formats."""

from __future__ import annotations

from collections.abc import Iterator
from html import escape

from formsheet.sheet.draw.canvas import Canvas, Run, ShapedText, number
from formsheet.sheet.draw.metrics import Font, advance

# The face of signs comes first, so that an apostrophe in a drawing is the tick of a bend.
FAMILY = "Lesson Signs, Lesson Sans"


def svg(canvas: Canvas, *, whole: bool = True) -> str:
    """A drawing as an SVG document; without its shaped texts unless `whole`."""
    wide, high = number(canvas.width), number(canvas.height)
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{wide}mm" height="{high}mm"'
        f' viewBox="0 0 {wide} {high}">{marks(canvas, whole=whole)}</svg>'
    )


def marks(canvas: Canvas, *, whole: bool = True) -> str:
    """The content of that document."""
    return "".join(_marks(canvas, whole))


def _marks(canvas: Canvas, whole: bool) -> Iterator[str]:
    for (weight, ink), paths in canvas.strokes.items():
        yield (
            f'<path d="{"".join(paths)}" fill="none" stroke="{ink}" stroke-width="{number(weight)}"'
            ' stroke-linecap="butt" stroke-linejoin="miter"/>'
        )
    if canvas.fills:
        yield f'<path d="{"".join(canvas.fills)}"/>'
    yield from map(_run, canvas.runs)
    if whole:
        yield from map(_shaped, canvas.shaped)


def _style(font: Font) -> str:
    weight = ' font-weight="700"' if font.face == "bold" else ""
    slant = ' font-style="italic"' if font.face == "italic" else ""
    return f'font-family="{FAMILY}" font-size="{number(font.mm)}"{weight}{slant} fill="{font.ink}"'


def _run(run: Run) -> str:
    """All characters of a run in one element, each with its place."""
    xs, ys = [], []
    for word in run.words:
        x = word.x
        for character in word.text:
            xs.append(number(x))
            ys.append(number(word.y))
            x += advance(character, run.font)
    ys = ys[:1] if len(set(ys)) == 1 else ys
    text = escape("".join(word.text for word in run.words))
    return f'<text {_style(run.font)} x="{" ".join(xs)}" y="{" ".join(ys)}">{text}</text>'


def _shaped(text: ShapedText) -> str:
    """A text at one place; the renderer shapes its letters."""
    place = f'x="{number(text.x)}" y="{number(text.y)}"'
    return f"<text {_style(text.font)} {place}>{escape(text.text)}</text>"
