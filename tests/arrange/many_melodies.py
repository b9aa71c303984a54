"""All melodies of the book: `python -m tests.arrange.many_melodies [HOW MANY]`; ends with 1 if any
is wrong."""

from __future__ import annotations

import sys
from collections import Counter
from statistics import fmean

from formsheet.music.key import position_name
from tests.arrange.melodies import paths, tried


def main() -> int:
    """Try them, and print what was found."""
    most = int(sys.argv[1]) if len(sys.argv) > 1 else None
    results = [tried(path) for path in paths()[:most]]
    wrong = [each for each in results if each.wrong]
    for each in wrong:
        print(f"{each.name}: {each.wrong}")
    done = [each for each in results if not each.skipped]
    print(f"{len(done)} melodies, {sum(each.notes for each in done)} notes; {len(wrong)} wrong")
    for why, count in Counter(each.skipped for each in results if each.skipped).items():
        print(f"left out {count}: {why}")
    lacking = [each for each in done if each.missing]
    print(f"with notes that are not on the best harp: {len(lacking)}")
    rounded, shortened = sum(each.rounded for each in done), sum(each.shortened for each in done)
    print(f"with rounded rhythm: {rounded}; of these with notes left out as too short: {shortened}")
    print(f"key found as written: {fmean(bool(each.key_found) for each in done):.0%}")
    seconds = [each.seconds for each in done]
    print(f"search: {fmean(seconds):.3f} s a melody, {max(seconds):.3f} s at most")
    positions = Counter(each.layout.position for each in done if each.layout)
    print(", ".join(f"{position_name(each)} {count}" for each, count in positions.most_common()))
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main())
