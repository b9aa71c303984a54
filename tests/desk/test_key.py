"""The key of the preview: nothing is had without it, and how a browser comes by it."""

from __future__ import annotations

from time import monotonic

import pytest

from formsheet.desk import key
from formsheet.desk.server import PreviewServer
from tests.desk.reader import Reader


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
