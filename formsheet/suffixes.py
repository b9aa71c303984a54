"""The suffixes of lesson files and shelf files."""

from __future__ import annotations

LESSON_SUFFIX = ".lesson"
SHELF_SUFFIX = ".licks"
