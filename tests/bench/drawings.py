"""Our drawings turned back, lever by lever, into one inline SVG a bar with a text a mark.

The marks are the same; only how they are written differs.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from xml.etree import ElementTree

_SVG = "http://www.w3.org/2000/svg"
_IMAGE = re.compile(r'<img src="formsheet:/(drawing-\d+\.svg)"[^>]*?(style="[^"]*")?>')

ElementTree.register_namespace("", _SVG)


def text_a_mark(svg: str) -> str:
    """Each mark and each word in a text element of its own, in place of lists of places."""
    root = ElementTree.fromstring(svg)
    for parent in list(root.iter()):
        for at, child in reversed(list(enumerate(parent))):
            if child.tag == f"{{{_SVG}}}text" and child.text:
                parent.remove(child)
                for offset, (text, x, y) in enumerate(_marks(child)):
                    own = ElementTree.Element(child.tag, {**child.attrib, "x": x, "y": y})
                    own.text = text
                    parent.insert(at + offset, own)
    return ElementTree.tostring(root, encoding="unicode")


def _marks(element: ElementTree.Element) -> Iterator[tuple[str, str, str]]:
    """Characters that stand close to each other, with the place of the first."""
    text, near = element.text or "", float(element.get("font-size", "3")) * 0.9
    xs, ys = (element.get("x", "0").split(), element.get("y", "0").split())
    ys = ys * len(xs) if len(ys) == 1 else ys
    begin = 0
    for at in range(1, len(text) + 1):
        last = at == len(text)
        if last or float(xs[at]) - float(xs[at - 1]) > near or ys[at] != ys[at - 1]:
            yield text[begin:at], xs[begin], ys[begin]
            begin = at


def path_a_stroke(svg: str) -> str:
    """Each stroke of a path in a path of its own."""
    root = ElementTree.fromstring(svg)
    for parent in list(root.iter()):
        for at, child in reversed(list(enumerate(parent))):
            strokes = re.findall(r"M[^M]*", child.get("d") or "")
            if child.tag == f"{{{_SVG}}}path" and len(strokes) > 1 and child.get("fill") == "none":
                parent.remove(child)
                for offset, stroke in enumerate(strokes):
                    parent.insert(
                        at + offset, ElementTree.Element(child.tag, {**child.attrib, "d": stroke})
                    )
    return ElementTree.tostring(root, encoding="unicode")


def inlined(html: str, files: dict[str, bytes]) -> str:
    """The page with each drawing in place of its image."""

    def drawing(found: re.Match[str]) -> str:
        svg = files[found[1]].decode()
        return svg.replace("<svg ", f"<svg {found[2] or ''} ", 1)

    return _IMAGE.sub(drawing, html)
