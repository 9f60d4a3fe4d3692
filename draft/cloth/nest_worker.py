"""The general solver in a process of its own: it reads a question as JSON and answers with a line for each better lay.

It runs as a script beside the package and imports nothing of it. Nothing that the solver does can then reach the
program: its panics are no `Exception`, it does not hear the keyboard, and a thread of it left behind ends Python.
"""

from __future__ import annotations

import json
import os
import sys
import threading
from typing import Any

LISTEN = 0.2
"""Seconds between looks at what the solver reports."""

EXPLORING = 0.75
"""The share of its seconds in which the solver looks for other lays, before it presses the best one together."""


def main() -> None:
    """One question on standard input, the lays found so far on standard output, the best one last."""
    from datetime import timedelta

    import spyrrow

    question = json.load(sys.stdin)
    items = [
        spyrrow.Item(item["id"], [tuple(point) for point in item["points"]], item["count"], item["turns"])
        for item in question["items"]
    ]
    queue = spyrrow.ProgressQueue()
    config = spyrrow.StripPackingConfig(num_workers=question["workers"], seed=question["seed"])
    config.exploration_time = timedelta(seconds=question["seconds"] * EXPLORING)
    config.compression_time = timedelta(seconds=question["seconds"] * (1 - EXPLORING))
    instance = spyrrow.StripPackingInstance("lay", question["width"], items)
    last: list[Any] = []
    solving = threading.Thread(target=lambda: last.append(instance.solve(config, queue)), daemon=True)
    solving.start()
    while solving.is_alive():
        solving.join(LISTEN)
        if os.name == "posix" and os.getppid() != question["parent"]:
            os._exit(1)  # nobody is left to be answered
        for kind, lay in queue.drain():
            if kind in (spyrrow.ReportType.ExplFeas, spyrrow.ReportType.CmprFeas):
                _say(lay)
    for lay in last:
        _say(lay)
    os._exit(0)


def _say(lay: Any) -> None:
    placed = [[item.id, item.rotation, *item.translation] for item in lay.placed_items]
    sys.stdout.write(json.dumps(placed) + "\n")
    sys.stdout.flush()


if __name__ == "__main__":
    main()
