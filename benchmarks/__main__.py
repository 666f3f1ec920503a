"""Runs the benchmarks named on the command line, or the quick ones: `python -m benchmarks demo`.

The comparison with a path tracer takes minutes: `python -m benchmarks.light_reference demo`.
"""

from __future__ import annotations

import importlib
import sys

BENCHES = {
    "demo": "benchmarks.demo_bench",
    "flatlay": "benchmarks.flatlay_bench",
    "skia": "benchmarks.skia_bench",
    "check": "benchmarks.check_bench",
}
QUICK = ("demo", "flatlay", "skia")


def main() -> None:
    for name in sys.argv[1:] or QUICK:
        print(f"== {name}")
        importlib.import_module(BENCHES[name]).main()


if __name__ == "__main__":
    main()
