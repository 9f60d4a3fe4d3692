"""The command `plainseam`, and the place to start reading: read the arguments, call, print, and exit.

A verb is a function in one of the files of `FAMILIES`. It makes a request of its options, calls one function of
another room with it, and prints or writes what that gives.

Exit codes: 0: done. 1: the pattern, the chart or the body has problems, all of them shown. 2: the command was used
wrongly.
"""

from __future__ import annotations

import gc
import os

import click

from draft.base.notes import Problems
from draft.command import cutting_table, patterns, people, piece_files, sewn_lines, two_drafts
from draft.command.console import print_notes
from draft.command.group import commands

FAMILIES = (patterns, sewn_lines, two_drafts, people, cutting_table, piece_files)
"""The files whose verbs have joined the group."""


def main() -> int:
    """Run the command; a user's mistake becomes one clear message and an exit code, never a traceback."""
    gc.set_threshold(100_000, 50, 50)  # reading makes many things that stay: looking for waste among them takes time
    os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")  # for matrices as small as ours: numpy starts sooner
    try:
        commands(standalone_mode=False)
    except Problems as problems:
        print_notes(problems.notes)
        return 1
    except click.ClickException as mistake:
        mistake.show()
        return mistake.exit_code
    except (click.Abort, KeyboardInterrupt):
        click.echo("stopped; nothing was written", err=True)
        return 1
    except BrokenPipeError:
        return 1
    return 0
