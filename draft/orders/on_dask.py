"""Orders made on other machines, by Dask's scheduler and its workers, an engine that is kept by others.

Here are only the asks and the answers: the journal, and every file in its place, stay with the batch. So a worker may
die, a scheduler be started again, an order be made twice: what is lost is asked for anew, and what comes twice counts
once. Nothing but numbers stands in the names of what is asked.
"""

from __future__ import annotations

import contextlib
import logging
import math
import signal
import threading
import time
import uuid
from collections.abc import Callable, Iterable, Iterator
from typing import TYPE_CHECKING

from draft.base.notes import Note, Problems, caution, error
from draft.orders.became import Refused, became_from
from draft.orders.far_hand import Far, Parcel, made_far
from draft.orders.hands import SECONDS, Answer, Work
from draft.orders.kept_inputs import Kept
from draft.orders.one_order import Order
from draft.orders.order_data import order_data
from draft.orders.same_program import program

if TYPE_CHECKING:
    from distributed import Client, Future

LOCAL = "local"
"""In the place of an address: workers of this machine, as many as it has cores."""
INSTALL = "pip install 'plainseam[orders]'"
PATIENCE = 300.0
"""Seconds for which a scheduler that is gone is waited for."""
_CONNECT = 10.0
_GLANCE = 1.0
_CALM = {
    "distributed.worker.profile.enabled": False,
    "distributed.worker.memory.monitor-interval": "2s",
    "distributed.admin.system-monitor.interval": "5s",
    "distributed.admin.tick.interval": "500ms",
    "distributed.scheduler.work-stealing-interval": "1s",
}
"""Nobody looks at the pages of a cluster of our own: it watches itself less, for a hundredth of a core, not a tenth."""
_ALONE = 20.0
"""Seconds without a worker until it is told."""
_AHEAD = 2
"""Orders that are asked for ahead of each worker: enough that none waits, few enough for little to be held."""
_FEWEST = 4
_TRIES = 4
"""Asks for one order on which workers died, each of them several: what kills so many is the order."""


def by_scheduler(
    address: str, count: int, seconds: float = SECONDS, warn: Callable[[Note], object] = lambda note: None
) -> Work:
    """Have orders made by the workers of a scheduler at an address, or by `count` new ones of this machine.

    `warn` is told where a scheduler has no workers for long: they are waited for.

    Raises `Problems` where Dask is not installed, and while working where no scheduler is there for long.
    """
    try:
        import distributed  # noqa: F401
    except ImportError:
        fact = "`--scheduler` needs Dask's distributed scheduler, which is not installed"
        raise Problems([error(fact, None, f"install it with `{INSTALL}`, or leave the option out")]) from None
    logging.getLogger("distributed").setLevel(logging.CRITICAL)

    def work(kept: Kept, orders: Iterable[Order]) -> Iterator[Answer]:
        with _cluster(address, count) as there:
            yield from _Asks(there, kept, seconds, warn).answers(iter(orders))

    return work


@contextlib.contextmanager
def _cluster(address: str, count: int) -> Iterator[str]:
    """The address of a scheduler, with one of this machine's own while it lasts where that is asked for."""
    if address != LOCAL:
        yield address
        return
    from dask import config
    from distributed import LocalCluster

    with config.set(_CALM), _unheard():
        cluster = LocalCluster(
            n_workers=count, threads_per_worker=1, processes=True, dashboard_address=None, silence_logs=logging.CRITICAL
        )
    with config.set(_CALM), cluster:
        yield str(cluster.scheduler_address)


@contextlib.contextmanager
def _unheard() -> Iterator[None]:
    """Processes that are started while this lasts leave the keyboard's interrupt to us, and say nothing of it."""
    if threading.current_thread() is not threading.main_thread():
        yield
        return
    before = signal.signal(signal.SIGINT, signal.SIG_IGN)
    try:
        yield
    finally:
        signal.signal(signal.SIGINT, before)


class _Asks:
    """The orders that are asked for, each by a future; and a client, another where its scheduler was gone."""

    def __init__(self, address: str, kept: Kept, seconds: float, warn: Callable[[Note], object]) -> None:
        self._address, self._kept, self._seconds, self._warn = address, kept, seconds, warn
        self._run, self._count = uuid.uuid4().hex[:12], 0
        self._client: Client | None = None
        self._waiting: dict[Future, Order] = {}
        self._died: dict[str, int] = {}
        self._room, self._looked = _FEWEST, 0.0
        self._seen = time.monotonic()
        self._one_is_done = threading.Event()

    def answers(self, orders: Iterator[Order]) -> Iterator[Answer]:
        """What came of each order, as it comes."""
        try:
            more = True
            while more or self._waiting:
                self._connect()
                more = more and self._ask_for(orders)
                for future in self._settled():
                    order = self._waiting.pop(future, None)  # none where it was asked for anew in between
                    answer = self._answer(future, order) if order else None
                    if answer:
                        yield answer
        finally:
            self._end()

    def _ask_for(self, orders: Iterator[Order]) -> bool:
        """Ask for as many as there is room for; gives whether there may be more."""
        while len(self._waiting) < self._room:
            order = next(orders, None)
            if order is None:
                return False
            self._ask(order)
        return True

    def _ask(self, order: Order) -> None:
        assert self._client
        self._count += 1
        parcel = Parcel(order_data(order))
        future = self._client.submit(
            made_far,
            self._kept,
            parcel,
            self._seconds,
            program(),
            key=f"plainseam-{self._run}-{self._count}",
            pure=False,
        )
        future.add_done_callback(lambda done: self._one_is_done.set())
        self._waiting[future] = order

    def _settled(self) -> list[Future]:
        """Those that have come to an end, waited for a little."""
        self._one_is_done.wait(_GLANCE)
        self._one_is_done.clear()
        self._look_at_room()
        return [future for future in self._waiting if future.status != "pending"]

    def _answer(self, future: Future, order: Order) -> Answer | None:
        """What it gave; None where it was lost, and is asked for again."""
        if future.status == "finished":
            far = _fetched(future, self._seconds)
            if far:
                return Answer(became_from(far.said.opened()), far.files)
        elif future.status == "error":
            fault = future.exception(timeout=_GLANCE)
            _stop_unless_there(fault)
            self._died[order.key] = self._died.get(order.key, 0) + 1
            if self._died[order.key] >= _TRIES:
                fact = "every worker that was asked for it died"
                return Answer(Refused(order.key, (fact,), ("give workers more memory",), "broke"), {})
        self._connect()
        self._ask(order)
        return None

    def _look_at_room(self) -> None:
        """Ask ahead of as many workers as there are now: one may have joined."""
        now = time.monotonic()
        if self._client and now - self._looked > _GLANCE:
            self._looked = now
            with contextlib.suppress(Exception):
                threads = sum(self._client.nthreads().values())
                self._room = max(_FEWEST, _AHEAD * threads)
                self._say_if_alone(threads, now)

    def _say_if_alone(self, threads: int, now: float) -> None:
        """Say once that there has been nobody for long to do the work."""
        if threads:
            self._seen = now
        elif now - self._seen > _ALONE:
            self._seen = math.inf
            fact = f"the scheduler at `{self._address}` has no workers; they are waited for"
            self._warn(caution(fact, None, f"start some with `dask worker {self._address} --nthreads 1`"))

    def _connect(self) -> None:
        """A client that is connected: another where the one before has lost its scheduler for good."""
        from distributed import Client

        if self._client and self._client.status in ("running", "connecting"):
            return
        until = time.monotonic() + (PATIENCE if self._count else 0.0)  # one that was never there is told at once
        lost = list(self._waiting.values())
        self._waiting.clear()
        while True:
            try:
                self._client = Client(self._address, timeout=_CONNECT, set_as_default=False)
                break
            except (OSError, ValueError) as reason:
                if time.monotonic() > until or isinstance(reason, ValueError):
                    raise Problems([_nobody(self._address)]) from None
                time.sleep(_GLANCE)
        for order in lost:
            self._ask(order)

    def _end(self) -> None:
        with contextlib.suppress(Exception):
            if self._client:
                self._client.cancel(list(self._waiting))
                self._client.close(timeout=2)


def _fetched(future: Future, seconds: float) -> Far | None:
    """The bytes of a pack; None where they were lost on the way. Raises `Problems` where another program made them."""
    try:
        far = future.result(timeout=seconds)
    except Exception:
        return None
    if not isinstance(far, Far):
        return None
    if far.program != program():
        fact = f"the workers run plainseam {far.program.partition(' ')[0]}, which is not the same as here"
        raise Problems([error(fact, None, "install the same version on all machines, and start them again")])
    return far


def _stop_unless_there(fault: BaseException | None) -> None:
    """Raises `Problems` where the workers cannot know what they are asked, as plainseam is not there."""
    if isinstance(fault, ImportError) and "draft" in str(fault):
        raise Problems([error("the workers have no plainseam", None, "install the same version on all machines")])


def _nobody(address: str) -> Note:
    fix = "start one with `dask scheduler`, and workers with `dask worker ADDRESS --nthreads 1`"
    return error(f"there is no scheduler at `{address}`", None, fix)
