"""What the pages of a PDF paint (ISO 32000-1, 7.8: content streams and resources)."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping
from typing import Any

from pydyf import PDF, Dictionary, Stream

_DRAWN = re.compile(rb"/(\S+) Do")  # paints an object of the resources (ISO 32000-1, table 87)


def replace_images(pdf: PDF, fonts: Mapping[str, bytes], drawn: Callable[[int], bytes]) -> None:
    """Replace each image by operators, which may use `fonts` by name.

    `drawn` gives the operators for an image of a given width in pixels.
    """
    replaced: set[int] = set()
    for content, resources in list(_contents(pdf)):
        images = _images(pdf, resources)
        if images:
            found(pdf, resources["Font"]).update(fonts)
            content.stream = [_replaced(step, images, drawn) for step in content.stream]
            replaced |= {image.number for image in images.values()}
    for _, resources in _contents(pdf):
        for name in _images(pdf, resources):
            del resources["XObject"][name]
    for number in sorted(replaced):
        _empty(pdf, number)


def _contents(pdf: PDF) -> Iterator[tuple[Stream, Dictionary]]:
    """What paints, with its resources: the content of pages, and forms and patterns in them."""
    for page in dictionaries(pdf, Type="/Page"):
        yield found(pdf, page["Contents"]), found(pdf, page["Resources"])
    for each in pdf.objects:
        if isinstance(each, Stream) and "Resources" in each.extra:
            yield each, found(pdf, each.extra["Resources"])


def _replaced(
    step: bytes | str, images: Mapping[str, Stream], drawn: Callable[[int], bytes]
) -> bytes | str:
    """A step of a page's content, or the operators for the image that it paints."""
    paints = _DRAWN.fullmatch(step) if isinstance(step, bytes) else None
    image = images.get(paints[1].decode("ascii")) if paints else None
    return step if image is None else drawn(image.extra["Width"])


def _images(pdf: PDF, resources: Dictionary) -> dict[str, Stream]:
    """The images by the names that a content has for them."""
    objects = {name: found(pdf, each) for name, each in resources.get("XObject", {}).items()}
    return {name: each for name, each in objects.items() if each.extra["Subtype"] == "/Image"}


def _empty(pdf: PDF, number: int) -> None:
    """Put an empty dictionary in the place of an object, since the others keep their numbers."""
    pdf.objects[number] = Dictionary()
    pdf.objects[number].number = number


def dictionaries(pdf: PDF, **entries: str) -> Iterator[Dictionary]:
    """The dictionaries with these entries."""
    for each in pdf.objects:
        if isinstance(each, Dictionary) and all(each.get(k) == v for k, v in entries.items()):
            yield each


def found(pdf: PDF, reference: bytes) -> Any:
    """The object that a reference means."""
    return pdf.objects[int(reference.split()[0])]
