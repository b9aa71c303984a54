"""`python -m tests.bench [--scale 0.2] [CASE ...]`: the bench as a table of ratios.

Every ratio comes from one run on one machine, both sides in turn. On a machine that others use
too, times by the clock say little; lines marked "processor time" are steadier.
"""

from __future__ import annotations

import argparse
import sys
import tempfile
from pathlib import Path

from tests.bench.cases import CASES, machine
from tests.bench.measure import Row


def _line(row: Row) -> str:
    ratio = "" if row.ratio is None else f"{row.ratio:.2f}"
    most = "" if row.most is None else f"{row.most:.2f}"
    sides = f"{row.what:36} {row.ours:>26}  {row.against:>38}"
    return f"{sides}  {ratio:>6} {most:>6}  {row.verdict:5} {row.note}"


def main() -> int:
    """Print the table line by line."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--scale", type=float, default=1.0, help="share of the long lines' lessons")
    parser.add_argument("cases", nargs="*", choices=[[], *(case.__name__ for case in CASES)])
    arguments = parser.parse_args()
    print(machine())
    print(f"{'':36} {'ours':>26}  {'against':>38}  {'ratio':>6} {'most':>6}")
    chosen = [case for case in CASES if not arguments.cases or case.__name__ in arguments.cases]
    with tempfile.TemporaryDirectory() as room:
        for case in chosen:
            for row in case(Path(room), arguments.scale):
                print(_line(row).rstrip(), flush=True)
    return 0


if __name__ == "__main__":
    sys.exit(main())
