"""A sound card that nobody hears: a browser's audio clock runs by it where a machine has none."""

from __future__ import annotations

import shutil
import subprocess
import time
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from pathlib import Path

COMMAND = "pulseaudio"
PATIENCE = 20.0  # seconds


def installed() -> str | None:
    """Where the sound server is."""
    return shutil.which(COMMAND)


@contextmanager
def silent_card(folder: Path) -> Iterator[Mapping[str, str]]:
    """A sound server of its own, with one output; gives the environment for a program that plays.

    `folder` is new, and its path short: that of a socket has 107 bytes at most (Linux, unix(7)).
    """
    folder.mkdir()
    address = folder / "sound"
    home = {"HOME": str(folder), "XDG_RUNTIME_DIR": str(folder)}
    server = subprocess.Popen(
        [
            *(COMMAND, "-n", "--daemonize=no", "--exit-idle-time=-1", "--use-pid-file=no"),
            *("-L", "module-null-sink"),
            *("-L", f"module-native-protocol-unix socket={address}"),
        ],
        env={"PATH": "/usr/bin:/bin", **home},
        stdout=subprocess.DEVNULL,
        stderr=subprocess.DEVNULL,
    )
    try:
        end = time.monotonic() + PATIENCE
        while not address.exists():
            assert server.poll() is None, "the sound server ended"
            assert time.monotonic() < end, "the sound server does not answer"
            time.sleep(0.05)
        yield {"PULSE_SERVER": f"unix:{address}", **home}
    finally:
        server.terminate()
        server.wait()
