"""The standard's own schema of MusicXML 4.0, from a package that carries it."""

from __future__ import annotations

from functools import cache
from importlib.resources import files
from pathlib import Path

import xmlschema


@cache
def musicxml_schema() -> xmlschema.XMLSchema:
    """The XSD of MusicXML 4.0, W3C Music Notation Community Group; nothing is fetched."""
    standard = files("musicxml").joinpath("generate_classes", "musicxml_4_0.xsd")
    ours = files("xmlschema").joinpath("schemas")
    return xmlschema.XMLSchema(
        str(standard),
        locations={
            "http://www.w3.org/XML/1998/namespace": _one_of(str(ours.joinpath("XML"))),
            "http://www.w3.org/1999/xlink": _one_of(str(ours.joinpath("XLINK"))),
        },
        allow="local",
    )


def _one_of(folder: str) -> str:
    return str(min(Path(folder).glob("*.xsd")))
