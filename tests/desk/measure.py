"""`python -m tests.desk.measure [SAVES]`: how long a save takes to be seen, over the demo lessons.

Three times are told of each lesson, in milliseconds, as the median and the longest of all saves:
until the news of it reaches a listening page, until the sheet has been fetched after that, and
until the new PDF is in place. On a machine that others use too they say little.
"""

from __future__ import annotations

import re
import shutil
import sys
import tempfile
from collections.abc import Sequence
from http.client import HTTPConnection, HTTPResponse
from pathlib import Path
from statistics import median
from threading import Event, Thread
from time import perf_counter, sleep

from formsheet.desk.board import Pdf
from formsheet.desk.desk import Desk
from formsheet.sheet.options import Options
from tests.desk.told import Told
from tests.lessons import LESSONS

_TITLE = re.compile(r"(?m)^title .*$")


def _news(stream: HTTPResponse) -> None:
    while not stream.readline().startswith(b"data: "):
        pass


def _sheet(desk: Desk, name: str) -> None:
    wire = HTTPConnection("127.0.0.1", desk.server.port)
    for address in (f"/lesson/{name}", f"/sheet/{name}"):
        wire.request("GET", f"/{desk.server.key.text}{address}")
        wire.getresponse().read()
    wire.close()


def _save(desk: Desk, path: Path, number: int) -> tuple[float, float, float]:
    count, _ = desk.board.all()
    wire = HTTPConnection("127.0.0.1", desk.server.port)
    wire.request("GET", f"/{desk.server.key.text}/events?since={count}")
    stream = wire.getresponse()
    text = _TITLE.sub(f"title Measured {number}", path.read_text(encoding="utf-8"))
    began = perf_counter()
    path.write_text(text, encoding="utf-8")
    _news(stream)
    told = perf_counter() - began
    _sheet(desk, path.name)
    shown = perf_counter() - began
    wire.close()
    while (known := desk.board.get(path.name)) is None or known.pdf is Pdf.MADE:
        sleep(0.001)
    while (known := desk.board.get(path.name)) is None or known.pdf is not Pdf.MADE:
        sleep(0.005)
    return told, shown, perf_counter() - began


def _cell(seconds: Sequence[float]) -> str:
    return f"{median(seconds) * 1000:.0f} ({max(seconds) * 1000:.0f})"


def main() -> None:
    """Measure, and print a table."""
    saves = int(sys.argv[1]) if len(sys.argv) > 1 else 5
    with tempfile.TemporaryDirectory() as room:
        home = Path(room) / "lessons"
        shutil.copytree(LESSONS, home)
        stop, told = Event(), Told()
        with Desk(home, Path(room) / "out", ("sheet",), Options(), 0, told) as desk:
            worker = Thread(target=desk.work, args=(stop,))
            worker.start()
            names = sorted(path.name for path in home.glob("*.lesson"))
            while any((k := desk.board.get(n)) is None or k.pdf is not Pdf.MADE for n in names):
                sleep(0.05)
            print(f"{'lesson':32}{'news':>12}{'sheet':>12}{'PDF':>14}")
            for name in names:
                rows = [_save(desk, home / name, number) for number in range(saves)]
                cells = [
                    f"{median(c) * 1000:.0f} ({max(c) * 1000:.0f})" for c in zip(*rows, strict=True)
                ]
                print(f"{name:32}{cells[0]:>12}{cells[1]:>12}{cells[2]:>14}")
            stop.set()
            worker.join()


if __name__ == "__main__":
    main()
