"""Whom the preview answers: this machine's own browser, on a page of its own, reading.

That it is the browser of the same user is for the key to tell (`key.py`).

A page of another site can make a browser ask this server, by its address or by a name that it
has made to mean this machine. So the names of host and origin must be ours, and what the browser
says of where a request comes from must be this server (Fetch Metadata Request Headers, W3C).
"""

from __future__ import annotations

from dataclasses import dataclass
from email.message import Message
from http import HTTPStatus

LOOPBACK = "127.0.0.1"
_NAMES = (LOOPBACK, "localhost")
_OWN_SITES = ("same-origin", "none")  # "none": typed in, or opened from outside a browser


@dataclass(frozen=True)
class Refusal:
    """Why a request is not answered."""

    status: HTTPStatus
    words: str


def refusal(headers: Message, port: int) -> Refusal | None:
    """Why a request with these headers is not answered; None if it is."""
    hosts = headers.get_all("Host", [])
    if len(hosts) != 1:
        return Refusal(HTTPStatus.BAD_REQUEST, "one Host header is wanted")
    ours = {f"{name}:{port}" for name in _NAMES}
    if hosts[0].strip().lower() not in ours:
        return Refusal(HTTPStatus.FORBIDDEN, "this server answers to its own name only")
    origins = {f"http://{host}" for host in ours}
    if any(each.strip().lower() not in origins for each in headers.get_all("Origin", [])):
        return Refusal(HTTPStatus.FORBIDDEN, "this server answers its own pages only")
    sites = headers.get_all("Sec-Fetch-Site", [])
    if any(each.strip().lower() not in _OWN_SITES for each in sites):
        return Refusal(HTTPStatus.FORBIDDEN, "this server answers its own pages only")
    if headers.get("Transfer-Encoding") or headers.get("Content-Length", "0").strip() != "0":
        return Refusal(HTTPStatus.BAD_REQUEST, "only reading is allowed")
    return None


#: Who has no key.
NO_KEY = Refusal(
    HTTPStatus.FORBIDDEN,
    "The preview answers to its whole address only.\n"
    "It is shown in the terminal in which `formsheet watch` runs, behind `Preview:`,\n"
    "and is another each time that a watch is begun.",
)

#: Of every answer.
ALWAYS = {
    "X-Content-Type-Options": "nosniff",
    "Cache-Control": "no-store",
    "Referrer-Policy": "no-referrer",
    "Cross-Origin-Resource-Policy": "same-origin",
    "Cross-Origin-Opener-Policy": "same-origin",
}

#: What our own pages may do: run our script, fetch from here, show a sheet.
PAGE_POLICY = (
    "default-src 'none'; script-src 'self'; style-src 'self'; font-src 'self'; "
    "img-src 'self'; connect-src 'self'; frame-src 'self'; base-uri 'none'; form-action 'none'; "
    "frame-ancestors 'none'"
)
#: What a sheet may do: nothing but look as it does. Its measures stand in its own marks.
SHEET_POLICY = (
    "default-src 'none'; style-src 'self' 'unsafe-inline'; font-src 'self'; base-uri 'none'; "
    "form-action 'none'; frame-ancestors 'self'; sandbox allow-same-origin"
)
#: Of everything else. A browser shows a PDF by means of its own, which a stricter one would stop.
FILE_POLICY = "frame-ancestors 'none'"
