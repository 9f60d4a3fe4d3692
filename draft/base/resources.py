"""Where the grammar and the bundled patterns lie: beside the package in a checkout, inside it in a wheel."""

from __future__ import annotations

from pathlib import Path

_PACKAGE = Path(__file__).resolve().parent.parent


def folder(name: str) -> Path:
    """The folder `grammar` or `pieces`. Raises FileNotFoundError if the installation lacks it."""
    for place in (_PACKAGE / "_bundled" / name, _PACKAGE.parent / name):
        if place.is_dir():
            return place
    raise FileNotFoundError(f"this installation of plainseam lacks its `{name}` folder: install it again")
