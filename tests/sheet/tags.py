"""The tags of a printed sheet, as a PDF library reads them."""

from __future__ import annotations

import io
from collections.abc import Iterator
from dataclasses import dataclass, field
from functools import cached_property
from typing import Any

import pypdf


@dataclass(frozen=True)
class Tag:
    """An element of the structure: its kind, its words for the ear, what it holds."""

    kind: str  # "H1", "Figure", "TD" ...
    name: str  # its identifier: header cells have one
    alt: str
    box: tuple[float, ...]  # of a figure, as written: CSS pixels from the page's top left
    attributes: dict[str, Any]
    pieces: tuple[tuple[int, int], ...]  # page from 0 and number of each piece of its own content
    children: tuple[Tag, ...] = field(default=())

    def walk(self) -> Iterator[Tag]:
        """This and all below, in reading order."""
        yield self
        for child in self.children:
            yield from child.walk()


class Tagged:
    """A PDF and the tree of its tags."""

    def __init__(self, data: bytes) -> None:
        self.reader = pypdf.PdfReader(io.BytesIO(data))
        self.root: Any = self.reader.trailer["/Root"]
        self._pages = {
            page.indirect_reference.idnum: i
            for i, page in enumerate(self.reader.pages)
            if page.indirect_reference
        }

    @cached_property
    def tags(self) -> tuple[Tag, ...]:
        """All elements in reading order."""
        tops = _listed(self.root["/StructTreeRoot"].get("/K"))
        return tuple(tag for top in tops for tag in self._tag(top, -1).walk())

    def _tag(self, element: Any, page: int) -> Tag:
        element = element.get_object()
        if "/Pg" in element:
            page = self._pages[element.raw_get("/Pg").idnum]
        pieces, children = [], []
        for kid in _listed(element.get("/K")):
            whole = kid.get_object()
            if isinstance(whole, int):
                pieces.append((page, int(whole)))
            elif "/MCID" in whole:
                at = self._pages[whole.raw_get("/Pg").idnum] if "/Pg" in whole else page
                pieces.append((at, int(whole["/MCID"])))
            elif "/S" in whole:
                children.append(self._tag(whole, page))
        attributes: dict[str, Any] = {}
        for one in _listed(element.get("/A")):
            attributes |= one.get_object()
        box = tuple(float(side) for side in attributes.get("/BBox", ()))
        return Tag(
            str(element["/S"])[1:],
            str(element.get("/ID", "")),
            str(element.get("/Alt", "")),
            box,
            attributes,
            tuple(pieces),
            tuple(children),
        )


def _listed(kids: Any) -> list[Any]:
    if kids is None:
        return []
    kids = kids.get_object() if isinstance(kids, pypdf.generic.IndirectObject) else kids
    return list(kids) if isinstance(kids, list) else [kids]
