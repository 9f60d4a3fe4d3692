"""What a worker of Dask does for a batch on another machine: it has a hand of its own make the order, and gives bytes.

A hand is a process for each thread of the worker, so that a pack may take too long or break without harm to the worker,
and no two are made in one process. The inputs come along with every order and are kept in a folder here by their
digest: a worker that joins late, or is started again, needs nothing else, and nothing of the shop's disk.
"""

from __future__ import annotations

import atexit
import contextlib
import json
import tempfile
import threading
import zlib
from pathlib import Path
from typing import Any

from draft.base.alone import workplace
from draft.base.record import dataclass
from draft.base.worker_ways import where_broken
from draft.orders.became import Refused, became_data
from draft.orders.hands import Hand, asked_of
from draft.orders.kept_inputs import Kept, Places
from draft.orders.order_data import order_from
from draft.orders.same_program import program

_IDLE = 60.0
"""Seconds after which hands that nobody asks anything are let go."""


class Parcel:
    """Data on its way that show nothing of themselves: what a worker writes into its log tells no measure."""

    def __init__(self, said: dict[str, Any]) -> None:
        self._data = zlib.compress(json.dumps(said, ensure_ascii=False).encode("utf-8", "backslashreplace"), 1)

    def opened(self) -> dict[str, Any]:
        """What was put into it."""
        said: dict[str, Any] = json.loads(zlib.decompress(self._data))
        return said

    def __repr__(self) -> str:
        return "<an order>"


@dataclass(frozen=True)
class Far:
    """What came of an order on another machine: what `became_data` says, and the files; or which program is there."""

    said: Parcel
    files: dict[str, bytes]
    program: str


def made_far(kept: Kept, parcel: Parcel, seconds: float, wanted: str) -> Far:
    """Make an order here. It never raises: what it raised would be written into the log with all that it was given."""
    there, key = program(), ""
    if there != wanted:
        return Far(Parcel({}), {}, there)
    try:
        said = parcel.opened()
        key = str(said["key"])
        with _CREW.hand(kept) as held:
            held.hand, answer = asked_of(held.hand, held.places, order_from(said), seconds)
        return Far(Parcel(became_data(answer.became)), answer.files, there)
    except Exception as reason:
        broken = Refused(key, (f"a worker could not do its work ({where_broken(reason)})",), why="broke")
        return Far(Parcel(became_data(broken)), {}, there)


@dataclass
class _Held:
    """A hand that one order has for itself, and where its inputs lie."""

    places: Places
    hand: Hand | None = None


class _Crew:
    """The hands of this process that have nothing to do, all of one batch, and the folder with its inputs."""

    def __init__(self) -> None:
        self._lock = threading.Lock()
        self._stack = contextlib.ExitStack()
        self._key, self._places = "", Places()
        self._free: list[Hand] = []
        self._clock: threading.Timer | None = None
        atexit.register(self.close)

    @contextlib.contextmanager
    def hand(self, kept: Kept) -> Any:
        """A hand for one order, taken from those that are free."""
        with self._lock:
            self._stop_clock()
            if kept.key != self._key:
                self._begin(kept)
            held, key = _Held(self._places, self._free.pop() if self._free else None), self._key
        try:
            yield held
        finally:
            with self._lock:
                if held.hand and key == self._key:
                    self._free.append(held.hand)
                elif held.hand:
                    held.hand.close()
                self._start_clock()

    def close(self) -> None:
        """Let go of all hands that are free, and of the folder."""
        self._let_go()
        self._stack.close()
        self._key = ""

    def _begin(self, kept: Kept) -> None:
        self.close()
        folder = self._stack.enter_context(workplace(Path(tempfile.gettempdir())))
        self._key, self._places = kept.key, kept.put_into(folder)

    def _let_go(self) -> None:
        while self._free:
            self._free.pop().close()

    def _stop_clock(self) -> None:
        if self._clock:
            self._clock.cancel()

    def _start_clock(self) -> None:
        self._stop_clock()
        self._clock = threading.Timer(_IDLE, self._idle)
        self._clock.daemon = True
        self._clock.start()

    def _idle(self) -> None:
        with self._lock:
            self._let_go()


_CREW = _Crew()
