"""The values for the study page's template."""

from __future__ import annotations

from typing import Any

from formsheet.sheet.draw.look import Look
from formsheet.sheet.draw.paper import Paper
from formsheet.sheet.view import Sheet


def study(sheet: Sheet, paper: Paper, look: Look) -> dict[str, Any]:
    """The values for the study page of a sheet on its paper."""
    return {}
