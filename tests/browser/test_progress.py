"""Links into the page, and what a student has reached."""

from __future__ import annotations

import csv
from pathlib import Path

import pytest

from tests.browser.conftest import Opener
from tests.browser.test_page import TUNE
from tests.browser.window import Window

REACHED = "[data-reached='{}']"


def go(window: Window, hash_: str) -> None:
    """Follow a link into the page."""
    window.page.evaluate("to => { location.hash = to; }", hash_)
    window.page.wait_for_timeout(60) if not window.by_clock else window.run(0.1)


@pytest.mark.parametrize(
    ("hash_", "chosen", "tempo"),
    [
        ("#porch@60bpm", "A, Front porch", "60 · 50%"),
        ("#creek@80%", "B, Creek", "96 · 80%"),
        ("#GATE@66bpm", "C, Gate", "66 · 55%"),
        ("#bars-3-6@90bpm", "Bars 3 to 6", "90 · 75%"),
        ("#tune@60bpm", "The whole tune", "60 · 50%"),
        ("#porch@999bpm", "A, Front porch", "144 · 120%"),
    ],
)
def test_a_link_opens_a_lick_at_a_tempo(
    opened: Opener, hash_: str, chosen: str, tempo: str
) -> None:
    window = opened(TUNE)
    go(window, hash_)
    assert window.text("#what option:checked") == chosen
    assert window.text("#tempo-words") == tempo
    assert window.text("#play-word") == "Play"  # a browser lets nothing sound without a press


def test_a_link_works_as_the_page_opens(opened: Opener) -> None:
    window = opened(TUNE)
    window.page.goto("about:blank")
    window.page.goto(f"{window.address}#creek@60bpm")
    assert window.text("#what option:checked") == "B, Creek"
    assert window.text("#tempo-words") == "60 · 50%"


@pytest.mark.parametrize("hash_", ["#nothing", "#%E0%A4", "#porch@fast", "#bars-9-2", "#bars-1-99"])
def test_a_link_to_nothing_changes_nothing(opened: Opener, hash_: str) -> None:
    window = opened(TUNE)
    go(window, hash_)
    assert window.text("#what option:checked") == "The whole tune"


def test_rounds_of_a_lick_are_progress(opened: Opener) -> None:
    window = opened(TUNE)
    assert window.page.locator("#progress").is_hidden()
    go(window, "#porch@60bpm")
    window.play(4 + 3)
    assert window.page.locator(REACHED.format("porch")).is_hidden()  # no whole round yet
    window.run(2)
    words = window.text(REACHED.format("porch"))
    assert words.startswith("Reached 60 beats a minute · played on 1970-01-01")
    window.slide("#tempo", 75)
    window.run(10)
    window.slide("#tempo", 50)
    window.run(10)
    assert window.text(REACHED.format("porch")).startswith("Reached 90 ")
    assert window.page.locator(REACHED.format("creek")).is_hidden()
    window.page.reload()
    assert window.text(REACHED.format("porch")).startswith("Reached 90 ")


def test_a_round_counts_at_its_slowest(opened: Opener) -> None:
    window = opened(TUNE)
    go(window, "#porch@60bpm")
    window.play(4 + 2)
    window.slide("#tempo", 100)
    window.run(2.5)
    assert window.text(REACHED.format("porch")).startswith("Reached 60 ")


def test_days_are_counted(opened: Opener) -> None:
    window = opened(TUNE)
    window.page.evaluate(
        "id => localStorage.setItem(`formsheet.progress.${id}`, JSON.stringify("
        "{porch: {reached: 80, days: ['1969-12-24', '1969-12-30']}}))",
        identity(window),
    )
    window.page.reload()
    assert window.text(REACHED.format("porch")) == (
        "Reached 80 beats a minute · played on 2 days, last 1969-12-30"
    )
    go(window, "#porch@60bpm")
    window.play(9)
    assert "on 3 days, last 1970-01-01" in window.text(REACHED.format("porch"))


def identity(window: Window) -> str:
    """The key of the lesson."""
    found: str = window.page.evaluate(
        "JSON.parse(document.getElementById('lesson').textContent).id"
    )
    return found


def test_progress_is_saved_as_a_file_and_cleared(opened: Opener, tmp_path: Path) -> None:
    window = opened(TUNE)
    go(window, "#porch@60bpm")
    window.play(9)
    window.page.keyboard.press("Escape")
    with window.clock_running(), window.page.expect_download() as download:
        window.page.locator("#save-progress").click()
    path = tmp_path / "progress.csv"
    download.value.save_as(path)
    assert download.value.suggested_filename == "Test Blues - progress.csv"
    with path.open(encoding="utf-8-sig", newline="") as file:
        (row,) = csv.DictReader(file)
    assert row["lick"] == "A, Front porch"
    assert row["reached (beats a minute)"] == "60"
    assert row["all days"] == "1970-01-01"
    window.page.locator("#clear-progress").click()
    assert window.focused() == "clear-no"
    window.page.locator("#clear-no").click()
    assert window.page.locator(REACHED.format("porch")).is_visible()
    window.page.locator("#clear-progress").click()
    window.page.locator("#clear-yes").click()
    assert window.page.locator("#progress").is_hidden()
    window.page.reload()
    assert window.page.locator(REACHED.format("porch")).is_hidden()


def test_pages_from_one_disk_do_not_mix(opened: Opener) -> None:
    """The same file name and title by another teacher is another lesson."""
    window = opened(TUNE)
    go(window, "#porch@60bpm")
    window.play(9)
    assert window.page.locator(REACHED.format("porch")).is_visible()
    other = TUNE.replace("title", "teacher Another One\ntitle", 1)
    assert other != TUNE
    from tests.browser.window import page_of

    path = Path(window.address.removeprefix("file://"))
    path.write_bytes(page_of(other))
    window.page.reload()
    assert window.page.locator(REACHED.format("porch")).is_hidden()
    path.write_bytes(page_of(TUNE))
    window.page.reload()
    assert window.page.locator(REACHED.format("porch")).is_visible()


def test_once_through_counts_too(opened: Opener) -> None:
    window = opened(TUNE)
    go(window, "#porch@60bpm")
    window.page.locator("#loop").click()
    window.play(4 + 4 + 1.5)
    assert window.text("#play-word") == "Play"
    assert window.text(REACHED.format("porch")).startswith("Reached 60 ")
