"""Run plainseam as `python -m draft`."""

from __future__ import annotations

import sys

from draft.command.main import main

if __name__ == "__main__":
    sys.exit(main())
