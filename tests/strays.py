"""Files in a folder of cases that no test looks at: nobody would notice what becomes of them."""

from __future__ import annotations

import re
from collections.abc import Iterable
from pathlib import Path

QUOTED = re.compile(r'#.*|"([^"\n]*)"')


def strays(folder: Path, cases: Iterable[Path]) -> list[str]:
    """Names of files that are no case, no expected text of one, and not named by one, as in `uses "bands.piece"`."""
    known = set()
    for case in cases:
        known |= {case.name, case.with_suffix(".txt").name, *QUOTED.findall(case.read_text(encoding="utf-8"))}
    files = [path.name for path in folder.iterdir() if path.is_file() and not path.name.startswith(".")]
    return sorted(name for name in files if name not in known and not name.endswith(".py"))
