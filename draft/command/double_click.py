"""What a double click starts, in a folder that holds Python and plainseam: the page, which ends once it is left.

With words behind it the same file is the whole command, so that a folder is an installation too.
"""

from __future__ import annotations

import multiprocessing
import sys

from draft.base.itself import run_part


def main() -> int:
    """Run a part of the program, the page, or the command."""
    multiprocessing.freeze_support()
    if run_part():
        return 0
    if len(sys.argv) == 1:
        sys.argv += ["page", "--until-left"]
    from draft.command.main import main as command

    return command()


if __name__ == "__main__":
    sys.exit(main())
