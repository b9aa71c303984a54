"""The preview's server: whom it answers, what it serves, and what it does not.

Header fields: RFC 9110; Sec-Fetch-Site: W3C, Fetch Metadata Request Headers.
"""

from __future__ import annotations

import json
import socket
from collections.abc import Iterator
from dataclasses import replace
from http.client import HTTPConnection, HTTPResponse
from pathlib import Path
from threading import Thread
from time import monotonic
from urllib.parse import quote

import pytest

from formsheet.desk import key
from formsheet.desk.board import Board, Known, Standing
from formsheet.desk.server import PreviewServer, Site
from tests.helpers import problems_of

HOSTILE = "<script>harm()</script>.lesson"
SECRET = "not for you"


class Reader:
    """Asks a server that serves one good lesson, one broken and one hostile."""

    def __init__(self, folder: Path) -> None:
        self.board = Board()
        self.board.put(Known("a.lesson", "Porch", Standing.IN_ORDER).with_sheet("<p>A sheet</p>"))
        broken = problems_of('title <b>bold</b>\nlick "<i>" on I\n  q 4x <u>\n')
        self.board.put(Known("winter/b.lesson", "<b>", Standing.ERRORS, broken))
        self.board.put(Known(HOSTILE, "</title><script>harm()</script>", Standing.WAITING))
        self.out = folder / "handouts"
        (self.out / "a").mkdir(parents=True)
        (self.out / "a" / "sheet.pdf").write_bytes(b"%PDF-a")
        (folder / "secret.txt").write_text(SECRET, encoding="utf-8")
        site = Site(self.board, "lessons", self._pdf, self.out)
        self.server = PreviewServer(site, 0)
        self.key = self.server.key.text
        self.host = f"127.0.0.1:{self.server.port}"
        self._thread = Thread(target=self.server.serve_forever, args=(0.05,), daemon=True)
        self._thread.start()

    def _pdf(self, name: str) -> Path:
        return (self.out / name).with_suffix("") / "sheet.pdf"

    def ask(self, address: str, method: str = "GET", **headers: str) -> HTTPResponse:
        """The answer to an address behind the key."""
        return self.ask_without_key(f"/{self.key}{address}", method, **headers)

    def ask_without_key(self, address: str, method: str = "GET", **headers: str) -> HTTPResponse:
        connection = HTTPConnection("127.0.0.1", self.server.port, timeout=5)
        plain = {name.replace("_", "-"): value for name, value in headers.items()}
        connection.request(method, address, headers=plain)
        response = connection.getresponse()
        response.text = response.read().decode("utf-8", "replace")  # type: ignore[attr-defined]
        connection.close()
        return response

    def status(self, address: str, method: str = "GET", **headers: str) -> int:
        return self.ask(address, method, **headers).status

    def text(self, address: str) -> str:
        text: str = self.ask(address).text  # type: ignore[attr-defined]
        return text

    def raw(self, *lines: str) -> str:
        """The answer to a request written by hand."""
        with socket.create_connection(("127.0.0.1", self.server.port), timeout=5) as wire:
            wire.sendall("\r\n".join([*lines, "", ""]).encode())
            wire.shutdown(socket.SHUT_WR)
            data = b""
            while more := wire.recv(65536):
                data += more
        return data.decode("utf-8", "replace")

    def close(self) -> None:
        self.board.close()
        self.server.shutdown()
        self.server.server_close()
        self._thread.join(5)


@pytest.fixture
def reader(tmp_path: Path) -> Iterator[Reader]:
    made = Reader(tmp_path)
    yield made
    made.close()


# ---- Where it listens ------------------------------------------------------------------------


def test_it_listens_on_the_loopback_address_alone(reader: Reader) -> None:
    assert reader.server.socket.getsockname()[0] == "127.0.0.1"
    # RFC 1122, 3.2.1.3: all of 127/8 is this machine, and another address of it is not ours.
    with (
        pytest.raises(OSError),
        socket.create_connection(("127.0.0.2", reader.server.port), timeout=1),
    ):
        pass


# ---- What it serves --------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("address", "kind", "has"),
    [
        ("/", "text/html; charset=utf-8", "Porch"),
        ("/?x=1", "text/html; charset=utf-8", "Porch"),
        ("/lesson/a.lesson", "text/html; charset=utf-8", "in order"),
        ("/lesson/winter%2Fb.lesson", "text/html; charset=utf-8", "errors"),
        ("/sheet/a.lesson?number=1", "text/html; charset=utf-8", "A sheet"),
        ("/pdf/a.lesson", "application/pdf", "%PDF-a"),
        ("/own/desk.js", "text/javascript; charset=utf-8", "use strict"),
        ("/own/desk.css", "text/css; charset=utf-8", "Lesson Sans"),
        ("/own/sheet.css", "text/css; charset=utf-8", 'url("sans-regular.ttf")'),
        ("/own/sans-regular.ttf", "font/ttf", ""),
        ("/own/desk.svg", "image/svg+xml", "<svg"),
    ],
)
def test_what_is_served(reader: Reader, address: str, kind: str, has: str) -> None:
    response = reader.ask(address)
    assert (response.status, response.headers["Content-Type"]) == (200, kind)
    assert has in response.text  # type: ignore[attr-defined]


def test_head_is_get_without_its_body(reader: Reader) -> None:
    got, head = reader.ask("/"), reader.ask("/", "HEAD")
    assert head.headers["Content-Length"] == got.headers["Content-Length"]
    assert head.text == ""  # type: ignore[attr-defined]


@pytest.mark.parametrize(
    "address",
    [
        "/no", "/lesson/", "/lesson/no.lesson",
        "/sheet/winter%2Fb.lesson", "/pdf/winter%2Fb.lesson", "/lesson/winter/b.lesson",
        "/own/", "/own/list.html", "/own/../secret.txt", "/../secret.txt", "/%2e%2e/secret.txt",
        "/own/..%2f..%2fsecret.txt", "/own/%2e%2e/%2e%2e/templates/sheet.html", "//secret.txt",
        "/pdf/../secret.txt", "/pdf/..%2Fsecret", "/pdf/%00", "/pdf/a", "/pdf//a.lesson",
        "/pdf/..\\secret.txt", "/lesson/../../etc/passwd", "/sheet/%2Fetc%2Fpasswd",
        "/own/desk.css/", "/own/desk.css%00", "/OWN/desk.css",
    ],
)  # fmt: skip
def test_nothing_else_is_served(reader: Reader, address: str) -> None:
    line = f"GET /{reader.key}{address} HTTP/1.1"
    answer = reader.raw(line, f"Host: {reader.host}", "Connection: close")
    assert answer.startswith("HTTP/1.1 404 ")
    assert SECRET not in answer


def test_a_link_out_of_the_handouts_is_not_followed(reader: Reader, tmp_path: Path) -> None:
    pdf = reader.out / "a" / "sheet.pdf"
    pdf.unlink()
    pdf.symlink_to(tmp_path / "secret.txt")
    assert reader.status("/pdf/a.lesson") == 404


def test_a_name_that_is_known_but_leads_out_is_not_followed(reader: Reader) -> None:
    """No such name comes from a folder; if one did, its PDF would not be had."""
    (reader.out.parent / "sheet.pdf").write_text(SECRET, encoding="utf-8")
    reader.board.put(Known("../.lesson", "", Standing.IN_ORDER))
    assert reader.status("/pdf/..%2F.lesson") == 404


# ---- Whom it answers -------------------------------------------------------------------------


def test_it_answers_to_its_own_names(reader: Reader) -> None:
    port = reader.server.port
    assert reader.status("/", Host=f"localhost:{port}") == 200
    assert reader.status("/", Host=f"LocalHost:{port}") == 200


@pytest.mark.parametrize(
    "host",
    ["lessons.example", "lessons.example:{port}", "127.0.0.1", "localhost:1", "127.0.0.1:{port}0",
     "127.0.0.1.lessons.example:{port}", "[::1]:{port}", "127.0.0.1:{port}@lessons.example",
     "0.0.0.0:{port}", ""],
)  # fmt: skip
def test_it_answers_to_no_other_host(reader: Reader, host: str) -> None:
    """A name that its owner has made to mean this machine."""
    response = reader.ask("/", Host=host.format(port=reader.server.port))
    assert response.status == 403
    assert "Porch" not in response.text  # type: ignore[attr-defined]


@pytest.mark.parametrize("hosts", [[], ["{own}", "{own}"], ["{own}", "lessons.example"]])
def test_it_wants_one_host(reader: Reader, hosts: list[str]) -> None:
    lines = [f"Host: {host.format(own=reader.host)}" for host in hosts]
    answer = reader.raw("GET / HTTP/1.1", *lines, "Connection: close")
    assert answer.startswith("HTTP/1.1 400 ")


@pytest.mark.parametrize("address", ["/", "/events", "/sheet/a.lesson", "/pdf/a.lesson"])
@pytest.mark.parametrize(
    "headers",
    [
        {"Origin": "http://lessons.example"},
        {"Origin": "null"},
        {"Origin": "http://127.0.0.1:1"},
        {"Origin": "https://{host}"},
        {"Sec_Fetch_Site": "cross-site"},
        {"Sec_Fetch_Site": "same-site"},
        {"Host": "lessons.example"},
    ],
)
def test_other_sites_are_refused(reader: Reader, address: str, headers: dict[str, str]) -> None:
    full = {name: value.format(host=reader.host) for name, value in headers.items()}
    assert reader.status(address, **full) == 403


@pytest.mark.parametrize("site", ["same-origin", "none"])
def test_its_own_pages_are_answered(reader: Reader, site: str) -> None:
    assert reader.status("/", Sec_Fetch_Site=site, Origin=f"http://{reader.host}") == 200


@pytest.mark.parametrize(
    "method", ["POST", "PUT", "PATCH", "DELETE", "OPTIONS", "TRACE", "CONNECT"]
)
def test_it_is_for_reading_only(reader: Reader, method: str) -> None:
    response = reader.ask("/lesson/a.lesson", method)
    assert (response.status, response.headers["Allow"]) == (405, "GET, HEAD")


def test_a_method_that_nobody_knows(reader: Reader) -> None:
    assert reader.raw("MAKE / HTTP/1.1", f"Host: {reader.host}").startswith("HTTP/1.1 501 ")


@pytest.mark.parametrize("line", ["Content-Length: 5", "Transfer-Encoding: chunked"])
def test_a_request_with_a_body_is_refused_and_the_body_not_read(reader: Reader, line: str) -> None:
    answer = reader.raw("GET / HTTP/1.1", f"Host: {reader.host}", line, "", "GET / HTTP/1.1")
    assert answer.startswith("HTTP/1.1 400 ")
    assert answer.count("HTTP/1.1") == 1


# ---- The key -------------------------------------------------------------------------------------


@pytest.mark.parametrize("behind", ["", "/", "/events", "/own/desk.css", "/lesson/a.lesson",
                                    "/sheet/a.lesson", "/pdf/a.lesson"])  # fmt: skip
@pytest.mark.parametrize(
    "word", ["", "wrong", "{key}x", "{short}", "{lower}", "%{hex}{rest}", "x/{key}", "./{key}", "é"]
)
def test_nothing_is_had_without_the_key(reader: Reader, word: str, behind: str) -> None:
    right = reader.key
    found = word.format(key=right, short=right[:-1], lower=right.swapcase(),
                       hex=f"{ord(right[0]):x}", rest=right[1:])  # fmt: skip
    for method in ("GET", "HEAD"):
        line = f"{method} /{found}{behind} HTTP/1.1"
        answer = reader.raw(line, f"Host: {reader.host}", "Connection: close")
        assert answer.startswith("HTTP/1.1 403 ")
        assert right not in answer
        assert not any(kept in answer for kept in ("Porch", "A sheet", "PDF-a", "data:"))
        assert ("in the terminal" in answer) == (method == "GET")


@pytest.mark.parametrize("target", ["*", "http://[/", "http://{host}/{key}/", "/?{key}/"])
def test_a_target_that_is_no_path(reader: Reader, target: str) -> None:
    line = f"GET {target.format(host=reader.host, key=reader.key)} HTTP/1.1"
    answer = reader.raw(line, f"Host: {reader.host}", "Connection: close")
    assert answer.startswith("HTTP/1.1 403 ")


def test_each_watch_has_a_key_of_its_own(reader: Reader) -> None:
    with PreviewServer(reader.server.site, 0) as other:
        assert other.key.text != reader.key
        assert len(other.key.text) >= 22  # 128 bits, six a letter


def test_an_address_without_its_last_stroke_is_led_on(reader: Reader) -> None:
    response = reader.ask("")
    assert (response.status, response.headers["Location"]) == (303, f"/{reader.key}/")


def passing(reader: Reader) -> str:
    """What a browser is opened with, from behind the host."""
    return reader.server.passing_address().removeprefix(f"http://{reader.host}")


def test_the_passing_key_leads_to_the_key_once(reader: Reader) -> None:
    """Its address stands in the list of processes."""
    address = passing(reader)
    assert reader.key not in address
    assert reader.ask_without_key(address, "HEAD").status == 403
    assert reader.ask_without_key(address, Host="lessons.example").status == 403
    assert reader.ask_without_key(f"{address}/").status == 403
    first = reader.ask_without_key(address)
    assert (first.status, first.headers["Location"]) == (303, f"/{reader.key}/")
    again = reader.ask_without_key(address)
    assert (again.status, again.headers["Location"]) == (403, None)


def test_a_passing_key_is_not_good_for_long(
    reader: Reader, monkeypatch: pytest.MonkeyPatch
) -> None:
    address = passing(reader)
    now = monotonic()
    monkeypatch.setattr(key, "monotonic", lambda: now + 61)
    assert reader.ask_without_key(address).status == 403


def test_a_new_passing_key_ends_the_one_before(reader: Reader) -> None:
    before, after = passing(reader), passing(reader)
    assert reader.ask_without_key(before).status == 403
    assert reader.ask_without_key(after).status == 303


def test_pages_say_nothing_of_the_key(reader: Reader) -> None:
    """They lead on from where they are; what is kept of one opens nothing."""
    for address in ("/", "/lesson/a.lesson", "/sheet/a.lesson", "/own/desk.js", "/no"):
        response = reader.ask(address)
        assert reader.key not in f"{response.headers}{response.text}"  # type: ignore[attr-defined]
        assert response.headers["Referrer-Policy"] == "no-referrer"


# ---- What it says of its answers -------------------------------------------------------------


@pytest.mark.parametrize(
    "address", ["/", "/lesson/a.lesson", "/sheet/a.lesson", "/pdf/a.lesson", "/own/desk.js", "/no"]
)
def test_headers_of_every_answer(reader: Reader, address: str) -> None:
    headers = reader.ask(address).headers
    assert headers["X-Content-Type-Options"] == "nosniff"
    assert headers["Cache-Control"] == "no-store"
    assert headers["Cross-Origin-Resource-Policy"] == "same-origin"
    assert "frame-ancestors" in headers["Content-Security-Policy"]
    assert "Access-Control-Allow-Origin" not in headers


def test_pages_run_no_script_but_ours(reader: Reader) -> None:
    policy = reader.ask("/").headers["Content-Security-Policy"]
    assert "default-src 'none'" in policy
    assert "script-src 'self'" in policy
    assert "unsafe" not in policy


def test_a_sheet_runs_no_script_at_all(reader: Reader) -> None:
    policy = reader.ask("/sheet/a.lesson").headers["Content-Security-Policy"]
    assert "default-src 'none'" in policy
    assert "script-src" not in policy
    assert "sandbox allow-same-origin" in policy


@pytest.mark.parametrize(
    "address",
    ["/", "/lesson/winter%2Fb.lesson", "/lesson/%3Cscript%3Eharm()%3C%2Fscript%3E.lesson"],
)
def test_words_of_lessons_are_words_on_the_page(reader: Reader, address: str) -> None:
    page = reader.text(address)
    assert "<main>" in page
    assert not any(harm in page for harm in ("<script>", "<b>bold", "<u>", "<i>&quot;"))
    assert page.count("</title>") == 1


def test_names_that_are_no_text(reader: Reader) -> None:
    """A byte that is no UTF-8, as the file system gives it (PEP 383)."""
    reader.board.put(Known("caf\udce9.lesson", standing=Standing.IN_ORDER))
    assert 'href="lesson/caf%E9.lesson">caf\ufffd.lesson<' in reader.text("/")
    assert reader.status("/lesson/caf%E9.lesson") == 200


def test_an_error_says_nothing_of_what_was_asked(reader: Reader) -> None:
    response = reader.ask("/<script>")
    assert response.headers["Content-Type"].startswith("text/plain")
    assert "<" not in response.text  # type: ignore[attr-defined]


# ---- What was good before ----------------------------------------------------------------------


def test_a_pdf_from_before_the_mistakes_is_named_so(reader: Reader) -> None:
    link = 'pdf/winter%2Fb.lesson">the last good sheet.pdf</a>'
    assert link not in reader.text("/") + reader.text("/lesson/winter%2Fb.lesson")
    (reader.out / "winter" / "b").mkdir(parents=True)
    (reader.out / "winter" / "b" / "sheet.pdf").write_bytes(b"%PDF-b")
    assert link in reader.text("/")
    assert f"../{link}" in reader.text("/lesson/winter%2Fb.lesson")


def test_a_folder_without_lessons_says_what_to_do(reader: Reader) -> None:
    for known in reader.board.all()[1]:
        reader.board.put(replace(known, standing=Standing.GONE))
    assert "<code>formsheet new lessons/NAME</code>" in reader.text("/")


# ---- Problems in the page --------------------------------------------------------------------


def test_problems_stand_in_the_page_as_in_the_terminal(reader: Reader) -> None:
    page = reader.text("/lesson/winter%2Fb.lesson")
    assert "test.lesson:3:5" in page
    assert "note-breath" in page
    assert '<span class="number">3</span>  q <mark>4x</mark>' in page
    assert '<p class="hint">' in page


# ---- News ------------------------------------------------------------------------------------


class Stream:
    """A page that listens."""

    def __init__(self, reader: Reader, query: str, **headers: str) -> None:
        self.connection = HTTPConnection("127.0.0.1", reader.server.port, timeout=5)
        self.connection.request("GET", f"/{reader.key}/events{query}", headers=headers)
        self.response = self.connection.getresponse()

    def news(self) -> dict[str, object]:
        """The next that is told."""
        while line := self.response.readline().decode():
            if line.startswith("data: "):
                found: dict[str, object] = json.loads(line.removeprefix("data: "))
                return found
        raise AssertionError("the stream has ended")

    def close(self) -> None:
        self.connection.close()


def test_news_are_told_as_they_come(reader: Reader) -> None:
    number, (_, known, *_) = reader.board.all()
    stream = Stream(reader, f"?since={number}")
    assert stream.response.headers["Content-Type"] == "text/event-stream"
    reader.board.put(replace(known, title="Another"))
    assert stream.news() == {"number": number + 1, "names": [quote(known.name, safe="")]}
    stream.close()


@pytest.mark.parametrize("query", ["", "?since=x", "?since=-1", "?since=%B2", "?run=0"])
def test_a_page_that_knows_nothing_is_told_at_once(reader: Reader, query: str) -> None:
    stream = Stream(reader, query)
    assert stream.news()["number"] == 3
    stream.close()


def test_a_page_that_comes_back_is_told_what_it_missed(reader: Reader) -> None:
    stream = Stream(reader, "?since=0", **{"Last-Event-ID": "1"})
    names = stream.news()["names"]
    assert isinstance(names, list)
    assert len(names) == 2
    stream.close()
