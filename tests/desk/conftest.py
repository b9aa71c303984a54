"""The reader of a preview, for the tests of its server."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.desk.reader import Reader


@pytest.fixture
def reader(tmp_path: Path) -> Iterator[Reader]:
    made = Reader(tmp_path)
    yield made
    made.close()
