"""A sheet printed without colour says as much as one with colour."""

from __future__ import annotations

import io
from collections.abc import Iterator
from functools import cache
from itertools import combinations

import pikepdf
import pytest

from tests.lessons import NAMES
from tests.sheet.contrast import contrast, luminance
from tests.sheet.demos import printed
from tests.sheet.gallery import GALLERY
from tests.sheet.printed import pdf

WHITE = (255.0, 255.0, 255.0)
TEXT_CONTRAST = 4.5  # WCAG 2.2, success criterion 1.4.3
LINE_CONTRAST = 3.0  # WCAG 2.2, success criterion 1.4.11: graphics
#: Operators that put down text, and other ink (ISO 32000-1, Annex A; from memory).
TEXT, FILL, STROKE = {"Tj", "TJ"}, {"f", "F", "f*", "B", "B*", "b", "b*"}, {"S", "s", "B", "B*"}
COLOURS = {"g": 1, "rg": 3, "k": 4}
PATTERNS = {"cs", "sc", "scn", "CS", "SC", "SCN"}

Colour = tuple[float, float, float]


@cache
def inks(name: str) -> frozenset[tuple[str, Colour]]:
    """What is printed in which colours: pairs of "text" or "line" and red, green, blue."""
    data = pdf(name) if name in GALLERY else printed(name)
    found: set[tuple[str, Colour]] = set()
    with pikepdf.open(io.BytesIO(data)) as document:
        forms = [each for each in document.objects if is_form(each)]
        for each in [*document.pages, *forms]:
            found |= set(inks_of(each))
    return frozenset(found)


def is_form(found: pikepdf.Object) -> bool:
    return isinstance(found, pikepdf.Stream) and found.get("/Subtype") == "/Form"


def inks_of(content: pikepdf.Page | pikepdf.Object) -> Iterator[tuple[str, Colour]]:
    stack: list[tuple[Colour, Colour]] = []
    fill = stroke = (0.0, 0.0, 0.0)
    for step in pikepdf.parse_content_stream(content):
        sign = str(step.operator)
        assert sign not in PATTERNS, "a colour that this test cannot read"
        if sign == "q":
            stack.append((fill, stroke))
        elif sign == "Q":
            fill, stroke = stack.pop()
        elif sign in COLOURS:
            fill = rgb([float(value) for value in step.operands])
        elif sign.lower() in COLOURS:
            stroke = rgb([float(value) for value in step.operands])
        if sign in TEXT:
            yield "text", fill
        if sign in FILL:
            yield "line", fill
        if sign in STROKE:
            yield "line", stroke


def rgb(parts: list[float]) -> Colour:
    """Red, green and blue of 0 to 255; of inks, as they are reckoned without a profile."""
    if len(parts) == 1:
        parts = parts * 3
    if len(parts) == 4:
        parts = [(1 - part) * (1 - parts[3]) for part in parts[:3]]
    red, green, blue = (255 * part for part in parts)
    return red, green, blue


@pytest.mark.parametrize("name", [*NAMES, *GALLERY])
def test_all_ink_is_told_from_the_paper(name: str) -> None:
    """White is the paper inside a box, and the figure of a filled one."""
    assert {kind for kind, _ in inks(name)} == {"text", "line"}
    for kind, colour in inks(name) - {("text", WHITE), ("line", WHITE)}:
        assert contrast(colour, WHITE) >= (TEXT_CONTRAST if kind == "text" else LINE_CONTRAST)


@pytest.mark.parametrize("name", [*NAMES, *GALLERY])
def test_no_two_inks_differ_in_hue_alone(name: str) -> None:
    """Two colours that become the same grey say two things in colour and one without."""
    colours = {colour for _, colour in inks(name)}
    for one, other in combinations(colours, 2):
        assert abs(luminance(one) - luminance(other)) > 0.005, (one, other)


@pytest.mark.parametrize("name", [*NAMES, *GALLERY])
def test_no_ink_has_a_hue(name: str) -> None:
    """So a printer without colour changes nothing."""
    for _, (red, green, blue) in inks(name):
        assert red == green == blue
