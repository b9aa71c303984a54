"""Firefox without a window, driven by the remote protocol that it brings along (Marionette).

Messages are JSON lists, each after its length in bytes and a colon; a command is
`[0, number, name, parameters]`, its answer `[1, number, error, result]`.
"""

from __future__ import annotations

import json
import os
import shutil
import socket
import subprocess
import time
from collections.abc import Mapping
from pathlib import Path
from typing import Any

COMMANDS = ("firefox-esr", "firefox")
PATIENCE = 60.0  # seconds: a first start on a busy machine
ELEMENT = "element-6066-11e4-a52e-4f735466cecf"  # the key of an element: W3C WebDriver

#: A profile that asks nothing, fetches nothing, and takes any free port.
SETTINGS: Mapping[str, str | int | bool] = {
    "marionette.port": 0,
    "app.update.disabledForTesting": True,
    "browser.shell.checkDefaultBrowser": False,
    "datareporting.policy.dataSubmissionEnabled": False,
    "browser.aboutwelcome.enabled": False,
    "browser.safebrowsing.downloads.enabled": False,
    "extensions.update.enabled": False,
    "network.captive-portal-service.enabled": False,
    "network.connectivity-service.enabled": False,
    "remote.prefs.recommended": True,
}


def installed() -> str | None:
    """Where Firefox is."""
    return next(filter(None, map(shutil.which, COMMANDS)), None)


class Firefox:
    """A Firefox with one window, of its own profile."""

    def __init__(
        self, profile: Path, environment: Mapping[str, str], **settings: str | int | bool
    ) -> None:
        command = installed()
        assert command
        profile.mkdir()
        lines = (
            f"user_pref({json.dumps(name)}, {json.dumps(value)});\n"
            for name, value in {**SETTINGS, **settings}.items()
        )
        (profile / "user.js").write_text("".join(lines))
        self._process = subprocess.Popen(
            [
                *(command, "--headless", "--marionette", "--remote-allow-system-access"),
                *("--no-remote", "--profile", str(profile)),
            ],
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
            env=os.environ | environment,
        )
        self._number = 0
        self._socket = socket.create_connection(("127.0.0.1", self._port(profile)), timeout=60)
        self._read = self._socket.makefile("rb")
        self._message()  # what it is
        self.send("WebDriver:NewSession", capabilities={"alwaysMatch": {}})

    def _port(self, profile: Path) -> int:
        told = profile / "MarionetteActivePort"
        end = time.monotonic() + PATIENCE
        while time.monotonic() < end:
            if told.exists() and (text := told.read_text().strip()):
                return int(text)
            assert self._process.poll() is None, "Firefox ended"
            time.sleep(0.1)
        self._process.kill()
        raise TimeoutError("Firefox does not answer")

    def _message(self) -> Any:
        length = b""
        while (byte := self._read.read(1)) != b":":
            assert byte, "Firefox ended"
            length += byte
        return json.loads(self._read.read(int(length)))

    def send(self, name: str, **parameters: object) -> Any:
        """A command; gives its result."""
        self._number += 1
        data = json.dumps([0, self._number, name, parameters]).encode()
        self._socket.sendall(b"%d:%s" % (len(data), data))
        _, number, error, result = self._message()
        assert number == self._number
        assert error is None, f"{name}: {error and error['message']}"
        return result

    def open(self, address: str) -> None:
        """Go to a page, and wait until it is loaded."""
        self.send("WebDriver:Navigate", url=address)

    def get(self, script: str, *given: object) -> Any:
        """What an expression is on the page; `arguments` are what is given."""
        sent = self.send("WebDriver:ExecuteScript", script=f"return {script}", args=given)
        return sent["value"]

    def wait(self, condition: str, seconds: float = 15.0) -> None:
        """Wait until an expression is true on the page."""
        end = time.monotonic() + seconds
        while not self.get(condition):
            assert time.monotonic() < end, f"never: {condition}"
            time.sleep(0.05)

    def element(self, selector: str) -> dict[str, str]:
        """An element, to be handed to commands."""
        found = self.send("WebDriver:FindElement", using="css selector", value=selector)["value"]
        return {ELEMENT: found[ELEMENT]}

    def click(self, selector: str) -> None:
        """Scroll to an element and press it."""
        self.send("WebDriver:ElementClick", id=self.element(selector)[ELEMENT])

    def point(self, kind: str, *selectors: str) -> None:
        """Press the middle of an element with a "mouse" or a finger ("touch"), or drag it on."""
        actions: list[dict[str, object]] = []
        for selector in selectors:
            move = {"type": "pointerMove", "x": 0, "y": 0, "duration": 100}
            actions.append(move | {"origin": self.element(selector)})
            if len(actions) == 1:
                actions.append({"type": "pointerDown", "button": 0})
        actions.append({"type": "pointerUp", "button": 0})
        chain = {
            "type": "pointer",
            "id": kind,
            "parameters": {"pointerType": kind},
            "actions": actions,
        }
        self.send("WebDriver:PerformActions", actions=[chain])
        self.send("WebDriver:ReleaseActions")

    def press(self, key: str) -> None:
        """A key of the keyboard."""
        keys = [{"type": each, "value": key} for each in ("keyDown", "keyUp")]
        chain = {"type": "key", "id": "keys", "actions": keys}
        self.send("WebDriver:PerformActions", actions=[chain])

    def complaints(self, address: str) -> list[str]:
        """Errors and warnings about a page, as the browser's console has them."""
        found: list[str] = self._console(
            """getMessageArray()
            .filter(each => each instanceof Ci.nsIScriptError)
            .filter(each => each.sourceName.startsWith(arguments[0]))
            .map(each => each.errorMessage)""",
            address,
        )
        return found

    def forget(self) -> None:
        """Empty the console."""
        self._console("reset()")

    def _console(self, method: str, *given: object) -> Any:
        self.send("Marionette:SetContext", value="chrome")
        try:
            return self.get(f"Services.console.{method}", *given)
        finally:
            self.send("Marionette:SetContext", value="content")

    def close(self) -> None:
        """End it."""
        try:
            self.send("Marionette:Quit", flags=["eForceQuit"])
            self._process.wait(20)
        except (AssertionError, OSError, subprocess.TimeoutExpired):
            self._process.kill()
        finally:
            self._read.close()
            self._socket.close()
            self._process.wait()
