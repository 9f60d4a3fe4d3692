"""What the command says on the terminal, and how it writes what was made."""

from __future__ import annotations

import sys
from collections.abc import Callable, Sequence
from pathlib import Path

import click

from draft.base.notes import Note, Severity, show


def print_notes(notes: Sequence[Note]) -> None:
    if notes:
        click.echo(show(notes), err=True)


def stop_on_errors(notes: Sequence[Note]) -> None:
    if any(note.severity is Severity.ERROR for note in notes):
        raise SystemExit(1)


def write(folder: Path, files: dict[str, bytes]) -> None:
    """Write files into a folder, all or none, and say so."""
    from draft.base.output import leftovers, write_folder

    write_folder(folder, files)
    click.echo(f"wrote {len(files)} files to {folder}")
    old = leftovers(folder, files)
    if old:
        click.echo(f"caution: files of an earlier run are still there: {', '.join(old)}", err=True)


def progress() -> Callable[[str], None]:
    """Says on one line of a terminal what is being done, and takes the line away for no words; silent in a pipe."""
    if not sys.stderr.isatty():
        return lambda words: None
    return lambda words: click.echo(f"\r\033[K{words} ..." if words else "\r\033[K", err=True, nl=False)
