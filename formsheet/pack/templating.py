"""The one way in which templates are filled: everything is escaped, nothing may be missing."""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING

from formsheet.pack.draw.canvas import Canvas
from formsheet.pack.draw.svg import svg
from formsheet.pack.draw.words import accidentals
from formsheet.resources import resource_folder

if TYPE_CHECKING:
    from jinja2 import Environment
    from markupsafe import Markup


@cache
def environment() -> Environment:
    """The templates of `templates/`."""
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
    return made


def _svg(drawing: Canvas) -> Markup:
    """A drawing in the page itself."""
    from markupsafe import Markup

    return Markup(svg(drawing))
