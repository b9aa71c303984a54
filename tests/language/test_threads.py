"""Files read at the same time, as `watch` does: each keeps its own places."""

from __future__ import annotations

from concurrent.futures import ThreadPoolExecutor
from threading import Barrier

from formsheet.language.parse import parse
from formsheet.source import Source
from tests.lessons import LESSONS

THREADS = 4
ROUNDS = 5
TEXTS = [path.read_text(encoding="utf-8") for path in sorted(LESSONS.glob("*.lesson"))]


def test_each_thread_reads_its_own_file() -> None:
    together = Barrier(THREADS)

    def read(number: int) -> None:
        together.wait()
        for text in TEXTS * ROUNDS:
            source = Source(f"{number}.lesson", text)
            tree, _ = parse(source)
            sources = [mark.span.source for lick in tree.licks for mark in lick.marks]
            assert sources
            assert all(each is source for each in sources)

    with ThreadPoolExecutor(THREADS) as threads:
        list(threads.map(read, range(THREADS)))
