"""Where the top-level data folders `grammar/` and `templates/` are found.

In a checkout (or an editable install) they lie beside the package; a wheel carries them inside
the package, under `_data/`.
"""

from __future__ import annotations

from pathlib import Path
from typing import Literal

Kind = Literal["grammar", "templates"]

_PACKAGE = Path(__file__).resolve().parent
_HOMES = (_PACKAGE / "_data", _PACKAGE.parent)


def resource_folder(kind: Kind) -> Path:
    """The folder of all resources of a kind; FileNotFoundError where the installation is broken."""
    for home in _HOMES:
        if (home / kind).is_dir():
            return home / kind
    raise FileNotFoundError(f"the folder {kind}/ of formsheet is missing: install it again")


def resource(kind: Kind, name: str) -> Path:
    """The path of a resource file; FileNotFoundError where the installation is broken."""
    path = resource_folder(kind) / name
    if not path.is_file():
        raise FileNotFoundError(f"the file {kind}/{name} of formsheet is missing: install it again")
    return path
