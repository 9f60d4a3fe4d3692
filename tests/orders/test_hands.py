"""Workers of this machine: real processes that are given the inputs once, and may be killed."""

from __future__ import annotations

import os
import shutil
import signal
import threading
import time
from pathlib import Path

from draft.base.resources import folder
from draft.orders.became import Made, Refused
from draft.orders.hands import Hand, by_hands
from draft.orders.kept_inputs import keep_inputs
from draft.orders.one_order import Order
from draft.orders.order_made import Packed, pack_order

SMALL = {"pages": (), "widths": (), "holds": ("html", "svg")}
INES = {"bust_girth": "98 cm", "waist_girth": "83 cm", "hip_girth": "104 cm", "stature": "168 cm"}


def test_a_pattern_edited_while_orders_run_changes_nothing(tmp_path: Path) -> None:
    """Marlpit's texts in a folder of its own: the second order is drafted after they have been spoilt."""
    for name in ("marlpit.piece", "bands.piece", "women.csv", "marlpit.de.toml"):
        shutil.copy(folder("pieces") / name, tmp_path / name)
    pattern = str(tmp_path / "marlpit.piece")
    kept = keep_inputs([pattern], ["moderate"])
    orders = [Order(f"A-{k}", pattern, INES, language="de", cloth="moderate", **SMALL) for k in range(2)]
    wanted = [pack_order(one) for one in orders]
    found = []
    for answer in by_hands(1)(kept, orders):
        for path in tmp_path.iterdir():
            path.write_text("spoilt")
        found.append(answer)
    assert [Packed(one.became, one.files) for one in found if isinstance(one.became, Made)] == wanted


def test_a_worker_that_is_killed_or_takes_too_long_is_replaced(tmp_path: Path) -> None:
    kept = keep_inputs(["marlpit"], [])
    places = kept.put_into(tmp_path)
    hand = Hand(places)
    threading.Timer(0.5, os.kill, (hand.process.pid, signal.SIGSTOP)).start()
    threading.Timer(1.0, os.kill, (hand.process.pid, signal.SIGKILL)).start()
    assert hand.ask(Order("A-1", "marlpit", INES)) is None
    hand.close()
    slow = by_hands(1, seconds=0.05)
    (answer,) = slow(kept, [Order("A-1", "marlpit", INES, **SMALL)])
    assert isinstance(answer.became, Refused) and answer.became.why == "broke"
    assert "longer than 0 seconds" in answer.became.reasons[0]


def test_one_order_that_breaks_leaves_the_others_whole() -> None:
    kept = keep_inputs(["marlpit"], [])
    orders = [Order("A-1", "nowhere", INES), Order("A-2", "marlpit", INES, **SMALL), Order("A-3", "marlpit", {})]
    found = {one.became.key: one.became for one in by_hands(2)(kept, orders)}
    assert isinstance(found["A-2"], Made)
    assert all(isinstance(found[key], Refused) for key in ("A-1", "A-3"))


def test_workers_end_when_nobody_waits_for_them() -> None:
    kept = keep_inputs(["marlpit"], [])
    answers = by_hands(2)(kept, (Order(f"A-{k}", "marlpit", {}) for k in range(1000)))
    next(answers)
    before = _children()
    answers.close()
    time.sleep(0.1)
    assert before and not before & _children()


def _children() -> set[int]:
    """The processes of this one that make orders."""
    found = set()
    for path in Path("/proc").glob("[0-9]*/cmdline") if Path("/proc").is_dir() else ():
        try:
            line = path.read_bytes()
            parent = (path.parent / "stat").read_text().rpartition(")")[2].split()[1]
        except OSError:
            continue
        if b"order_hand" in line and int(parent) == os.getpid():
            found.add(int(path.parent.name))
    return found
