"""Which requests the preview answers: reads by a local browser, from one of the preview's pages.

`key.py` makes sure that it is a browser of the same user.

A page of another site can make a browser send requests to this server, by its address or by a
domain name that it lets point to this machine. So the Host and Origin headers must name this
server, and the browser must report the request as same-origin (Fetch Metadata Request Headers,
W3C).
"""

from __future__ import annotations

from dataclasses import dataclass
from email.message import Message
from http import HTTPStatus

LOOPBACK = "127.0.0.1"
_NAMES = (LOOPBACK, "localhost")
_OWN_SITES = ("same-origin", "none")  # "none": typed in, or opened by another program


@dataclass(frozen=True)
class Refusal:
    """Why a request is not answered."""

    status: HTTPStatus
    words: str


def refusal(headers: Message, port: int) -> Refusal | None:
    """Why a request with these headers is refused; None if it is answered."""
    hosts = headers.get_all("Host", [])
    if len(hosts) != 1:
        return Refusal(HTTPStatus.BAD_REQUEST, "a request needs exactly one Host header")
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
        return Refusal(HTTPStatus.BAD_REQUEST, "this server is read-only")
    return None


#: A request without the key.
NO_KEY = Refusal(
    HTTPStatus.FORBIDDEN,
    "Open the preview by its full address.\n"
    "`formsheet watch` prints it in the terminal after `Preview:`.\n"
    "It changes each time `formsheet watch` is started.",
)

#: Headers of every answer.
ALWAYS = {
    "X-Content-Type-Options": "nosniff",
    "Cache-Control": "no-store",
    "Referrer-Policy": "no-referrer",
    "Cross-Origin-Resource-Policy": "same-origin",
    "Cross-Origin-Opener-Policy": "same-origin",
}

#: Content policy of the preview's pages: run their script, fetch from this server, show a sheet.
PAGE_POLICY = (
    "default-src 'none'; script-src 'self'; style-src 'self'; font-src 'self'; "
    "img-src 'self'; connect-src 'self'; frame-src 'self'; base-uri 'none'; form-action 'none'; "
    "frame-ancestors 'none'"
)
#: Content policy of a sheet: inline styles, and nothing that runs or loads.
SHEET_POLICY = (
    "default-src 'none'; style-src 'self' 'unsafe-inline'; font-src 'self'; base-uri 'none'; "
    "form-action 'none'; frame-ancestors 'self'; sandbox allow-same-origin"
)
#: Content policy of all else. A stricter one would stop the PDF viewer of the browser.
FILE_POLICY = "frame-ancestors 'none'"
