"""The key of the preview: a secret at the start of each of its addresses.

Any user of this machine can reach a server on the loopback address, and can see in the list of
processes the address with which a browser was started. So each watch makes a new key, and the
browser is given a one-time token, valid for a short time, that redirects to the address with the
key. A cookie would be sent to every server of this machine, on any port (RFC 6265, 8.5).
"""

from __future__ import annotations

from dataclasses import dataclass, field
from secrets import compare_digest, token_urlsafe
from threading import Lock
from time import monotonic

_SIZE = 16  # random bytes
_SOON = 60.0  # seconds for which a token is valid: a browser may be slow to start


def _chance() -> str:
    return token_urlsafe(_SIZE)


@dataclass
class Key:
    """A key, and the one-time token that leads to it."""

    text: str = field(default_factory=_chance, repr=False)
    _passing: str = field(default="", repr=False)
    _until: float = 0.0
    _lock: Lock = field(default_factory=Lock, repr=False)

    def fits(self, word: str) -> bool:
        """Whether a word is the key; compared in constant time."""
        return _alike(word, self.text)

    def new_passing(self) -> str:
        """A new one-time token; the one before is no longer valid."""
        with self._lock:
            self._passing, self._until = _chance(), monotonic() + _SOON
            return self._passing

    def let_pass(self, word: str) -> bool:
        """Whether a word is the valid token; this uses it up."""
        with self._lock:
            if monotonic() > self._until or not _alike(word, self._passing):
                return False
            self._until = 0.0
            return True


def _alike(word: str, key: str) -> bool:
    return compare_digest(word.encode("utf-8", "surrogateescape"), key.encode())
