"""The words that may be in braces after a note."""

from __future__ import annotations

#: Techniques of the trade. Common practice, no source.
TECHNIQUES = ("wah", "shake", "dip", "scoop", "vibrato", "flutter", "slap", "pull", "accent",
              "short")  # fmt: skip

#: To and fro between the natural notes of two neighbouring holes. Common practice, no source.
SHAKE = "shake"

#: Techniques that begin or end in a bend of the same note. Common practice, no source.
BENT_TECHNIQUES = frozenset({"dip", "scoop"})
