"""How the names of our files end."""

from __future__ import annotations

LESSON_SUFFIX = ".lesson"
SHELF_SUFFIX = ".licks"
