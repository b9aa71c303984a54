"""Make XML elements in one line each."""

from __future__ import annotations

from xml.etree.ElementTree import Element, SubElement


def add(parent: Element, tag: str, text: object = None, /, **attributes: str) -> Element:
    """Append a child element; `_` in an attribute name becomes a hyphen."""
    named = {name.replace("_", "-"): value for name, value in attributes.items()}
    element = SubElement(parent, tag, named)
    if text is not None:
        element.text = str(text)
    return element
