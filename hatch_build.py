"""What building a wheel adds to the files of the checkout: the parser's tables, so that no start has to make them."""

from __future__ import annotations

import subprocess
import sys
import tempfile
from pathlib import Path
from typing import Any

from hatchling.builders.hooks.plugin.interface import BuildHookInterface

_MAKE = "import sys; from draft.language.parse_tables import sealed_tables; sys.stdout.buffer.write(sealed_tables())"
_PLACE = "draft/_bundled/grammar/piece.tables"


class WithTables(BuildHookInterface[Any]):
    """Lays the tables beside the grammar, in the wheel alone: a checkout's grammar changes, and its user keeps them."""

    PLUGIN_NAME = "custom"

    def initialize(self, version: str, build_data: dict[str, Any]) -> None:
        """Make the tables with the Lark that is here; where another one runs, it makes its own."""
        self._folder = tempfile.TemporaryDirectory()
        if version == "editable":
            return
        made = subprocess.run([sys.executable, "-c", _MAKE], cwd=self.root, check=True, stdout=subprocess.PIPE)
        tables = Path(self._folder.name) / "tables"
        tables.write_bytes(made.stdout)
        build_data["force_include"][str(tables)] = _PLACE

    def finalize(self, version: str, build_data: dict[str, Any], artifact_path: str) -> None:
        """Take away what was made for the wheel."""
        self._folder.cleanup()
