"""Workers of this machine for a batch of orders: long-lived processes, one order each at a time.

A worker that takes too long or breaks is ended and another started in its place; an order that two workers broke on is
told as broken. After so many orders a worker is replaced, so that nothing that it forgot to let go of lasts for ever.
"""

from __future__ import annotations

import contextlib
import subprocess
import tempfile
import threading
from collections.abc import Callable, Iterable, Iterator
from pathlib import Path
from queue import Empty, Full, Queue
from typing import TypeAlias

from draft.base.alone import workplace
from draft.base.framing import message
from draft.base.itself import started_as
from draft.base.record import dataclass
from draft.base.worker_ways import heard
from draft.orders.became import Made, Refused, became_from
from draft.orders.kept_inputs import Kept, Places
from draft.orders.one_order import Order
from draft.orders.order_data import order_data

SECONDS = 300.0
"""By the clock, for one order: a hundred times what a large one takes."""
MEMORY = 1_600_000_000
"""Bytes of address space, of one worker."""
RENEWED = 500
"""Orders after which a worker is replaced."""
_TRIES = 2
_GLANCE = 0.2


@dataclass(frozen=True)
class Answer:
    """What became of one order, with the files of its pack where it was made."""

    became: Made | Refused
    files: dict[str, bytes]


Work: TypeAlias = Callable[[Kept, Iterable[Order]], Iterator[Answer]]
"""Makes orders somewhere, each once and in any order of time; what it holds on to ends with the iterator."""


class Hand:
    """One worker process, which reads the inputs at their places."""

    def __init__(self, places: Places, seconds: float = SECONDS, memory: int = MEMORY) -> None:
        self.count, self._seconds = 0, seconds
        self.process = subprocess.Popen(
            started_as("draft.orders.order_hand", str(memory)),
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            start_new_session=True,  # the keyboard's interrupt is the batch's to answer
        )
        self._send(message(places))

    def ask(self, order: Order) -> Answer | None:
        """What became of it; None where the process ended, or was ended for taking too long."""
        self.count += 1
        clock = threading.Timer(self._seconds, self.end)
        clock.daemon = True
        clock.start()
        try:
            return self._talk(order)
        except (OSError, KeyError, TypeError, ValueError):
            return None
        finally:
            clock.cancel()

    def _talk(self, order: Order) -> Answer | None:
        assert self.process.stdout
        if self.count == 1 and heard(self.process.stdout) != {"ready": True}:
            return None
        self._send(message(order_data(order)))
        files: dict[str, bytes] = {}
        while isinstance(said := heard(self.process.stdout), tuple):
            files[said[0]] = said[1]
        return None if said is None else Answer(became_from(said), files)

    def _send(self, data: bytes) -> None:
        assert self.process.stdin
        with contextlib.suppress(OSError):  # it has ended, which is seen when it is listened to
            self.process.stdin.write(data)
            self.process.stdin.flush()

    def end(self) -> None:
        """End it at once."""
        with contextlib.suppress(ProcessLookupError):
            self.process.kill()

    def close(self) -> None:
        """End it, wait until it has, and let go of its streams."""
        self.end()
        self.process.wait()
        for stream in (self.process.stdin, self.process.stdout):
            with contextlib.suppress(OSError):
                assert stream
                stream.close()


def asked_of(
    hand: Hand | None, places: Places, order: Order, seconds: float, is_over: Callable[[], bool] = lambda: False
) -> tuple[Hand | None, Answer]:
    """Have an order made by a worker, a new one where there is none or it has done enough; gives who is there then.

    Nobody is started any more once it `is_over`.
    """
    for _ in range(_TRIES):
        if is_over():
            break
        if hand is not None and hand.count >= RENEWED:
            hand.close()
            hand = None
        hand = hand or Hand(places, seconds)
        answer = hand.ask(order)
        if answer is not None:
            return hand, answer
        hand.close()
        hand = None
    fact = f"it took longer than {seconds:.0f} seconds, or took too much, and was stopped"
    return None, Answer(Refused(order.key, (fact,), ("try again, or ask for less",), "broke"), {})


def by_hands(count: int, seconds: float = SECONDS) -> Work:
    """Have orders made by so many workers of this machine."""

    def work(kept: Kept, orders: Iterable[Order]) -> Iterator[Answer]:
        with workplace(Path(tempfile.gettempdir())) as folder:
            yield from _Hands(kept.put_into(folder), orders, seconds).answers(count)

    return work


class _Hands:
    """Threads that wait for a worker each; answers are handed on one by one, and no worker is far ahead of them."""

    def __init__(self, places: Places, orders: Iterable[Order], seconds: float) -> None:
        self._places, self._orders, self._seconds = places, iter(orders), seconds
        self._lock, self._ended = threading.Lock(), threading.Event()
        self._at_work: dict[int, Hand] = {}
        self._broken: list[BaseException] = []

    def answers(self, count: int) -> Iterator[Answer]:
        done: Queue[Answer | None] = Queue(maxsize=2 * count)
        threads = [threading.Thread(target=self._work, args=(k, done), daemon=True) for k in range(count)]
        for thread in threads:
            thread.start()
        left = count
        try:
            while left:
                found = done.get()
                if found is None:
                    left -= 1
                else:
                    yield found
        finally:
            self._ended.set()
            for hand in list(self._at_work.values()):
                hand.end()
            _emptied(done)
            for thread in threads:
                thread.join()
        if self._broken:
            raise self._broken[0]

    def _work(self, number: int, done: Queue[Answer | None]) -> None:
        hand: Hand | None = None
        try:
            while not self._ended.is_set() and (order := self._next()) is not None:
                hand, answer = self._asked(number, hand, order)
                self._put(done, answer)
        except BaseException as reason:
            self._broken.append(reason)
        finally:
            if hand:
                hand.close()
            self._put(done, None)

    def _asked(self, number: int, hand: Hand | None, order: Order) -> tuple[Hand | None, Answer]:
        with self._lock:
            if hand is None and not self._ended.is_set():
                hand = self._at_work[number] = Hand(self._places, self._seconds)
        hand, answer = asked_of(hand, self._places, order, self._seconds, self._ended.is_set)
        if hand:
            self._at_work[number] = hand
        return hand, answer

    def _next(self) -> Order | None:
        with self._lock:
            return next(self._orders, None)

    def _put(self, done: Queue[Answer | None], answer: Answer | None) -> None:
        while not self._ended.is_set():
            with contextlib.suppress(Full):
                done.put(answer, timeout=_GLANCE)
                return


def _emptied(done: Queue[Answer | None]) -> None:
    with contextlib.suppress(Empty):
        while True:
            done.get_nowait()
