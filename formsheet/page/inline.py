"""Make a page self-contained and safe: faces, style and script are inside it, data is escaped,
and a content policy allows nothing else to run or load.
"""

from __future__ import annotations

import json
from base64 import b64encode
from functools import cache
from hashlib import sha256
from io import BytesIO

from formsheet.resources import resource
from formsheet.sheet.draw.typeface import FACE_FILES, FONTS

_FACES = {
    "regular": ("Lesson Sans", ""),
    "bold": ("Lesson Sans", "font-weight:700;"),
    "italic": ("Lesson Sans", "font-style:italic;"),
    "signs": ("Lesson Signs", ""),
}
_BREAKING = {"&": "\\u0026", "<": "\\u003c", ">": "\\u003e", "\u2028": "\\u2028",
             "\u2029": "\\u2029"}  # fmt: skip


def sources(*names: str) -> str:
    """The texts of some files of `templates/`, concatenated."""
    return "\n".join(resource("templates", name).read_text(encoding="utf-8") for name in names)


@cache
def faces_css() -> str:
    """A style sheet with the sheet's typefaces embedded, compressed as WOFF2."""
    return "\n".join(
        f'@font-face{{font-family:"{family}";{style}src:url(data:font/woff2;base64,{_woff2(face)})'
        'format("woff2")}'
        for face, (family, style) in _FACES.items()
    )


def _woff2(face: str) -> str:
    from fontTools.ttLib import TTFont  # slow to import

    with TTFont(FONTS / FACE_FILES[face], recalcTimestamp=False) as font:
        font.flavor = "woff2"
        packed = BytesIO()
        font.save(packed)
    return b64encode(packed.getvalue()).decode()


def json_in_html(value: object) -> str:
    """JSON for a script element, escaped so that it cannot end the element."""
    text = json.dumps(value, ensure_ascii=False, separators=(",", ":"), allow_nan=False)
    for character, escape in _BREAKING.items():
        text = text.replace(character, escape)
    return text


def policy(style: str, script: str = "") -> str:
    """A Content Security Policy (W3C) that allows only this style and script.

    A page with a script may also play what it has made itself: the silence for media keys.
    """
    media = "media-src data:; " if script else ""
    scripts = f"script-src {_digest(script)}; " if script else ""
    return (
        f"default-src 'none'; {scripts}style-src {_digest(style)}; font-src data:; {media}"
        "base-uri 'none'; form-action 'none'"
    )


def _digest(text: str) -> str:
    return f"'sha256-{b64encode(sha256(text.encode()).digest()).decode()}'"
