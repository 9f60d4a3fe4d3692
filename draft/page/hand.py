"""A worker of the page: it reads asks on its standard input, answers each with a verb, and ends with its parent.

What goes wrong in a verb is told as a note; what breaks the process is seen by its parent, which starts another.
"""

from __future__ import annotations

import contextlib
import gc
import json
import os
import sys
import threading
import time
from pathlib import Path
from typing import Any, BinaryIO

from draft.base.notes import Problems, error
from draft.page.bench import Bench
from draft.page.framing import HEAD, LARGEST, Message, file_message, message, opened
from draft.page.notes_told import notes_told

_GLANCE = 0.5


def main() -> None:
    """Work until there are no more asks."""
    given = json.loads(sys.argv[1])
    _limit(int(given["memory"]))
    asks, answers = _streams()
    threading.Thread(target=_end_with, args=(os.getppid(),), daemon=True).start()
    bench = Bench(_path(given.get("people")), _path(given.get("file")))
    from draft.page.page_verbs import VERBS  # heavy: numpy and all rooms

    gc.freeze()
    _send(answers, {"ready": True})
    while (ask := _next(asks)) is not None:
        bench.step = lambda words: _send(answers, {"step": words})
        bench.hand_over = lambda name, data: _write(answers, file_message(name, data))
        _send(answers, answered(VERBS, ask, bench))


def answered(verbs: dict[str, Any], ask: Message, bench: Bench) -> Message:
    """What a verb gives, or notes on why it gives nothing."""
    verb = verbs.get(str(ask.get("verb")))
    try:
        if verb is None:
            raise Problems([error("the page asked for something that is not known here", None, "load it again")])
        return {"gave": verb(ask.get("asked") or {}, bench)}
    except Problems as problems:
        return {"notes": notes_told(problems.notes)}
    except MemoryError:
        return {"notes": notes_told([error("this takes more memory than there is", None, "ask for fewer sizes")])}
    except (OSError, RecursionError) as reason:
        words = getattr(reason, "strerror", None) or type(reason).__name__
        return {"notes": notes_told([error(f"the system refused something: {str(words).lower()}")])}
    except Exception as reason:  # a fault of ours: told by its name alone, for what it says may hold measures
        where = _where(reason)
        print(f"page: `{ask.get('verb')}` broke: {where}", file=sys.stderr, flush=True)
        fault = error(f"something broke that should not have ({where})", None, "report it, please")
        return {"notes": notes_told([fault]), "fault": True}


def _where(reason: Exception) -> str:
    """The sort of a fault, and the line of the program."""
    trace = reason.__traceback__
    while trace is not None and trace.tb_next is not None:
        trace = trace.tb_next
    place = f" in {Path(trace.tb_frame.f_code.co_filename).name}:{trace.tb_lineno}" if trace else ""
    return f"{type(reason).__name__}{place}"


def _path(text: str | None) -> Path | None:
    return Path(text) if text else None


def _limit(memory: int) -> None:
    with contextlib.suppress(ImportError, ValueError, OSError):
        import resource

        resource.setrlimit(resource.RLIMIT_CORE, (0, 0))
        resource.setrlimit(resource.RLIMIT_AS, (memory, memory))


def _streams() -> tuple[BinaryIO, BinaryIO]:
    """Where asks come from and answers go to; what anything else prints goes to standard error."""
    answers = os.fdopen(os.dup(1), "wb")
    os.dup2(2, 1)
    return sys.stdin.buffer, answers


def _end_with(parent: int) -> None:
    while os.name != "posix" or os.getppid() == parent:
        time.sleep(_GLANCE)
    os._exit(1)


def _next(asks: BinaryIO) -> Message | None:
    head = asks.read(HEAD.size)
    if len(head) < HEAD.size:
        return None
    sort, length = HEAD.unpack(head)
    if length > LARGEST:
        return None
    said = opened(sort, asks.read(length))
    return said if isinstance(said, dict) else None


def _send(answers: BinaryIO, said: Message) -> None:
    _write(answers, message(said))


def _write(answers: BinaryIO, data: bytes) -> None:
    try:
        answers.write(data)
        answers.flush()
    except OSError:
        os._exit(1)


if __name__ == "__main__":
    main()
