"""The key of the preview: a secret with which every address of it begins.

Anyone who uses this machine can ask a server on its loopback address, and can read in the list of
processes with which address a browser was begun. So a watch makes a key of its own, and the
address that is handed to a browser has a passing one, which leads to it, once and soon. A
cookie would go to every server of this machine, whatever its port (RFC 6265, 8.5).
"""

from __future__ import annotations

from dataclasses import dataclass, field
from secrets import compare_digest, token_urlsafe
from threading import Lock
from time import monotonic

_SIZE = 16  # bytes of chance
_SOON = 60.0  # seconds for which a passing key is good: a browser may be slow to begin


def _chance() -> str:
    return token_urlsafe(_SIZE)


@dataclass
class Key:
    """A key, and the passing one that leads to it."""

    text: str = field(default_factory=_chance, repr=False)
    _passing: str = field(default="", repr=False)
    _until: float = 0.0
    _lock: Lock = field(default_factory=Lock, repr=False)

    def fits(self, word: str) -> bool:
        """Whether a word is the key; takes as long whatever of it is right."""
        return _alike(word, self.text)

    def new_passing(self) -> str:
        """A passing key in place of the one before."""
        with self._lock:
            self._passing, self._until = _chance(), monotonic() + _SOON
            return self._passing

    def let_pass(self, word: str) -> bool:
        """Whether a word is the passing key; from then on it is none."""
        with self._lock:
            if monotonic() > self._until or not _alike(word, self._passing):
                return False
            self._until = 0.0
            return True


def _alike(word: str, key: str) -> bool:
    return compare_digest(word.encode("utf-8", "surrogateescape"), key.encode())
