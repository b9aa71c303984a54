"""The files that a sheet may load during typesetting: only its own, from memory."""

from __future__ import annotations

from collections.abc import Mapping
from email.message import EmailMessage
from functools import cache

from formsheet.sheet.setter import URLFetcher, URLFetcherResponse

_TYPES = {"svg": "image/svg+xml", "jpg": "image/jpeg", "css": "text/css", "ttf": "font/ttf"}


class OwnFiles(URLFetcher):  # type: ignore[misc]
    """Serves files by address; any other address is an error that stops typesetting."""

    def __init__(self, files: Mapping[str, bytes]) -> None:
        super().__init__(allowed_protocols=(), fail_on_errors=True)
        self._files = files

    def fetch(self, url: str, headers: Mapping[str, str] | None = None) -> URLFetcherResponse:
        """The file at an address; ValueError for any other address."""
        if url not in self._files:
            raise ValueError(f"not a file of this sheet: {url}")
        return URLFetcherResponse(url, self._files[url], _headers(url.rsplit(".", 1)[-1]))


@cache
def _headers(ending: str) -> EmailMessage:
    """The headers of a file type; cached, since making them takes as long as all the rest."""
    message = EmailMessage()
    message["Content-Type"] = _TYPES[ending]
    return message
