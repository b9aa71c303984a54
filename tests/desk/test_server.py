"""The preview's server: whom it answers, what it serves, and what it does not.

Header fields: RFC 9110; Sec-Fetch-Site: W3C, Fetch Metadata Request Headers.
"""

from __future__ import annotations

import json
import socket
from dataclasses import replace
from http.client import HTTPConnection
from pathlib import Path
from urllib.parse import quote

import pytest

from formsheet.desk.board import Known, Standing
from tests.desk.reader import SECRET, Reader

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


@pytest.mark.parametrize(
    ("name", "saved_as"),
    [("a", "a.pdf"), ("winter/late", "late.pdf"), ("日本 x", "%E6%97%A5%E6%9C%AC%20x.pdf"),
     ('a"\r\nX: y', "a%22%0D%0AX%3A%20y.pdf"), ("caf\udce9", "caf%3F.pdf")],
)  # fmt: skip
def test_a_pdf_is_saved_under_the_name_of_its_lesson(
    reader: Reader, name: str, saved_as: str
) -> None:
    reader.board.put(Known(f"{name}.lesson", standing=Standing.IN_ORDER))
    (reader.out / name).mkdir(parents=True, exist_ok=True)
    (reader.out / name / "sheet.pdf").write_bytes(b"%PDF")
    headers = reader.ask(
        f"/pdf/{quote(f'{name}.lesson', safe='', errors='surrogateescape')}"
    ).headers
    assert headers["Content-Disposition"] == f"inline; filename*=UTF-8''{saved_as}"
    assert "X" not in headers


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
