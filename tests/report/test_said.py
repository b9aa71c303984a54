"""Every remark on a reading has its words, and all words have their remark."""

from __future__ import annotations

import re
from pathlib import Path

import formsheet
from formsheet.notes.score import COUNTED
from formsheet.report.said import SAID

SOURCES = [
    path.read_text(encoding="utf-8")
    for folder in ("notes", "arrange", "commands")
    for path in (Path(formsheet.__file__).parent / folder).rglob("*.py")
]


def test_remarks_and_words() -> None:
    text = "\n".join(SOURCES)
    raised = set(re.findall(r'Said\(\s*"([a-z-]+)"', text)) | set(COUNTED)
    raised |= set(re.findall(r'kind = "([a-z-]+)" if|else "([a-z-]+-part)"', text)[0]) - {""}
    assert {"harmonica-part", "named-part", "highest-part"} <= set(SAID)
    assert raised <= set(SAID)
    assert set(SAID) - raised <= {"harmonica-part", "named-part", "highest-part"}
