"""The preview in a browser: it follows what is saved, and keeps the last good sheet."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path
from typing import Literal

import pytest
from playwright.sync_api import Browser

from formsheet.desk.board import Standing
from tests.desk.live import LONGEST, Live
from tests.desk.told import BROKEN, GOOD, WARNED
from tests.sheet.contrast import contrast

SHOWN = "#sheet iframe:not(.coming)"


class Page:
    """A page of the preview, and whatever it complained of."""

    def __init__(self, browser: Browser, live: Live, width: int) -> None:
        self.live = live
        context = browser.new_context(viewport={"width": width, "height": 800})
        context.set_default_timeout(LONGEST * 1000)
        self.page = context.new_page()
        self.complaints: list[str] = []
        self.page.on("console", lambda said: self.complaints.append(said.text))
        self.page.on("pageerror", lambda error: self.complaints.append(str(error)))

    def open(self, address: str) -> None:
        self.page.goto(self.live.address + address)

    def wait(self, selector: str) -> None:
        self.page.wait_for_selector(selector)

    def text(self, selector: str) -> str:
        found: str = self.page.locator(selector).inner_text()
        return found

    def title_of_sheet(self) -> str:
        found: str = self.page.frame_locator(SHOWN).locator("h1").inner_text()
        return found


@pytest.fixture(params=[1280, 390])
def page(browser: Browser, tmp_path: Path, request: pytest.FixtureRequest) -> Iterator[Page]:
    with Live(tmp_path) as live:
        opened = Page(browser, live, request.param)
        yield opened
        opened.page.close()
        assert opened.complaints == []


def test_the_sheet_follows_what_is_saved(page: Page) -> None:
    page.open("/lesson/a.lesson")
    page.wait("#sheet[data-shown='1']")
    assert page.title_of_sheet() == "Test Blues"
    page.live.save(GOOD.replace("Test Blues", "Another Blues"))
    page.wait("#sheet[data-shown='2']")
    assert page.title_of_sheet() == "Another Blues"
    assert page.text("h1") == "Another Blues"
    assert page.page.locator("iframe").count() == 1


def test_errors_stand_above_the_last_good_sheet_and_go_again(page: Page) -> None:
    page.open("/lesson/a.lesson")
    page.wait("#sheet[data-shown='1']")
    page.live.save(BROKEN)
    page.wait(".problem.error")
    assert page.text(".problem mark") == "5x"
    assert "a.lesson:9:" in page.text(".problem .place")
    assert page.page.title() == "1 error: Test Blues"
    assert "last good sheet" in page.text(".old")
    assert page.title_of_sheet() == "Test Blues"
    page.live.save(GOOD)
    page.page.wait_for_selector(".problem", state="detached")
    assert page.page.locator("#sheet.is-old").count() == 0


def test_the_list_follows_too(page: Page) -> None:
    page.open("/")
    page.wait(".standing.in_order")
    page.live.save(WARNED, "b.lesson")
    page.wait(".standing.warnings")
    assert page.text(".counts") == "1 in order, 1 with warnings"
    page.page.click("a[href='lesson/b.lesson']")
    page.wait(".problem.warning")


def test_a_link_that_is_pressed_while_news_come_is_followed(page: Page) -> None:
    page.open("/")
    box = page.page.locator("a[href='lesson/a.lesson']").bounding_box()
    assert box
    page.page.mouse.move(box["x"] + 5, box["y"] + 5)
    page.page.mouse.down()
    page.live.save(WARNED, "b.lesson")
    page.live.until(lambda: page.live.standing("b.lesson") is Standing.WARNINGS)
    page.page.wait_for_timeout(600)  # the page is told, and would have taken it over
    page.page.mouse.up()
    page.page.wait_for_url("**/lesson/a.lesson")


def test_news_that_came_meanwhile_are_shown_then(page: Page) -> None:
    page.open("/")
    page.page.mouse.move(5, 5)
    page.page.mouse.down()
    page.live.save(WARNED, "b.lesson")
    page.live.until(lambda: page.live.standing("b.lesson") is Standing.WARNINGS)
    page.page.wait_for_timeout(600)
    assert page.page.locator("a[href='lesson/b.lesson']").count() == 0
    page.page.mouse.up()
    page.wait("a[href='lesson/b.lesson']")


def test_nothing_is_wider_than_the_window(page: Page) -> None:
    page.open("/lesson/a.lesson")
    page.wait("#sheet[data-shown='1']")
    wide = page.page.evaluate("[document.documentElement.scrollWidth, innerWidth]")
    assert wide[0] <= wide[1]
    inside = page.page.frames[-1].evaluate(
        "[document.documentElement.scrollWidth, document.documentElement.clientWidth]"
    )
    assert inside[0] <= inside[1]


def test_the_sheet_is_set_in_its_own_faces(page: Page) -> None:
    page.open("/lesson/a.lesson")
    page.wait("#sheet[data-shown='1']")
    loaded = page.page.frames[-1].evaluate("[...document.fonts].map(face => face.status)")
    assert "loaded" in loaded
    assert "error" not in loaded


def test_the_browser_is_let_in_once_and_stays_in(page: Page) -> None:
    home = page.live.desk.server.address
    page.page.goto(page.live.desk.server.passing_address())
    assert page.page.url == home
    page.page.click("a[href='lesson/a.lesson']")
    page.wait("#sheet[data-shown='1']")
    page.page.reload()
    page.wait("#sheet[data-shown='1']")
    page.page.click(".way a")
    page.wait(".standing.in_order")
    assert page.page.url == home


def test_without_the_key_the_page_says_where_it_stands(page: Page) -> None:
    key = page.live.desk.server.key.text
    for address in ("", "lesson/a.lesson", "own/desk.js"):
        page.page.goto(f"http://127.0.0.1:{page.live.desk.server.port}/{address}")
        assert "prints it in the terminal" in page.text("body")
        assert key not in page.page.content()
    page.complaints.clear()  # the browser's own, of the refusals


#: Of each element with words of its own: these, their colour, and the colour behind them.
_INKS = """[...document.querySelectorAll('body *')].flatMap(each => {
    const texts = [...each.childNodes].filter(node => node.nodeType === Node.TEXT_NODE);
    const words = texts.map(node => node.data).join('').trim();
    let behind = each;
    while (behind && getComputedStyle(behind).backgroundColor === 'rgba(0, 0, 0, 0)')
        behind = behind.parentElement;
    const ground = getComputedStyle(behind ?? document.documentElement).backgroundColor;
    return words ? [[words, getComputedStyle(each).color, ground]] : [];
})"""


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_all_words_can_be_read(page: Page, scheme: Literal["light", "dark"]) -> None:
    page.page.emulate_media(color_scheme=scheme)
    page.open("/lesson/a.lesson")
    page.wait("#sheet[data-shown='1']")
    page.live.save(BROKEN)
    page.live.save(WARNED, "b.lesson")
    grounds = set()
    for address, wanted in (("a", ".problem.error"), ("b", ".problem.warning"), ("", "tbody")):
        page.open(f"/lesson/{address}.lesson" if address else "/")
        page.wait(wanted)
        page.page.evaluate("document.getElementById('lost').hidden = false")
        for words, ink, ground in page.page.evaluate(_INKS):
            grounds.add(ground)
            # WCAG 2.2, success criterion 1.4.3
            assert contrast(_colour(ink), _colour(ground)) >= 4.5, (words, ink, ground)
    assert len(grounds) >= 5
    assert ("rgb(255, 255, 255)" in grounds) == (scheme == "light")


def _colour(css: str) -> tuple[int, ...]:
    return tuple(map(int, re.findall(r"\d+", css)[:3]))


def test_a_watch_that_has_ended_is_told(page: Page) -> None:
    page.open("/lesson/a.lesson")
    page.wait("#sheet[data-shown='1']")
    page.live.desk.board.close()
    page.live.desk.server.shutdown()
    page.live.desk.server.server_close()
    page.wait("#lost:not([hidden])")
    page.complaints.clear()  # the browser's own, of the lost connection
