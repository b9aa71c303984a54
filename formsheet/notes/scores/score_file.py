"""The XML of a score file, plain or compressed, within limits that are checked first.

MusicXML 4.0 has two forms: XML, and a ZIP archive whose `META-INF/container.xml` names the root
file. An archive is never unpacked beyond the limit, whatever it says of its sizes.
"""

from __future__ import annotations

import zipfile
from pathlib import Path
from typing import TYPE_CHECKING, Any

from formsheet.notes.melody import NotesError

if TYPE_CHECKING:  # the parser is loaded when a score is read
    from xml.etree.ElementTree import Element

SUFFIXES = (".musicxml", ".xml", ".mxl")

#: Largest score that is read, as a file and unzipped: a page of music has about 100 kB. Our own
#: choice.
MOST_BYTES = 8_000_000
#: Files in an archive, and elements inside each other. Our own choice; a score nests seven deep.
MOST_FILES = 100
DEEPEST = 60
_AGAIN = "export the score again as MusicXML"
_CONTAINER = "META-INF/container.xml"
_ZIP = b"PK\x03\x04"


def score_root(path: Path) -> Element:
    """The root element of a score; NotesError with one sentence where it cannot be read."""
    size = path.stat().st_size
    if size > MOST_BYTES:
        raise NotesError(_too_large(path, size, ""))
    data = path.read_bytes()
    if data[:4] == _ZIP:
        data = _unzipped(path)
    root = _parsed(path, data)
    if root.tag not in ("score-partwise", "score-timewise"):
        raise NotesError(f"{path} is XML, but not a MusicXML score; {_AGAIN}")
    return root


def _too_large(path: Path, size: int, unzipped: str) -> str:
    return (
        f"{path} has {size / 1e6:.0f} MB{unzipped}; scores up to {MOST_BYTES / 1e6:.0f} MB are "
        "read: export the harmonica's part alone"
    )


def _unzipped(path: Path) -> bytes:
    try:
        with zipfile.ZipFile(path) as archive:
            if len(archive.infolist()) > MOST_FILES:
                raise NotesError(f"{path} holds more than {MOST_FILES} files; {_AGAIN}")
            return _member(path, archive, _root_name(path, archive))
    except (zipfile.BadZipFile, NotImplementedError, RuntimeError, EOFError, OSError) as caught:
        raise NotesError(f"{path} cannot be unzipped ({caught}); {_AGAIN}") from None
    except Exception as caught:
        if isinstance(caught, NotesError):
            raise
        raise NotesError(f"{path} cannot be unzipped; {_AGAIN}") from None  # a damaged stream


def _root_name(path: Path, archive: zipfile.ZipFile) -> str:
    names = archive.namelist()
    if _CONTAINER in names:
        container = _parsed(path, _member(path, archive, _CONTAINER))
        for element in container.iter():
            found = element.get("full-path")
            if element.tag.endswith("rootfile") and found in names:
                return found
    for name in names:
        if Path(name).suffix.casefold() in SUFFIXES and not name.startswith("META-INF"):
            return name
    raise NotesError(f"{path} has no score in it; {_AGAIN}")


def _member(path: Path, archive: zipfile.ZipFile, name: str) -> bytes:
    """A file of the archive, read no further than the limit."""
    said = archive.getinfo(name).file_size
    if said > MOST_BYTES:
        raise NotesError(_too_large(path, said, " unzipped"))
    with archive.open(name) as file:
        data = file.read(MOST_BYTES + 1)
    if len(data) > MOST_BYTES:
        raise NotesError(_too_large(path, len(data), " or more unzipped"))
    return data


def _parsed(path: Path, data: bytes) -> Element:
    from xml.etree.ElementTree import ParseError, XMLPullParser

    if b"<!ENTITY" in data or "<!ENTITY".encode("utf-16-le") in data:
        raise NotesError(f"{path} defines entities, which a score has no use for; {_AGAIN}")
    parser: Any = XMLPullParser(("start", "end"))
    depth = 0
    root: Element | None = None
    try:
        for begin in range(0, len(data), 65_536):
            parser.feed(data[begin : begin + 65_536])
            for event, element in parser.read_events():
                root = element if root is None else root
                depth += 1 if event == "start" else -1
                if depth > DEEPEST:
                    raise NotesError(f"{path} nests its elements too deep for a score; {_AGAIN}")
        parser.close()
    except (ParseError, ValueError, LookupError) as caught:
        raise NotesError(f"{path} is not readable as MusicXML ({caught}); {_AGAIN}") from None
    if root is None:
        raise NotesError(f"{path} is empty; {_AGAIN}")
    return root
