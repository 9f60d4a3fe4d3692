"""A batch of orders made into one folder, once each, however often it is stopped and started again.

A pack is written into a folder of ours beside the others, its line goes into the journal, and then it is moved to its
place at once. Only this process writes: workers hand over bytes.
"""

from __future__ import annotations

import hashlib
import json
import os
from collections.abc import Callable, Mapping, Sequence
from contextlib import suppress
from dataclasses import field, replace
from pathlib import Path
from typing import TypeAlias

from draft.base.alone import alone, workplace
from draft.base.notes import Problems, error
from draft.base.opening import words_of
from draft.base.output_names import OutputNames
from draft.base.record import dataclass
from draft.orders.became import Made, Refused
from draft.orders.hands import Answer, Work
from draft.orders.journal import FILE, Begun, Journal
from draft.orders.kept_inputs import Kept
from draft.orders.one_order import Order
from draft.orders.order_data import order_data
from draft.orders.order_made import OTHERWISE
from draft.orders.same_program import program

TAKEN = (FILE, "orders.csv", "orders.json", "SHA256SUMS", "cost.csv", "cutting")
"""Names in the folder that no order may have."""
_WAIT = 2.0
Step: TypeAlias = Callable[["Batch"], object]
Tables: TypeAlias = Callable[["Batch"], Mapping[str, bytes]]


@dataclass(frozen=True)
class Row:
    """One row of a table: the order that it says, under a key and a folder of its own, or what is wrong with it."""

    number: int
    order: Order
    fault: Refused | None = None
    called: str = ""
    """The number of the order as its table has it."""


@dataclass
class Batch:
    """How far a batch has come."""

    rows: Sequence[Row]
    became: dict[str, Made | Refused] = field(default_factory=dict)
    before: int = 0
    """Orders that were done when it was started."""
    changed: list[str] = field(default_factory=list)
    """Packs that are no more as they were made."""
    damaged: int = 0
    """Lines of the journal that could not be read."""
    stopped: bool = False

    @property
    def done(self) -> int:
        """Orders that are made or refused."""
        return len(self.became)

    @property
    def made(self) -> list[Made]:
        """What can be sent."""
        return [one for one in self.became.values() if isinstance(one, Made)]


def rows_of(orders: Sequence[Order | Refused]) -> list[Row]:
    """Orders in the order of their table, each under a key that is a safe name and no other's."""
    names = OutputNames(TAKEN)
    rows = []
    for number, one in enumerate(orders, 1):
        key = names.of(one.key, OTHERWISE)
        if isinstance(one, Refused):
            rows.append(Row(number, Order(key, ""), replace(one, key=key), one.key))
        else:
            rows.append(Row(number, replace(one, key=key), called=one.key))
    return rows


def run_batch(
    rows: Sequence[Row],
    kept: Kept,
    folder: Path,
    work: Work,
    step: Step = lambda batch: None,
    tables: Tables = lambda batch: {},
) -> Batch:
    """Make what is not made yet; `step` is told after each order, and `tables` are written at the end.

    The batch is `stopped` by the keyboard's interrupt, and tells so.

    Raises `Problems` where the folder holds a batch of other inputs, another run is at it, or nothing can be written
    there any more: what is made until then stays, and the same batch goes on.
    """
    try:
        folder.mkdir(parents=True, exist_ok=True)
        with alone(folder, _WAIT), workplace(folder) as beside:
            return _Run(rows, kept, folder, beside).run(work, step, tables)
    except OSError as reason:
        fact = f"`{folder}` cannot be written: {words_of(reason)}; what is made is kept and whole"
        fix = "make room there, and start the same again: it goes on where it was"
        raise Problems([error(fact, None, fix)]) from None


class _Run:
    def __init__(self, rows: Sequence[Row], kept: Kept, folder: Path, beside: Path) -> None:
        self.rows, self.kept, self.folder, self.beside = rows, kept, folder, beside
        self.batch = Batch(rows)

    def run(self, work: Work, step: Step, tables: Tables) -> Batch:
        journal = Journal(self.folder)
        try:
            self._take_up(journal)
            try:
                self._make(journal, work, step)
            except KeyboardInterrupt:
                self.batch.stopped = True
            for name, data in tables(self.batch).items():
                self._replace(name, data)
            if self.batch.done == len(self.rows):
                self._replace(FILE, journal.in_order(row.order.key for row in self.rows))
        finally:
            journal.close()
        return self.batch

    def _take_up(self, journal: Journal) -> None:
        """Go on with what is there, if it is of the same inputs."""
        begun = begun_with(self.rows, self.kept)
        if journal.begun is not None:
            stop_if_other(journal.begun, begun, self.rows, self.folder)
        else:
            _stop_if_foreign(self.folder)
        journal.begin(begun)
        self.batch.damaged = journal.damaged
        for row in self.rows:
            one = journal.became.get(row.order.key)
            if isinstance(one, Made) and (self.folder / one.folder).exists():
                self.batch.became[one.key] = one
                if not _is_as_made(self.folder / one.folder, one):
                    self.batch.changed.append(one.key)
            elif isinstance(one, Refused):
                self.batch.became[one.key] = one
        self.batch.before = self.batch.done

    def _make(self, journal: Journal, work: Work, step: Step) -> None:
        for row in self.rows:
            if row.fault and row.order.key not in self.batch.became:
                self._refuse(journal, row.fault)
        left = [row.order for row in self.rows if row.order.key not in self.batch.became]
        free = []
        for order in left:
            if (self.folder / order.key).exists() and order.key not in journal.became:
                self._in_the_way(order)
            else:
                free.append(order)
        step(self.batch)
        answers = work(self.kept, free)
        try:
            for answer in answers:
                self._settle(journal, answer)
                step(self.batch)
        finally:
            with suppress(AttributeError):
                answers.close()  # type: ignore[attr-defined]

    def _settle(self, journal: Journal, answer: Answer) -> None:
        became = answer.became
        if became.key in self.batch.became:
            return  # work may be done twice, and its result comes once
        if isinstance(became, Refused):
            self._refuse(journal, became)
            return
        place = self.beside / became.folder
        _write(place, answer.files)
        journal.add(became)
        place.rename(self.folder / became.folder)
        _sync(self.folder)
        self.batch.became[became.key] = became

    def _refuse(self, journal: Journal, refused: Refused) -> None:
        """What broke off is not written down, so that it is tried again another time."""
        if refused.why == "order":
            journal.add(refused)
        self.batch.became[refused.key] = refused

    def _in_the_way(self, order: Order) -> None:
        fact = f"there is a folder `{order.key}` already, and this batch has not made it"
        self.batch.became[order.key] = Refused(order.key, (fact,), ("move it away, and start again",), "broke")

    def _replace(self, name: str, data: bytes) -> None:
        place = self.beside / "new"
        _put(place, data)
        place.replace(self.folder / name)
        _sync(self.folder)


def _stop_if_foreign(folder: Path) -> None:
    """Raises `Problems` where a file of ours would take the place of somebody else's."""
    there = [name for name in TAKEN if name != FILE and (folder / name).exists()]
    if there:
        fact = f"`{folder / there[0]}` is there, and no batch of orders was begun in that folder"
        raise Problems([error(fact, None, "choose another folder with `--out`, or move that file away")])


def _is_as_made(folder: Path, made: Made) -> bool:
    """Whether the files of a pack are there with their sizes: whoever wants more looks at their sums."""
    try:
        return all((folder / one.name).stat().st_size == one.size for one in made.files)
    except OSError:
        return False


def _write(place: Path, files: Mapping[str, bytes]) -> None:
    """A folder with these files, all of it on the disk."""
    for name, data in files.items():
        (place / name).parent.mkdir(parents=True, exist_ok=True)
        _put(place / name, data)
    for each in {(place / name).parent for name in files} | {place}:
        _sync(each)


def _put(place: Path, data: bytes) -> None:
    with place.open("wb") as file:
        file.write(data)
        file.flush()
        os.fsync(file.fileno())


def _sync(folder: Path) -> None:
    """Have the names in a folder on the disk, where the system does that."""
    if os.name != "posix":
        return
    handle = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)


def begun_with(rows: Sequence[Row], kept: Kept) -> Begun:
    """What a batch is begun with."""
    chain = _chain(rows)
    return Begun(program(), kept.digests(), len(rows), chain[-1])


def _chain(rows: Sequence[Row]) -> list[str]:
    """The digest of no order, of the first, of the first two and so on."""
    chain = [hashlib.sha256(b"").hexdigest()]
    for row in rows:
        said = json.dumps([order_data(row.order), row.fault is not None], sort_keys=True, ensure_ascii=False)
        chain.append(hashlib.sha256((chain[-1] + said).encode("utf-8", "backslashreplace")).hexdigest())
    return chain


def stop_if_other(before: Begun, now: Begun, rows: Sequence[Row], folder: Path) -> None:
    """Raises `Problems` where a folder was begun with other inputs; orders added at the end are none."""
    fix = "put back what was changed, or make these orders in a new folder with `--out`; what was refused and is mended"
    fix += " goes into a table of its own"
    known = {name.partition("/")[0] for name in before.inputs}
    named = [name for name in {**before.inputs, **now.inputs} if name.partition("/")[0] in known]
    changed = [name for name in named if before.inputs.get(name) != now.inputs.get(name)]
    notes = []
    if changed:
        listed = ", ".join(f"`{name}`" for name in sorted(changed))
        notes.append(error(f"not as it was when the orders in `{folder}` were begun: {listed}", None, fix))
    if len(rows) < before.orders or _chain(rows)[before.orders] != before.table:
        fact = f"the orders in `{folder}` were begun with another table, or with other options"
        notes.append(error(fact, None, fix, "orders may be added at the end, and nothing else"))
    if before.program != now.program:
        notes.append(error(f"the orders in `{folder}` were begun by another version of plainseam", None, fix))
    if notes:
        raise Problems(notes)
