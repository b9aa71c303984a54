"""Lessons that mean harm, and files with odd names, in the live preview: seen in a browser."""

from __future__ import annotations

import os
from collections.abc import Iterator
from urllib.parse import quote

import pytest
from playwright.sync_api import Browser, Frame, Page

from formsheet.problems.drawing import shown_text
from tests.desk.live import LONGEST, Live
from tests.desk.told import GOOD
from tests.faults.test_hostile import HARM, hostile_text
from tests.faults.test_hostile_files import ODD
from tests.helpers import lesson_text

TEXTS = (
    *HARM, *ODD, "javascript:alert(1)", "\"><img src=x onerror=alert(1)>", "a\0b\x1b[31mc",
    "\u202ean override that is never closed", "日本語のとても長いタイトル" * 8,
)  # fmt: skip
NAMES = (
    "<b>", "--out", "a\"b'", "%2e%2e", "a..%2f", "new\nline", "a?b#c&d;e", "c\\d",
    "\u202etxt", "x" * 240, "javascript:alert(1)",
    "'><img src=x onerror=alert(1)>", "&amp;", "{{x}}", "日本",
    os.fsdecode(b"caf\xe9"), "<i>/<u>",
)  # fmt: skip
#: Of problems.
TOLD = {"SECTION", "ARTICLE", "H2", "H3", "CODE", "PRE", "MARK", "I"}

_WIDTHS = "[document.documentElement.scrollWidth, document.documentElement.clientWidth]"
_ELEMENTS = "[...new Set([...document.querySelectorAll('*')].map(each => each.tagName))]"
_HANDLERS = """[...document.querySelectorAll('*')].flatMap(each => each.getAttributeNames())
    .filter(name => name.startsWith('on'))"""


def read(text: str) -> str:
    """What a lesson's title is then."""
    return text.replace('"', "'").translate({0: 0xFFFD, 0x1B: 0xFFFD})


def broken(text: str) -> str:
    """A lesson whose mistakes hold it: each is told in a message, in its line, or in a hint."""
    quoted = text.replace('"', "'")
    body = (
        f"use {quoted} from {quoted}\nlick {quoted} on {quoted}\n"
        f'  q {quoted} 2d{{{quoted}}} 4d"{quoted}\n'
        f"play\n  every {quoted} {quoted}\n  bar 9 none{quoted}\n  {quoted}\n"
    )
    return lesson_text(body, title=quoted, harp=quoted, form=quoted, tempo=quoted, feel=quoted)


class Window:
    """A page as wide as a phone, and whatever it should not do."""

    def __init__(self, page: Page, live: Live) -> None:
        self.page, self.live = page, live
        self.complaints: list[str] = []
        page.on("console", lambda said: self.complaints.append(said.text))
        page.on("pageerror", lambda error: self.complaints.append(str(error)))
        page.on("dialog", lambda dialog: self.complaints.append(dialog.message))
        page.on("request", lambda request: self._watch(request.url))
        page.on("response", lambda answer: self._listen(answer.status, answer.url))

    def _watch(self, address: str) -> None:
        if not address.startswith(self.live.address):
            self.complaints.append(f"asked for {address}")

    def _listen(self, status: int, address: str) -> None:
        if status not in (200, 503):  # the latter where pages follow each other too fast for news
            self.complaints.append(f"{status} for {address}")

    def open(self, name: str) -> None:
        self.page.goto(
            f"{self.live.address}/lesson/{quote(name, safe='', errors='surrogateescape')}"
        )
        self.page.wait_for_selector("#sheet[data-shown], #sheet[data-number='0']", state="attached")

    def look(self) -> None:
        """Nothing is wider than its window, and nothing is there but what is always there."""
        for frame in self.page.frames:
            wide, room = frame.evaluate(_WIDTHS)
            assert wide <= room, frame.url
            assert frame.evaluate(_HANDLERS) == []
        assert [said for said in self.complaints if "503" not in said] == []

    def elements(self) -> list[set[str]]:
        return [_elements(frame) for frame in self.page.frames]


def _elements(frame: Frame) -> set[str]:
    return set(frame.evaluate(_ELEMENTS))


@pytest.fixture(scope="module")
def window(browser: Browser, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Window]:
    live = Live(tmp_path_factory.mktemp("desk"))
    live.save(hostile_text("Plain"), "plain.lesson")
    live.save(broken("Plain"), "plain-broken.lesson")
    for number, text in enumerate(TEXTS):
        live.save(hostile_text(text), f"{number}.lesson")
        live.save(broken(text), f"{number}-broken.lesson")
    for name in NAMES:
        (live.home / name).parent.mkdir(exist_ok=True)
        live.save(GOOD, f"{name}.lesson")
    with live:
        context = browser.new_context(viewport={"width": 390, "height": 800})
        context.set_default_timeout(LONGEST * 1000)
        yield Window(context.new_page(), live)
        context.close()


@pytest.fixture(scope="module")
def plain(window: Window) -> list[set[str]]:
    """The elements of a lesson that means no harm."""
    window.open("plain.lesson")
    return window.elements()


@pytest.mark.parametrize("number", range(len(TEXTS)))
def test_words_are_words(window: Window, plain: list[set[str]], number: int) -> None:
    window.open(f"{number}.lesson")
    window.look()
    for frame in window.page.frames:
        assert frame.locator("h1").text_content() == read(TEXTS[number])
    page, sheet = window.elements()
    assert page <= plain[0] | TOLD
    assert sheet <= plain[1]


@pytest.mark.parametrize("number", range(len(TEXTS)))
def test_problems_show_them(window: Window, plain: list[set[str]], number: int) -> None:
    window.open(f"{number}-broken.lesson")
    window.look()
    shown = window.page.locator(".problems").text_content() or ""
    assert "harp-unknown" in shown
    assert shown_text(read(TEXTS[number])).split()[0][:40].strip("`") in shown
    (found,) = window.elements()
    assert found <= plain[0] | TOLD


@pytest.mark.parametrize("name", NAMES)
def test_files_are_found_under_their_names(window: Window, name: str) -> None:
    """From the list, whose link leads to the lesson and from there back."""
    window.page.goto(f"{window.live.address}/")
    address = quote(f"{name}.lesson", safe="", errors="surrogateescape")
    link = window.page.locator(f'a[href="lesson/{address}"]')
    assert link.text_content() == "Test Blues"
    link.click()
    window.page.wait_for_selector("#sheet[data-shown='1']")
    window.look()
    assert window.page.url == f"{window.live.address}/lesson/{address}"
    said = window.page.locator(".counts .quiet").first.text_content() or ""
    assert not set("\n\u202e") & set(said)
    assert len(said) == len(f"{name}.lesson")
    window.page.click(".way a")
    window.page.wait_for_selector("table")


def test_the_list_holds_them_all(window: Window) -> None:
    window.page.goto(f"{window.live.address}/")
    window.look()
    assert window.page.locator("tbody tr").count() == 3 + 2 * len(TEXTS) + len(NAMES)
