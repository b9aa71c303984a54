"""The desk whole: real saves, real news, real PDFs; and how long a save takes to be seen."""

from __future__ import annotations

import errno
import json
import os
import signal
import socket
import subprocess
import sys
from collections.abc import Iterator
from http.client import HTTPConnection
from pathlib import Path
from time import monotonic, sleep
from typing import NoReturn

import pytest

from formsheet.cli import main
from formsheet.commands.loudness import Loudness
from formsheet.commands.watch import Terminal
from formsheet.desk.board import Known, Pdf, Standing
from formsheet.desk.desk import Desk
from formsheet.sheet.options import Options
from tests.desk.live import LONGEST, Live
from tests.desk.told import BROKEN, GOOD, WARNED, Told
from tests.helpers import problems_of


@pytest.fixture
def live(tmp_path: Path) -> Iterator[Live]:
    with Live(tmp_path) as made:
        yield made


def test_from_save_to_news(live: Live) -> None:
    """How long it takes is measured by `python -m tests.desk.measure`."""
    number, _ = live.desk.board.all()
    wire = HTTPConnection("127.0.0.1", live.desk.server.port, timeout=LONGEST)
    wire.request("GET", f"/{live.desk.server.key.text}/events?since={number}")
    stream = wire.getresponse()
    live.save(WARNED)
    while not (line := stream.readline()).startswith(b"data: "):
        pass
    assert json.loads(line[6:])["names"] == ["a.lesson"]
    live.until(lambda: live.standing() is Standing.WARNINGS)
    wire.close()


def test_the_pdf_follows(tmp_path: Path) -> None:
    with Live(tmp_path, ["sheet"]) as live:
        follow_the_pdf(live)


def follow_the_pdf(live: Live) -> None:
    def pdf() -> bytes:
        return (live.out / "a" / "sheet.pdf").read_bytes()

    live.until(lambda: "a.lesson: made sheet.pdf" in live.told.lines)
    before = pdf()
    live.save(GOOD.replace("Test Blues", "Another Blues"))
    live.until(lambda: live.told.lines.count("a.lesson: made sheet.pdf") == 2)
    assert pdf() != before
    live.save(BROKEN)
    live.until(lambda: live.standing() is Standing.ERRORS)
    after = pdf()
    sleep(0.3)
    assert pdf() == after


def test_what_is_current_is_not_made_again(tmp_path: Path) -> None:
    with Live(tmp_path, ["sheet"]) as live:
        live.until(lambda: "a.lesson: made sheet.pdf" in live.told.lines)
    again = Told()
    with Desk(live.home, live.out, ("sheet",), Options(), 0, again) as desk:
        end = monotonic() + LONGEST
        while (known := desk.board.get("a.lesson")) is None or known.pdf is not Pdf.MADE:
            assert monotonic() < end
            desk.watch.step(0.05)
    assert again.lines == ["first look at 1"]


def test_a_handout_that_cannot_be_made_is_told(tmp_path: Path) -> None:
    (tmp_path / "handouts").write_text("a file where the folder should be", encoding="utf-8")
    with Live(tmp_path, ["sheet"]) as live:
        live.until(lambda: any("a.lesson: failed, " in line for line in live.told.lines))
        known = live.desk.board.get("a.lesson")
        assert known
        assert (known.pdf, known.standing) == (Pdf.FAILED, Standing.IN_ORDER)


@pytest.mark.parametrize("way", ["truncate", "aside", "twice"])
def test_odd_ways_of_saving_flash_no_error(live: Live, way: str) -> None:
    path = live.home / "a.lesson"
    if way == "truncate":
        path.write_text("", encoding="utf-8")
        sleep(0.1)
        path.write_text(WARNED, encoding="utf-8")
    elif way == "aside":
        path.rename(live.home / "a.lesson~")
        sleep(0.1)
        path.with_name("4913").write_text(WARNED, encoding="utf-8")
        path.with_name("4913").rename(path)
    else:
        path.write_text(WARNED[:60], encoding="utf-8")
        sleep(0.1)
        path.write_text(WARNED, encoding="utf-8")
    live.until(lambda: live.standing() is Standing.WARNINGS)
    sleep(0.5)
    assert {line for line in live.told.lines if "made" not in line} == {
        "first look at 1", "a.lesson: warnings",
    }  # fmt: skip


def test_a_new_lesson_in_a_new_folder(live: Live) -> None:
    (live.home / "winter").mkdir()
    live.save(GOOD, "winter/b.lesson")
    live.until(lambda: live.standing("winter/b.lesson") is Standing.IN_ORDER)
    (live.home / "winter").rename(live.home / "summer")
    live.until(lambda: live.standing("summer/b.lesson") is Standing.IN_ORDER)
    live.until(lambda: live.standing("winter/b.lesson") is Standing.GONE)


def test_the_whole_folder_renamed_and_back(live: Live) -> None:
    away = live.home.with_name("elsewhere")
    live.home.rename(away)
    live.until(lambda: "folder gone" in live.told.lines)
    away.rename(live.home)
    live.until(lambda: "folder back" in live.told.lines)
    sleep(0.3)
    live.save(WARNED)
    live.until(lambda: live.standing() is Standing.WARNINGS)


def test_a_name_that_is_no_text_does_not_end_the_watch(live: Live) -> None:
    """Of which the watch of the system cannot tell."""
    name = os.fsdecode(b"caf\xe9.lesson")
    live.save(GOOD, name)
    live.until(lambda: live.standing(name) is Standing.IN_ORDER)
    live.save(WARNED)
    live.until(lambda: live.standing() is Standing.WARNINGS)
    live.save(WARNED, name)
    live.until(lambda: live.standing(name) is Standing.WARNINGS)


def test_without_the_watch_of_the_system_the_folder_is_looked_at(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def full(*_: object, **__: object) -> NoReturn:
        raise OSError(errno.ENOSPC, "OS file watch limit reached.")

    monkeypatch.setattr("watchfiles.watch", full)
    with Live(tmp_path) as live:
        live.save(WARNED)
        live.until(lambda: live.standing() is Standing.WARNINGS)
        live.save(GOOD)
        live.until(lambda: live.standing() is Standing.IN_ORDER)


# ---- The terminal ----------------------------------------------------------------------------


def test_a_problem_of_a_shelf_is_told_once_and_again_later(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    (problem, *_) = problems_of(BROKEN)
    terminal = Terminal(Loudness.USUAL)
    for name in ("a.lesson", "b.lesson", "corner.licks"):
        terminal.looked(Known(name, "", Standing.ERRORS, (problem,)), 0.01)
    said = capsys.readouterr()
    assert said.out.count("[note-breath]") == 1
    assert said.err.count("1 error") == 3
    later = monotonic() + 2
    monkeypatch.setattr("formsheet.commands.watch.monotonic", lambda: later)
    terminal.looked(Known("a.lesson", "", Standing.ERRORS, (problem,)), 0.01)
    assert capsys.readouterr().out.count("[note-breath]") == 1


# ---- The command -----------------------------------------------------------------------------


def started(folder: Path, *options: str, **environment: str) -> subprocess.Popen[str]:
    words = [sys.executable, "-m", "formsheet", "watch", str(folder / "lessons"),
             "--out", str(folder / "handouts"), "--port", "0", *options]  # fmt: skip
    return subprocess.Popen(
        words, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True,
        env=os.environ | environment,
        preexec_fn=_as_in_front if os.name == "posix" else None,
    )  # fmt: skip


def _as_in_front() -> None:
    """A shell lets what it begins in the background ignore Ctrl-C, and its children inherit it."""
    signal.signal(signal.SIGINT, signal.SIG_DFL)


@pytest.mark.skipif(os.name != "posix", reason="signals of other systems differ")
@pytest.mark.parametrize("number", [signal.SIGINT, signal.SIGTERM])
def test_it_ends_cleanly(tmp_path: Path, number: signal.Signals) -> None:
    (tmp_path / "lessons").mkdir()
    (tmp_path / "lessons" / "a.lesson").write_text(BROKEN, encoding="utf-8")
    running = started(tmp_path)
    assert running.stderr
    first = running.stderr.readline()
    assert "Preview: http://127.0.0.1:" in first
    while "without errors" not in (line := running.stderr.readline()):
        assert "a.lesson: 1 error" in line
    running.send_signal(number)
    out, err = running.communicate(timeout=LONGEST)
    assert (running.returncode, out, err) == (0, "", "ended\n")


@pytest.mark.skipif(os.name != "posix", reason="BROWSER is obeyed elsewhere too, `sh` is not")
def test_the_browser_gets_an_address_that_others_may_read(tmp_path: Path) -> None:
    """Told though quiet is the whole one; the list of processes shows the other."""
    (tmp_path / "lessons").mkdir()
    browser = tmp_path / "browser"
    browser.write_text(f'#!/bin/sh\necho "$1" >{tmp_path}/opened\n', encoding="utf-8")
    browser.chmod(0o755)
    running = started(tmp_path, "--open", "--quiet", BROWSER=str(browser))
    assert running.stderr
    told = running.stderr.readline().partition("Preview: ")[2].split()[0]
    end = monotonic() + LONGEST
    while not (tmp_path / "opened").exists() or not (tmp_path / "opened").read_text():
        assert monotonic() < end
        sleep(0.02)
    host, word = (tmp_path / "opened").read_text().strip().removeprefix("http://").split("/")
    wire = HTTPConnection(host, timeout=LONGEST)
    wire.request("GET", f"/{word}")
    assert wire.getresponse().headers["Location"] == told.removeprefix(f"http://{host}")
    wire.close()
    assert word not in told
    running.send_signal(signal.SIGTERM)
    assert running.communicate(timeout=LONGEST) == ("", "")


def test_a_port_that_is_taken_is_told(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    with socket.create_server(("127.0.0.1", 0)) as other:
        port = other.getsockname()[1]
        assert main(["watch", str(tmp_path), "--port", str(port)]) == 2
    assert "--port 0" in capsys.readouterr().err


@pytest.mark.parametrize(
    "words", [["no-such-folder"], ["--port", "x"], ["--port", "70000"], ["--only", "no"]]
)
def test_wrong_usage(words: list[str], capsys: pytest.CaptureFixture[str]) -> None:
    try:
        status = main(["watch", *words])
    except SystemExit as stopped:
        status = int(stopped.code or 0)
    assert status == 2
    assert capsys.readouterr().err
