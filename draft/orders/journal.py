"""The journal of a batch: a line for what became of each order, written and safe on the disk before its pack is moved.

So an order is done where its line is there and its folder too; whatever else a stop leaves behind is made again. Each
line begins with a checksum of itself: what was cut off while it was written is as if it were not there. Only keys of
orders stand in it, and nothing of a customer.
"""

from __future__ import annotations

import hashlib
import json
import os
from collections.abc import Iterable, Mapping
from pathlib import Path
from typing import Any

from draft.base.notes import Problems, error
from draft.base.opening import open_file
from draft.base.record import dataclass
from draft.orders.became import Made, Refused, became_data, became_from

FILE = "orders.journal"
_FORMAT = 1
_SIGN = 16
"""Letters of the checksum: enough to tell a line that was cut off or changed by chance."""


@dataclass(frozen=True)
class Begun:
    """What a batch was begun with: the program, each input by its digest, and how many orders of which table."""

    program: str
    inputs: Mapping[str, str]
    orders: int
    table: str
    """The SHA-256 of all orders so far, each with the one before it."""


class Journal:
    """A journal that is open for writing: its orders so far, by their keys."""

    def __init__(self, folder: Path) -> None:
        """Read what is there. Raises `Problems` for a file that is no journal, and OSError."""
        self.path = folder / FILE
        self.begun: Begun | None = None
        self.became: dict[str, Made | Refused] = {}
        self.damaged = 0
        whole = self._read() if self.path.exists() else 0
        self._file = os.open(self.path, os.O_RDWR | os.O_CREAT | getattr(os, "O_BINARY", 0), 0o644)
        os.ftruncate(self._file, whole)
        os.lseek(self._file, 0, os.SEEK_END)

    def begin(self, begun: Begun) -> None:
        """Say what is made; again where orders were added to the table."""
        if begun != self.begun:
            self._add(_begun_data(begun))
            self.begun = begun

    def add(self, one: Made | Refused) -> None:
        """Write down what became of an order: on the disk when this returns. Raises OSError where it cannot be."""
        self._add(became_data(one))
        self.became[one.key] = one

    def close(self) -> None:
        """Close the file; nothing is lost by leaving it open."""
        os.close(self._file)

    def in_order(self, keys: Iterable[str]) -> bytes:
        """The same journal with its orders as the table has them: one that was never stopped reads so too."""
        lines = [_begun_data(self.begun)] if self.begun else []
        lines += [became_data(self.became[key]) for key in keys if key in self.became]
        return b"".join(map(_line, lines))

    def _add(self, data: Mapping[str, Any]) -> None:
        line, start = _line(data), os.lseek(self._file, 0, os.SEEK_END)
        try:
            while line:
                line = line[os.write(self._file, line) :]
            os.fsync(self._file)
        except OSError:
            os.ftruncate(self._file, start)
            raise

    def _read(self) -> int:
        """Take up what its lines say; gives how many of its bytes are whole lines."""
        with open_file(self.path, "journal of orders") as file:
            data = file.read()
        if data and not _opened(data.partition(b"\n")[0]) and b"\n" in data:
            fix = "choose a new folder with `--out`, or move that file away"
            raise Problems([error(f"`{self.path}` is no journal of orders", None, fix)])
        whole = data.rfind(b"\n") + 1
        for line in data[:whole].splitlines():
            said = _opened(line)
            if said is None or not self._take(said):
                self.damaged += 1
        return whole

    def _take(self, said: Mapping[str, Any]) -> bool:
        try:
            if "journal" in said:
                self.begun = Begun(str(said["program"]), dict(said["inputs"]), int(said["orders"]), str(said["table"]))
            else:
                one = became_from(said)
                self.became[one.key] = one
        except (KeyError, TypeError, ValueError, AttributeError):
            return False
        return True


def _begun_data(begun: Begun) -> dict[str, Any]:
    said = {"journal": _FORMAT, "program": begun.program, "inputs": dict(begun.inputs)}
    return {**said, "orders": begun.orders, "table": begun.table}


def _line(data: Mapping[str, Any]) -> bytes:
    text = json.dumps(data, ensure_ascii=False, separators=(",", ":")).encode("utf-8", "backslashreplace")
    return _sign(text) + b" " + text + b"\n"


def _sign(text: bytes) -> bytes:
    return hashlib.sha256(text).hexdigest()[:_SIGN].encode()


def _opened(line: bytes) -> dict[str, Any] | None:
    """What a line says; None where it is not whole."""
    sign, _, text = line.partition(b" ")
    if sign != _sign(text):
        return None
    said = json.loads(text)
    return said if isinstance(said, dict) else None
