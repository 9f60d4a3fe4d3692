"""What the command says on the terminal, and how it writes what was made.

Nothing is printed elsewhere: here texts of a stranger lose what would move a cursor or turn a line's direction.
"""

from __future__ import annotations

import errno
import os
import sys
from collections.abc import Callable, Sequence
from contextlib import suppress
from io import StringIO
from pathlib import Path

import click

from draft.base.notes import Note, Problems, Severity, error, show
from draft.base.told_once import told_once
from draft.base.visible import shortly, visible, visible_lines
from draft.command.told_as_data import tell_written, telling


def print_text(text: str, aside: bool = False) -> None:
    """Print a text, or say it on the side; nothing where data are told in its stead.

    Raises OSError where the answer cannot be written.
    """
    if aside:
        with suppress(OSError):  # then the exit code has to say it
            click.echo(visible_lines(text), err=True)
        return
    if telling():
        return
    if sys.stdout is None:
        raise OSError(errno.EBADF, os.strerror(errno.EBADF))
    click.echo(visible_lines(text))


def print_bytes(data: bytes) -> None:
    """Print a text as it is, for a program to read. Raises OSError where it cannot be written."""
    if sys.stdout is None:
        raise OSError(errno.EBADF, os.strerror(errno.EBADF))
    sys.stdout.buffer.write(data)
    sys.stdout.buffer.flush()


def heard(most: int) -> bytes:
    """What standard input holds, and no more than so many bytes. Raises `Problems` where it cannot be read."""
    if sys.stdin is None:
        raise Problems([error("standard input is closed", None, "give a file, or a text on standard input")])
    try:
        return sys.stdin.buffer.read(most)
    except OSError as reason:
        words = (reason.strerror or str(reason)).lower()
        raise Problems([error(f"standard input cannot be read: {words}")]) from None


def ready_streams() -> None:
    """Make the standard streams safe to use: a closed one goes nowhere, and a letter that one lacks is written out."""
    with suppress(OSError):
        while (number := os.open(os.devnull, os.O_RDWR)) < 3:  # else the next file to be opened would take its place
            continue
        os.close(number)
    for stream in (sys.stdout, sys.stderr):
        with suppress(AttributeError, ValueError, OSError):
            stream.reconfigure(errors="backslashreplace")  # type: ignore[union-attr]


def forget_output() -> None:
    """Send what still waits to be written nowhere: Python would try once more as it ends, and tell that at length."""
    with suppress(AttributeError, ValueError, OSError):
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())


def print_mistake(mistake: click.ClickException) -> None:
    """How the command was used wrongly."""
    now = telling()
    if now:
        now.mistake = shortly(mistake.format_message())
        return
    words = StringIO()
    mistake.show(file=words)
    print_text(shortly(words.getvalue().rstrip("\n")), aside=True)


def print_notes(notes: Sequence[Note]) -> None:
    """Say notes on the side, each once; where data are told they are gathered."""
    now = telling()
    if now:
        now.notes += told_once(notes)
    elif notes:
        print_text(show(told_once(notes)), aside=True)


def stop_on_errors(notes: Sequence[Note]) -> None:
    if any(note.severity is Severity.ERROR for note in notes):
        raise SystemExit(1)


def print_wrote(count: int, folder: Path) -> None:
    """Say how many files were written, and where."""
    print_text(f"wrote {count} file{'' if count == 1 else 's'} to {folder}")


def write(folder: Path, files: dict[str, bytes]) -> None:
    """Write files into a folder, all or none, and say so."""
    from draft.base.output import leftovers, write_folder

    write_folder(folder, files)
    print_wrote(len(files), folder)
    tell_written(folder, files)
    old = leftovers(folder, files)
    if old:
        print_text(f"caution: files of an earlier run are still there: {', '.join(map(visible, old))}", aside=True)


def progress() -> Callable[[str], None]:
    """Says on one line of a terminal what is being done, and takes the line away for no words; silent in a pipe."""
    if sys.stderr is None or not sys.stderr.isatty():
        return lambda words: None
    return lambda words: click.echo(f"\r\033[K{visible(words)} ..." if words else "\r\033[K", err=True, nl=False)
