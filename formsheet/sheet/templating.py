"""The template environment: everything is escaped, and a missing value is an error."""

from __future__ import annotations

import re
from functools import cache
from typing import TYPE_CHECKING

from formsheet.resources import resource_folder
from formsheet.sheet.draw.canvas import Canvas
from formsheet.sheet.draw.svg import svg
from formsheet.sheet.draw.words import accidentals
from formsheet.sheet.tab_text import pieces

#: Apostrophes after a hole, escaped, before the word of its breath.
_TICKS = re.compile("(?<=[0-9])((?:&#39;)+)(?= (?:draw|blow))")

if TYPE_CHECKING:
    from jinja2 import Environment
    from markupsafe import Markup


@cache
def environment() -> Environment:
    """The environment for the templates in `templates/`."""
    from jinja2 import Environment, FileSystemLoader, StrictUndefined

    made = Environment(
        loader=FileSystemLoader(resource_folder("templates")),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    made.filters["accidentals"] = accidentals
    made.filters["svg"] = _svg
    made.filters["ticked"] = _ticked
    made.filters["pieces"] = _pieces
    return made


def _svg(drawing: Canvas) -> Markup:
    """A drawing as inline SVG."""
    from markupsafe import Markup

    return Markup(svg(drawing))


def _pieces(text: str) -> Markup:
    """The holes of a chord, of which "draw 1–4" or a range is never broken."""
    from markupsafe import Markup

    return Markup(" ").join(
        Markup('<span class="whole">{}</span>').format(piece) for piece in pieces(text)
    )


def _ticked(text: str) -> Markup:
    """A text with the ticks of bends, as in "3'' draw", from the face of signs."""
    from markupsafe import Markup, escape

    return Markup(_TICKS.sub(r'<span class="tick">\1</span>', str(escape(text))))
