"""Where the parts of the page's editor lie: the modules of a kept component, each under the name it is imported by.

A wheel carries them (`hatch_build.py`); a checkout has them once `npm ci` was run in `draft/page/editor_parts`.
Nothing of them is part of the project: without them the page edits in a plain text area.
"""

from __future__ import annotations

import json
from functools import cache
from pathlib import Path

BUNDLED = Path(__file__).parents[1] / "_bundled" / "editor"
"""Where a wheel has them."""
HERE = Path(__file__).parent / "editor_parts" / "node_modules"
"""Where a checkout has them."""
NEEDED = frozenset(f"@codemirror/{part}" for part in ("state", "view", "language", "commands", "autocomplete", "lint"))
"""What the page imports itself."""


@cache
def editor_files() -> dict[str, Path] | None:
    """The file of each module by the name that it is imported by; None where the editor is not there."""
    for place in (BUNDLED, HERE):
        found = files_in(place)
        if found.keys() >= NEEDED:
            return found
    return None


def files_in(modules: Path) -> dict[str, Path]:
    """The file that a browser loads of each package in a folder of them, by the package's name."""
    found = {}
    for described in sorted([*modules.glob("*/package.json"), *modules.glob("@*/*/package.json")]):
        said = json.loads(described.read_text(encoding="utf-8"))
        file = described.parent / said["exports"]["import"]
        if file.is_file() and file.resolve().is_relative_to(modules.resolve()):
            found[str(said["name"])] = file
    return found


def editor_map() -> dict[str, dict[str, str]] | None:
    """The import map by which a browser finds the modules at their addresses; None where the editor is not there."""
    found = editor_files()
    return {"imports": {name: f"/editor/{name}.js" for name in found}} if found else None
