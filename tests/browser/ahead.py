"""For how many beats the next bar is whole in view before it sounds.

`python -m tests.browser.ahead [DEMO ...]` plays every demo (or those named) in windows of several
sizes: its tune at several tempos, on into the second time round, then each lick and each join
round and round. It prints the worst case of each.
"""

from __future__ import annotations

import shutil
import sys
import tempfile
from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from playwright.sync_api import sync_playwright

from formsheet.engine.parts import page
from formsheet.sheet.options import Options
from tests.browser.window import Window
from tests.lessons import NAMES, demo

WATCHING = (Path(__file__).parent / "watching.js").read_text(encoding="utf-8")
LEAST = 2.0  # beats: own choice, for eyes that read a metre away
TICK = 0.05  # seconds between two looks
#: Phones upright and held sideways, a laptop, and a sideways phone at 200 per cent.
SIZES = ((320, 568), (390, 844), (844, 390), (1280, 720), (422, 195))
TEMPOS = (40, 100, 120)  # per cent


@dataclass(frozen=True)
class Seen:
    """A bar that was played, and for how long before it was whole in view."""

    time: float  # seconds of the page's clock at which it sounds
    cell: int  # the bar's drawing on the page
    beats: float  # before it sounds


def watch(window: Window) -> None:
    """Begin to note what is in view."""
    window.page.evaluate(f"({WATCHING})()")


def lesson_of(window: Window) -> Any:
    """The data of the page."""
    return window.page.evaluate("JSON.parse(document.getElementById('lesson').textContent)")


def played(window: Window, beats_a_minute: float) -> Iterable[Seen]:
    """Each bar that sounded, in order, by the page's own mark of what sounds.

    The bar in which a stretch begins is left out: nothing sounds before its count-in.
    """
    looks = window.page.evaluate("watched")
    marks = window.page.evaluate("sounded")
    first = looks[0][0]
    for time, cell in marks:
        since = time
        for moment, whole in reversed([look for look in looks if look[0] <= time]):
            if cell not in whole:
                break
            since = moment
        if since - first > TICK:  # else it was in view from the beginning
            yield Seen(time, cell, (time - since) * beats_a_minute / 60)
        else:
            yield Seen(time, cell, float("inf"))


#: Notes when another bar begins to sound, by the class that the page gives it.
SOUNDED = """() => {
    window.sounded = [];
    new MutationObserver(changes => changes.forEach(({target}) => {
        if (target.matches('.bar.sounding:not([data-copy])') && target !== window.last) {
            window.last = target;
            sounded.push([listened.currentTime, Number(target.dataset.bar)]);
        } else if (target === window.last && !target.classList.contains('sounding')) {
            window.last = null;
        }
    })).observe(document.getElementById('sheet'), {attributes: true, subtree: true,
        attributeFilter: ['class']});
}"""


def worst(window: Window, percent: int, seconds: float) -> list[Seen]:
    """Play what is chosen at a tempo for so long; each bar that sounded."""
    lesson = lesson_of(window)
    window.page.evaluate(
        "value => { const slider = document.getElementById('tempo'); slider.value = value;"
        " slider.dispatchEvent(new Event('input')); }",
        percent,
    )
    window.page.evaluate("document.getElementById('play').click()")
    window.run(0.2)
    watch(window)
    window.page.evaluate(SOUNDED)
    window.run(seconds)
    return list(played(window, lesson["facts"]["tempo"] * percent / 100))


def worst_of_loops(window: Window, percent: int) -> list[Seen]:
    """Play each lick and each join three times round at a tempo; each bar that sounded."""
    lesson = lesson_of(window)
    choice = 1 + len(lesson["choruses"])  # the tune and its choruses stand before them
    found: list[Seen] = []
    for number, place in enumerate(lesson["licks"] + lesson["joins"], choice):
        window.page.evaluate(
            """([place, percent]) => {
                const set = (id, value, event) => {
                    const control = document.getElementById(id);
                    control.value = value;
                    control.dispatchEvent(new Event(event));
                };
                if (document.documentElement.matches('.playing')) play.click();
                set('what', place, 'change');
                set('tempo', percent, 'input');
                play.click();
            }""",
            [number, percent],
        )
        window.run(0.2)
        if number == choice:
            watch(window)
            window.page.evaluate(SOUNDED)
        else:
            window.page.evaluate("watched.length = 0; sounded.length = 0; window.last = null")
        window.run(0.1)
        bars = place["last"] - place["first"] + 1 + lesson["facts"]["countIn"]
        a_minute = float(window.text("#tempo-words").split()[0])
        window.run((3 * bars + 1) * lesson["facts"]["beats"] * 60 / a_minute)
        found += played(window, a_minute)
    return found


def seconds_of(lesson: Any, percent: int, rounds: float) -> float:
    """How long a tune takes at a tempo, with its count-in, so many times round."""
    beats = lesson["bars"][-1]["start"] + lesson["facts"]["beats"]
    counted = (lesson["facts"]["countIn"] + 1) * lesson["facts"]["beats"]
    return float((beats * rounds + counted) * 6000 / (lesson["facts"]["tempo"] * percent))


def main(names: Iterable[str]) -> int:
    """Print the table; gives 1 if a bar comes into view too late."""
    late = 0
    print(f"{'demo':28}{'window':>11}{'tempo':>7}{'bars':>6}{'least ahead (beats)':>21}")
    with sync_playwright() as playwright, tempfile.TemporaryDirectory() as folder:
        chromium = playwright.chromium.launch(
            executable_path=shutil.which("chromium"), args=["--no-sandbox", "--disable-gpu"]
        )
        for name in names:
            ((_, data),) = page(demo(name), Options())
            path = Path(folder) / "page.html"
            path.write_bytes(data)
            for width, height in SIZES:
                for percent in (*TEMPOS, None):
                    context = chromium.new_context(viewport={"width": width, "height": height})
                    window = Window(context.new_page(), path, by_clock=True)
                    if percent:
                        window.page.evaluate("document.getElementById('loop').click()")
                        seconds = seconds_of(lesson_of(window), percent, 1.2)
                        seen = worst(window, percent, seconds)
                    else:
                        seen = worst_of_loops(window, TEMPOS[-1])
                    context.close()
                    least = min((each.beats for each in seen), default=0.0)
                    late += least < LEAST
                    words = "in view" if least == float("inf") else f"{least:.1f}"
                    size = f"{width} x {height}"
                    how = f"{percent}%" if percent else "loops"
                    print(f"{name:28}{size:>11}{how:>7}{len(seen):>6}{words:>21}", flush=True)
        chromium.close()
    print(f"{late} of them under {LEAST:g} beats")
    return 1 if late else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:] or NAMES))
