"""The command `plainseam`: read the arguments, call, print, and say with the exit code how it went.

0: done. 1: the pattern, the chart or the body has problems, all of them shown. 2: the command was used wrongly.
"""

from __future__ import annotations

import click

from draft.base.notes import Problems
from draft.command import cutting_table, lines, patterns, people, texts
from draft.command.console import print_notes
from draft.command.group import commands

FAMILIES = (patterns, people, texts, lines, cutting_table)
"""The files whose verbs have joined the group."""


def main() -> int:
    """Run the command; a user's mistake becomes one clear message and an exit code, never a traceback."""
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
