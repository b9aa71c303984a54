"""How early sounds reach the audio clock on a slow phone.

`python -m tests.browser.slow_phone [SECONDS]` plays each of two demos round and round in a small
window, its processor throttled to a sixth, and prints how many sounds came late. Five minutes each
if not told otherwise, by the real clock.
"""

from __future__ import annotations

import shutil
import sys
import tempfile
from pathlib import Path

from playwright.sync_api import sync_playwright

from formsheet.engine.parts import page
from formsheet.sheet.options import Options
from tests.lessons import demo

DEMOS = ("gantry-crane", "slow-barge")  # many notes; slow, with chords
THROTTLE = 6
SECONDS = 300

#: Notes how far ahead of its moment each sound is handed over, in seconds of the audio clock.
WATCHING = """() => {
    window.margins = [];
    const start = AudioScheduledSourceNode.prototype.start;
    AudioScheduledSourceNode.prototype.start = function (when, ...rest) {
        margins.push(when - this.context.currentTime);
        return start.call(this, when, ...rest);
    };
}"""


def played(name: str, seconds: float) -> list[float]:
    """The margin of each sound of a demo, played for so long."""
    ((_, data),) = page(demo(name), Options())
    folder = Path(tempfile.mkdtemp())
    (folder / "page.html").write_bytes(data)
    with sync_playwright() as engine:
        browser = engine.chromium.launch(
            executable_path=shutil.which("chromium"), args=["--no-sandbox"]
        )
        window = browser.new_page(viewport={"width": 390, "height": 844})
        window.goto((folder / "page.html").as_uri())
        window.evaluate(WATCHING)
        throttle = window.context.new_cdp_session(window)
        throttle.send("Emulation.setCPUThrottlingRate", {"rate": THROTTLE})
        window.locator("#play").click()
        window.wait_for_timeout(seconds * 1000)
        margins: list[float] = window.evaluate("margins.filter(each => isFinite(each))")
        browser.close()
    shutil.rmtree(folder)
    return margins


def main() -> int:
    """Print a line for each demo; 1 if a sound was late."""
    seconds = float(sys.argv[1]) if len(sys.argv) > 1 else SECONDS
    late = 0
    for name in DEMOS:
        margins = played(name, seconds)
        behind = sum(each < 0 for each in margins)
        late += behind if margins else 1
        least = f"{1000 * min(margins):.0f} ms" if margins else "none"
        print(
            f"{name}: {len(margins)} sounds in {seconds:.0f} s, {behind} late, least {least} ahead"
        )
    return 1 if late else 0


if __name__ == "__main__":
    sys.exit(main())
