"""One drawing: strokes of one weight and texts of one style are merged, which prints fast."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from html import escape
from typing import Literal
from unicodedata import bidirectional, combining

from formsheet.pack.draw.metrics import Face, Font, advance, covered, width

Anchor = Literal["start", "middle", "end"]
# Our signs come first, so that an apostrophe in a drawing is the tick of a bend.
FAMILY = "Lesson Signs, Lesson Sans"


def number(value: float) -> str:
    """A coordinate: two decimals, a hundredth of a millimetre."""
    text = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


@dataclass(slots=True)
class _Run:
    """Characters of one style, each at its place."""

    font: Font
    characters: list[str] = field(default_factory=list)
    xs: list[str] = field(default_factory=list)
    ys: list[str] = field(default_factory=list)


@dataclass(frozen=True, slots=True)
class ShapedText:
    """A text that must be set as a whole, since its letters join, turn round or are foreign.

    It is upright: most scripts have no slanted letters.
    """

    text: str
    x: float  # mm, of its left end and its base line
    y: float
    font: Font

    @property
    def svg(self) -> str:
        """The text as SVG: whoever draws it shapes its letters."""
        return (
            f'<text font-family="{FAMILY}" font-size="{number(self.font.mm)}"{_style(self.font)}'
            f' fill="{self.font.ink}" x="{number(self.x)}" y="{number(self.y)}">'
            f"{escape(self.text)}</text>"
        )


@dataclass(slots=True)
class Canvas:
    """A drawing of a given size in millimetres; y grows downwards."""

    width: float
    height: float
    _strokes: dict[tuple[float, str], list[str]] = field(default_factory=dict)
    _fills: list[str] = field(default_factory=list)
    _runs: list[_Run] = field(default_factory=list)
    shaped: list[ShapedText] = field(default_factory=list)

    def line(self, weight: float, *points: tuple[float, float], ink: str = "#000") -> None:
        """A stroke through points."""
        steps = "L".join(f"{number(x)} {number(y)}" for x, y in points)
        self.stroke(weight, f"M{steps}", ink)

    def stroke(self, weight: float, path: str, ink: str = "#000") -> None:
        """A stroked path."""
        self._strokes.setdefault((weight, ink), []).append(path)

    def fill(self, path: str) -> None:
        """A filled path; holes run the other way round."""
        self._fills.append(path)

    def rectangle(self, x: float, y: float, wide: float, high: float) -> None:
        """A filled rectangle."""
        self.fill(f"M{number(x)} {number(y)}h{number(wide)}v{number(high)}h{number(-wide)}z")

    def text(self, x: float, y: float, text: str, font: Font, anchor: Anchor = "start") -> float:
        """A text on its base line; gives the x of its right end."""
        share = {"start": 0.0, "middle": 0.5, "end": 1.0}[anchor]
        x -= share * width(text, font)
        if needs_shaping(text):
            upright: Face = "regular" if font.face == "italic" else font.face
            self.shaped.append(ShapedText(text, x, y, replace(font, face=upright)))
            return x + width(text, font)
        if not self._runs or self._runs[-1].font != font:
            self._runs.append(_Run(font))
        run = self._runs[-1]
        for character in text:
            if character != " ":  # each character has its place, so a space needs none
                run.characters.append(character)
                run.xs.append(number(x))
                run.ys.append(number(y))
            x += advance(character, font)
        return x

    def svg(self, *, whole: bool = True) -> str:
        """The drawing as an SVG document; without its shaped texts where it is not `whole`."""
        size = f"{number(self.width)} {number(self.height)}"
        parts = [
            f'<svg xmlns="http://www.w3.org/2000/svg" width="{number(self.width)}mm"'
            f' height="{number(self.height)}mm" viewBox="0 0 {size}">'
        ]
        parts += [
            f'<path d="{"".join(paths)}" fill="none" stroke="{ink}" stroke-width="{number(weight)}"'
            ' stroke-linecap="butt" stroke-linejoin="miter"/>'
            for (weight, ink), paths in self._strokes.items()
        ]
        if self._fills:
            parts.append(f'<path d="{"".join(self._fills)}"/>')
        parts += [_run_svg(run) for run in self._runs]
        if whole:
            parts += [text.svg for text in self.shaped]
        parts.append("</svg>")
        return "".join(parts)


def needs_shaping(text: str) -> bool:
    """Whether letters join, are reordered or come from another face: the setter places them."""
    return any(
        bidirectional(c) in ("R", "AL") or combining(c) or not covered(c, "regular") for c in text
    )


def _style(font: Font) -> str:
    weight = ' font-weight="700"' if font.face == "bold" else ""
    slant = ' font-style="italic"' if font.face == "italic" else ""
    return weight + slant


def _run_svg(run: _Run) -> str:
    font = run.font
    ys = run.ys[:1] if len(set(run.ys)) == 1 else run.ys
    return (
        f'<text font-family="{FAMILY}" font-size="{number(font.mm)}"'
        f'{_style(font)} fill="{font.ink}" x="{" ".join(run.xs)}" y="{" ".join(ys)}">'
        f"{escape(''.join(run.characters))}</text>"
    )
