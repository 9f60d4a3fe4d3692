"""`python -m tests.fuzz KIND FIRST [COUNT [WORKERS]]`: one case by its number, or so many from there on."""

from __future__ import annotations

import sys

from tests.fuzz.hunting import hunt, told

kind, first, count, workers = (sys.argv[1:] + ["0", "1", "1"][len(sys.argv) - 2 :])[:4]
found = hunt(kind, int(first), int(count), int(workers))
print(told(found))
sys.exit(bool(found.found))
