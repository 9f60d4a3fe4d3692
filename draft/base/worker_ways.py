"""What every worker process of ours does: limits itself, speaks over its two streams, ends with its parent."""

from __future__ import annotations

import contextlib
import os
import sys
import threading
import time
from pathlib import Path
from typing import IO, BinaryIO

from draft.base.framing import HEAD, LARGEST, Message, message, opened

_GLANCE = 0.5


def limit(memory: int) -> None:
    """Take no more than so many bytes, where the system has such limits; leave no core behind."""
    with contextlib.suppress(ImportError, ValueError, OSError):
        import resource

        resource.setrlimit(resource.RLIMIT_CORE, (0, 0))
        resource.setrlimit(resource.RLIMIT_AS, (memory, memory))


def streams() -> tuple[BinaryIO, BinaryIO]:
    """Where asks come from and answers go to; what anything else prints goes to standard error."""
    answers = os.fdopen(os.dup(1), "wb")
    os.dup2(2, 1)
    return sys.stdin.buffer, answers


def end_with_parent() -> None:
    """From now on this process ends once its parent has, whatever it is doing then."""
    threading.Thread(target=_end_with, args=(os.getppid(),), daemon=True).start()


def _end_with(parent: int) -> None:
    while os.name != "posix" or os.getppid() == parent:
        time.sleep(_GLANCE)
    os._exit(1)


def heard(asks: IO[bytes]) -> Message | tuple[str, bytes] | None:
    """The next message, or file with its name; None where there are no more, or what came is no message."""
    head = asks.read(HEAD.size)
    if len(head) < HEAD.size:
        return None
    sort, length = HEAD.unpack(head)
    if length > LARGEST:
        return None
    data = asks.read(length)
    return opened(sort, data) if len(data) == length else None


def say(answers: BinaryIO, said: Message) -> None:
    """Send a message; whoever is no longer heard ends."""
    put(answers, message(said))


def put(answers: BinaryIO, data: bytes) -> None:
    """Send what is framed already; whoever is no longer heard ends."""
    try:
        answers.write(data)
        answers.flush()
    except OSError:
        os._exit(1)


def where_broken(reason: BaseException) -> str:
    """The sort of a fault, and the line of the program: never what it says, which may hold measures."""
    trace = reason.__traceback__
    while trace is not None and trace.tb_next is not None:
        trace = trace.tb_next
    place = f" in {Path(trace.tb_frame.f_code.co_filename).name}:{trace.tb_lineno}" if trace else ""
    return f"{type(reason).__name__}{place}"
