"""Run plainseam, as the command `plainseam` or as `python -m draft`: loading it may be interrupted too."""

from __future__ import annotations

import sys


def run() -> int:
    """Load the command and run it; gives its exit code."""
    try:
        from draft.command.main import main
    except KeyboardInterrupt:
        return 1
    return main()


if __name__ == "__main__":
    sys.exit(run())
