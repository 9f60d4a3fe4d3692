"""Packs of the bundled patterns by another Python, or with other versions of the libraries.

`python -m tests.same_bytes PYTHON` names an interpreter that has the libraries, such as one of an environment with the
lowest versions that `pyproject.toml` allows; the project itself need not be installed there. Names of patterns behind
it are tried alone. What differs is told file by file, and the exit code is 1.
"""

from __future__ import annotations

import os
import subprocess
import sys
import tempfile
from pathlib import Path

HERE = Path(__file__).parents[1]
ASKED = ("--sizes", "M", "--page", "letter", "--language", "de")


def bundled() -> list[str]:
    """The names of the patterns that come along."""
    texts = {path.stem: path.read_text("utf-8") for path in sorted((HERE / "pieces").glob("*.piece"))}
    return [name for name, text in texts.items() if any(line.startswith("pattern ") for line in text.splitlines())]


def packed(python: str, pattern: str) -> dict[str, bytes]:
    """The files of a pattern's pack as an interpreter makes them. Raises CalledProcessError where it makes none."""
    with tempfile.TemporaryDirectory() as folder:
        words = [python, "-m", "draft", "pack", pattern, *ASKED, "--out", folder]
        subprocess.run(words, check=True, capture_output=True, env=os.environ | {"PYTHONPATH": str(HERE)})
        found = Path(folder)
        return {str(path.relative_to(found)): path.read_bytes() for path in sorted(found.rglob("*")) if path.is_file()}


def differing(python: str, pattern: str) -> list[str]:
    """The files that this interpreter and another make otherwise, or only one of them makes."""
    ours, theirs = packed(sys.executable, pattern), packed(python, pattern)
    return [name for name in sorted({*ours, *theirs}) if ours.get(name) != theirs.get(name)]


def main() -> int:
    """Try the patterns, and tell of each."""
    if not sys.argv[1:]:
        sys.exit(__doc__)
    python, *patterns = sys.argv[1:]
    wrong = 0
    for pattern in patterns or bundled():
        found = differing(python, pattern)
        wrong += len(found)
        print(f"{pattern}: {'differs in ' + ', '.join(found) if found else 'the same bytes'}", flush=True)
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main())
