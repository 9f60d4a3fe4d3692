"""What building a wheel adds to the files of the checkout: the parser's tables, so that no start has to make them, and
the parts of the page's editor, so that nobody who installs it fetches them."""

from __future__ import annotations

import json
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path
from typing import Any

from hatchling.builders.hooks.plugin.interface import BuildHookInterface

_MAKE = "import sys; from draft.language.parse_tables import sealed_tables; sys.stdout.buffer.write(sealed_tables())"
_PLACE = "draft/_bundled/grammar/piece.tables"
_LISTED = Path("draft/page/editor_parts")
_EDITOR = "draft/_bundled/editor"
_SECONDS = 60


class WithTables(BuildHookInterface[Any]):
    """Lays both into the wheel alone: a checkout's grammar changes, and the editor's parts are nobody's but theirs."""

    PLUGIN_NAME = "custom"

    def initialize(self, version: str, build_data: dict[str, Any]) -> None:
        """Make the tables with the Lark that is here (another one makes its own), and lay the editor in."""
        self._folder = tempfile.TemporaryDirectory()
        if version == "editable":
            return
        made = subprocess.run([sys.executable, "-c", _MAKE], cwd=self.root, check=True, stdout=subprocess.PIPE)
        tables = Path(self._folder.name) / "tables"
        tables.write_bytes(made.stdout)
        build_data["force_include"][str(tables)] = _PLACE
        why = _installed(Path(self.root) / _LISTED, Path(self._folder.name) / "editor")
        if why:
            self.app.display_warning(f"the wheel carries no editor, and its page a plain text area: {why}")
            return
        for file in editor_parts(Path(self._folder.name) / "editor" / "node_modules"):
            place = file.relative_to(Path(self._folder.name) / "editor" / "node_modules")
            build_data["force_include"][str(file)] = f"{_EDITOR}/{place.as_posix()}"

    def finalize(self, version: str, build_data: dict[str, Any], artifact_path: str) -> None:
        """Take away what was made for the wheel."""
        self._folder.cleanup()


def _installed(listed: Path, folder: Path) -> str:
    """Have npm put what the lock file lists into a folder; an empty text, or why it could not."""
    npm = shutil.which("npm")
    if npm is None or shutil.which("node") is None:
        return "node and npm are not there"
    folder.mkdir()
    for name in ("package.json", "package-lock.json", ".npmrc"):
        shutil.copy(listed / name, folder / name)
    command = [npm, "ci", "--ignore-scripts", "--omit=dev"]
    try:
        done = subprocess.run(command, cwd=folder, capture_output=True, text=True, timeout=_SECONDS)
    except (OSError, subprocess.TimeoutExpired):
        return f"npm was not done within {_SECONDS} s"
    said = [line for line in done.stderr.splitlines() if line.strip()]
    return f"npm: {said[0]}" if done.returncode and said else "npm failed" if done.returncode else ""


def editor_parts(modules: Path) -> list[Path]:
    """Of every package in `node_modules` the one file that a browser loads, its own description and its licence."""
    found = []
    for described in sorted([*modules.glob("*/package.json"), *modules.glob("@*/*/package.json")]):
        said = json.loads(described.read_text(encoding="utf-8"))
        main = described.parent / said["exports"]["import"]
        found += [main, described, *sorted(described.parent.glob("LICENSE*"))]
    return found
