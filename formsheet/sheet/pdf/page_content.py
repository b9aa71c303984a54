"""The contents of the pages of a PDF that the setter made, and what their operators name."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping
from typing import Any

from pydyf import PDF, Dictionary, Object, Stream

_DRAWN = re.compile(rb"/(\S+) Do")  # paints an object of the resources (ISO 32000-1, table 87)


def replace_images(pdf: PDF, fonts: Mapping[str, bytes], drawn: Callable[[int], bytes]) -> None:
    """Replace each image of the pages by operators, which may use `fonts` by name.

    `drawn` gives the operators for an image of a given width in pixels. ValueError if an image is
    left: then something else than a page paints it.
    """
    names: dict[str, Stream] = {}
    for page in dictionaries(pdf, Type="/Page"):
        content, resources = (found(pdf, page[key]) for key in ("Contents", "Resources"))
        found(pdf, resources["Font"]).update(fonts)
        images = _images(pdf, resources)
        content.stream = [_replaced(step, images, drawn) for step in content.stream]
        names |= images
    for page in dictionaries(pdf, Type="/Page"):
        objects = found(pdf, page["Resources"])["XObject"]
        for name in names.keys() & objects.keys():
            del objects[name]
    for image in names.values():
        _empty(pdf, image)
    if any(isinstance(each, Stream) and is_image(each) for each in pdf.objects):
        raise ValueError("a drawing is not in the content of a page")


def _replaced(
    step: bytes | str, images: Mapping[str, Stream], drawn: Callable[[int], bytes]
) -> bytes | str:
    """A step of a page's content, or the operators for the image that it paints."""
    paints = _DRAWN.fullmatch(step) if isinstance(step, bytes) else None
    image = images.get(paints[1].decode("ascii")) if paints else None
    return step if image is None else drawn(image.extra["Width"])


def _images(pdf: PDF, resources: Dictionary) -> dict[str, Stream]:
    """The images of a page by the names that its content has for them."""
    objects = {name: found(pdf, each) for name, each in resources["XObject"].items()}
    return {name: each for name, each in objects.items() if is_image(each)}


def is_image(stream: Stream) -> bool:
    """Whether a stream is an image."""
    return bool(stream.extra.get("Subtype") == "/Image")


def _empty(pdf: PDF, unused: Object) -> None:
    """Put an empty dictionary in the place of an object, since the others keep their numbers."""
    empty = Dictionary()
    empty.number = unused.number
    pdf.objects[unused.number] = empty


def dictionaries(pdf: PDF, **entries: str) -> Iterator[Dictionary]:
    """The dictionaries with these entries."""
    for each in pdf.objects:
        if isinstance(each, Dictionary) and all(each.get(k) == v for k, v in entries.items()):
            yield each


def found(pdf: PDF, reference: bytes) -> Any:
    """The object that a reference means."""
    return pdf.objects[int(reference.split()[0])]
