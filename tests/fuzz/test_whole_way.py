"""Whatever is given to the command, it does its work or tells notes, within 10 s and 1 GB.

`PLAINSEAM_FUZZ=0.01 pytest tests/fuzz -m slow -s` runs a hundredth of the cases; `PLAINSEAM_FUZZ_FIRST` is the number
that they begin at, and `PLAINSEAM_FUZZ_WORKERS` how many processes run them.
"""

from __future__ import annotations

import os

import pytest

from tests.fuzz.hunting import hunt, told

COUNTS = {
    "texts": 100_000,
    "outputs": 10_000,
    "charts": 10_000,
    "bodies": 10_000,
    "cloths": 10_000,
    "options": 10_000,
    "wearers": 1_000,
    "endless": 1_000,
    "pictures": 1_000,
    "beginnings": 5_000,
    "envelopes": 5_000,
    "orders": 2_000,
    "prices": 3_000,
    "releases": 500,
    "sits": 50,
    "studios": 3_000,
    "testers": 5_000,
    "tries": 1_000,
    "shelves": 500,
    "proposals": 2_000,
    "far women": 1_000,
    "coarse": 1_000,
    "page": 5_000,
}
SHARE = float(os.environ.get("PLAINSEAM_FUZZ", "1"))
FIRST = int(os.environ.get("PLAINSEAM_FUZZ_FIRST", "0"))
WORKERS = int(os.environ.get("PLAINSEAM_FUZZ_WORKERS", str(os.cpu_count() or 1)))


@pytest.mark.slow
@pytest.mark.parametrize("kind", COUNTS)
def test_nothing_but_told_notes(kind: str) -> None:
    found = hunt(kind, FIRST, max(1, round(COUNTS[kind] * SHARE)), WORKERS)
    print(told(found))
    assert not found.found
