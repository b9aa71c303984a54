"""The test command: what it lets through of the environment in which it is started."""

from __future__ import annotations

import re
import subprocess
from pathlib import Path

SCRIPT = (Path(__file__).parent / "run").read_text(encoding="utf-8")

#: What programs need to be found, to write, and to reach their registries.
KEPT = {
    "HOME": "/home/someone", "TMPDIR": "/var/tmp", "CI": "true", "PIP_INDEX_URL": "https://a.test",
    "https_proxy": "http://b.test", "HTTPS_PROXY": "http://b.test", "NO_PROXY": "c.test",
    "SSL_CERT_FILE": "/etc/d.pem", "REQUESTS_CA_BUNDLE": "/etc/d.pem",
}  # fmt: skip
#: What would change what the programs print, or how they run.
UNSET = {
    "PYTHONUNBUFFERED": "1", "PYTHONPATH": "/e", "PYTHONIOENCODING": "latin-1", "LANG": "de_DE",
    "LC_ALL": "C", "LANGUAGE": "de", "NO_COLOR": "1", "FORCE_COLOR": "1", "CLICOLOR": "0",
    "COLUMNS": "40", "TERM": "dumb", "PYTEST_ADDOPTS": "-x", "SOURCE_DATE_EPOCH": "0",
    "BROWSER": "f", "LINES": "3", "OF_TWO_LINES": "a\nNAME=b",
}  # fmt: skip


def test_the_environment_is_emptied_but_for_what_registries_need() -> None:
    loop = re.search(r"^for name in \$\(env.*?^done\n", SCRIPT, re.MULTILINE | re.DOTALL)
    assert loop
    path = {"PATH": "/usr/local/bin:/usr/bin:/bin"}
    done = subprocess.run(
        ["sh", "-c", f"set -eu\n{loop[0]}env"],
        env=path | KEPT | UNSET, capture_output=True, text=True, check=True,
    )  # fmt: skip
    left = dict(line.split("=", 1) for line in done.stdout.splitlines())
    assert path | KEPT == {name: left[name] for name in path | KEPT}
    assert UNSET.keys() & left.keys() == set()


def test_the_environment_is_emptied_before_anything_is_run() -> None:
    assert SCRIPT.index("unset") < SCRIPT.index("apt-get")
