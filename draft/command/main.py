"""The command `plainseam`, and the place to start reading: read the arguments, call, print, and exit.

A verb is a function in one of the `FILES` of `group.py`, which is read when the verb is asked for. It makes a request
of its options, calls one function of another room with it, and prints or writes what that gives.

Exit codes: 0: done. 1: the pattern, the chart or the body has problems, all of them shown. 2: the command was used
wrongly.
"""

from __future__ import annotations

import errno
import gc
import os
import sys

import click

from draft.base.notes import Note, Problems, error
from draft.command.console import (
    forget_output,
    print_bytes,
    print_mistake,
    print_notes,
    print_text,
    ready_streams,
)
from draft.command.group import commands
from draft.command.told_as_data import Telling, begin_telling, end_telling

REPORT = "if it happens again, report it to whoever gave you plainseam, with the command and the files"


def main() -> int:
    """Run the command; a user's mistake becomes one clear message and an exit code, never a traceback."""
    ready_streams()
    gc.set_threshold(300_000, 50, 50)  # reading makes many things that stay: looking for waste among them takes time
    os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")  # for matrices as small as ours: numpy starts sooner
    begin_telling(sys.argv[1:])
    try:
        code = _run()
    except SystemExit as stop:
        code = int(stop.code or 0)
    told = end_telling()
    return _told(told, code) if told else code


def _told(told: Telling, code: int) -> int:
    """Print what was gathered as data, and give the exit code."""
    try:
        print_bytes(told.document(code))
    except OSError as reason:
        forget_output()
        print_notes(_last_words(reason))
        return 1
    return code


def _run() -> int:
    try:
        commands(standalone_mode=False)
    except Problems as problems:
        print_notes(problems.notes)
        return 1
    except click.ClickException as mistake:
        print_mistake(mistake)
        return mistake.exit_code
    except (click.Abort, KeyboardInterrupt):
        print_text("stopped; nothing was written", aside=True)
        return 1
    except (OSError, MemoryError, RecursionError) as reason:
        forget_output()
        print_notes(_last_words(reason))
        return 1
    return 0


def _last_words(reason: OSError | MemoryError | RecursionError) -> list[Note]:
    """What there is to say of a refusal by the system that nothing has foreseen; nothing where nobody listens."""
    if isinstance(reason, BrokenPipeError):
        return []
    if isinstance(reason, MemoryError):
        return [error("this takes more memory than there is", None, "ask for fewer sizes at a time", REPORT)]
    if isinstance(reason, RecursionError):
        return [error("something here is nested too deep to be followed", None, REPORT)]
    words = (reason.strerror or str(reason)).lower()
    if reason.filename is None and reason.errno in (errno.ENOSPC, errno.EBADF, errno.EIO, errno.EFBIG):
        return [error(f"what there is to say cannot be written to standard output: {words}")]
    where = f" (`{reason.filename}`)" if reason.filename is not None else ""
    return [error(f"the system refused something that plainseam asked of it: {words}{where}", None, REPORT)]
