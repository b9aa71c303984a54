"""The page in a second engine, from the disk and from a server: it opens, plays, is played with.

Where Firefox or a sound server is not installed, these tests are skipped: its audio clock stands
still on a machine without a sound card.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from threading import Thread

import pytest

from tests.browser import firefox, sound_server
from tests.browser.firefox import Firefox
from tests.browser.test_page import TUNE
from tests.browser.window import page_of

pytestmark = pytest.mark.skipif(
    not (firefox.installed() and sound_server.installed()),
    reason="needs Debian's firefox-esr and pulseaudio",
)

SOUNDING = "[...document.querySelectorAll('.bar')].findIndex(e => e.matches('.sounding'))"
PLAYS = "document.documentElement.matches('.playing')"
BAR = 2000.0  # milliseconds
REFUSED = 2  # Firefox's number for a permission that is refused


@pytest.fixture(scope="module")
def window(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Firefox]:
    """A Firefox that gives the microphone to nobody."""
    folder = tmp_path_factory.mktemp("f")
    with sound_server.silent_card(folder / "s") as environment:
        opened = Firefox(
            folder / "profile", environment, **{"permissions.default.microphone": REFUSED}
        )
        yield opened
        opened.close()


class _Silent(SimpleHTTPRequestHandler):
    def log_message(self, *_: object) -> None:
        """No lines for each request."""


@pytest.fixture(scope="module", params=["disk", "server"])
def address(
    request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory
) -> Iterator[str]:
    """The page of a tune of 12 bars at 120 beats a minute."""
    folder: Path = tmp_path_factory.mktemp("p")
    path = folder / "page.html"
    path.write_bytes(page_of(TUNE))
    if request.param == "disk":
        yield path.as_uri()
        return
    with ThreadingHTTPServer(("127.0.0.1", 0), partial(_Silent, directory=str(folder))) as server:
        Thread(target=server.serve_forever).start()
        yield f"http://127.0.0.1:{server.server_port}/page.html"
        server.shutdown()


@pytest.fixture
def page(window: Firefox, address: str) -> Iterator[Firefox]:
    """The page, newly opened; nothing is said against it in the end."""
    window.open("about:blank")
    window.forget()
    window.open(address)
    yield window
    assert window.complaints(address) == []


def test_it_plays_and_its_mark_moves(page: Firefox) -> None:
    """A bar is 2 s by the audio clock; the line in it moves on in between."""
    assert page.get("document.querySelectorAll('.bar').length") == 12
    page.click("#play")
    page.wait(f"{SOUNDING} === 0")
    line = "parseFloat(document.querySelector('.cursor').style.getPropertyValue('--line'))"
    at = page.get(line)
    page.wait(f"{line} > {at}")
    page.wait(f"{SOUNDING} === 1")
    page.press(" ")
    page.wait(f"!{PLAYS}")
    assert page.get(SOUNDING) == -1


@pytest.mark.parametrize("kind", ["mouse", "touch"])
def test_a_tap_plays_that_bar_round_and_round(page: Firefox, kind: str) -> None:
    page.get("document.querySelector('[data-bar=\"2\"]').scrollIntoView({block: 'center'})")
    page.point(kind, "[data-bar='2'] .ink")
    page.wait(PLAYS)
    assert page.get("document.querySelector('#what').selectedOptions[0].text") == "Bar 3"
    page.wait(f"{SOUNDING} === 2")
    page.get(f"(window.seen = [], setInterval(() => seen.push({SOUNDING}), 50), null)")
    since = page.get("performance.now()")
    page.wait(f"performance.now() > {since + 2.5 * BAR}")
    assert set(page.get("seen")) == {2}
    page.press("\ue00c")  # Escape: W3C WebDriver
    page.wait(f"!{PLAYS}")


def test_a_drag_plays_a_range(page: Firefox) -> None:
    page.get("document.querySelector('[data-bar=\"1\"]').scrollIntoView({block: 'center'})")
    page.point("mouse", "[data-bar='1'] .ink", "[data-bar='2'] .ink", "[data-bar='3'] .ink")
    page.wait(PLAYS)
    assert page.get("document.querySelector('#what').selectedOptions[0].text") == "Bars 2 to 4"


def test_it_tells_that_the_microphone_is_refused(page: Firefox) -> None:
    page.click("#listen")
    page.wait("document.querySelector('#check-words').textContent !== ''")
    assert page.get("document.querySelector('#check-words').textContent").startswith(
        "The browser refused the microphone."
    )
    assert page.get("document.querySelector('#listen').ariaPressed") == "false"
    page.click("#play")
    page.wait(f"{SOUNDING} === 0")
