"""Elements of XML, made in a line each."""

from __future__ import annotations

from xml.etree.ElementTree import Element, SubElement


def add(parent: Element, tag: str, text: object = None, /, **attributes: str) -> Element:
    """A new last child; in an attribute's name `_` stands for the hyphen."""
    named = {name.replace("_", "-"): value for name, value in attributes.items()}
    element = SubElement(parent, tag, named)
    if text is not None:
        element.text = str(text)
    return element
