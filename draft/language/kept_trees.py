"""Trees of texts that were read before: reading a pattern takes longer than drafting a size, and it seldom changes.

Kept is the tree of a text without a mistake, under a key of all that it depends on: the text and its name, the files
that read it, the versions of Python and of Lark. What is recalled is made of the tree's own records alone.
"""

from __future__ import annotations

import hashlib
import io
import pickle
import sys
from collections.abc import Iterator
from functools import cache
from importlib.util import find_spec
from pathlib import Path
from typing import Any

from draft.base.kept import keep, recalled
from draft.base.notes import Source
from draft.base.resources import folder
from draft.language import tree

FILE = "piece.tree"
_AT_MOST = 48
"""Trees kept side by side: a designer's patterns and what they use, of some days."""
_LONGEST = 200_000
"""Letters of a text whose tree is kept."""
_FROM = ("draft.language.tree", "draft.garment.finish", "draft.base.notes", "draft.base.units")
"""Where the records of a tree come from."""


def read_again(source: Source) -> tree.File:
    """The tree of a text, as it was kept or else read. Raises `Problems` with every line that could not be read."""
    if len(source.text) > _LONGEST:
        return _read(source)
    key = key_of(source)
    found = opened(recalled(FILE, key))
    if found is None:
        found = _read(source)
        keep(FILE, key, pickle.dumps(found, protocol=5), _AT_MOST)
    return found


def key_of(source: Source) -> str:
    """Names all that a tree depends on."""
    return hashlib.sha256(
        "\n".join((*_readers(), source.place_name, source.text)).encode("utf-8", "replace")
    ).hexdigest()


def opened(kept: bytes | None) -> tree.File | None:
    """The tree that such bytes hold; None where they hold anything else."""
    if kept is None:
        return None
    try:
        found = _Records(io.BytesIO(kept)).load()
    except (pickle.UnpicklingError, AttributeError, EOFError, ImportError, LookupError, TypeError, ValueError):
        return None
    return found if isinstance(found, tree.File) else None


class _Records(pickle.Unpickler):
    """Makes the records that a tree is built of, and calls nothing else."""

    def find_class(self, module: str, name: str) -> Any:
        """Raises UnpicklingError for whatever is no record of a tree."""
        found = super().find_class(module, name) if module.startswith(_FROM) else None
        if isinstance(found, type) and found.__module__.startswith(_FROM):
            return found
        raise pickle.UnpicklingError(f"{module}.{name} is no part of a tree")


def _read(source: Source) -> tree.File:
    from draft.language.reader import read

    return read(source)


@cache
def _readers() -> tuple[str, ...]:
    """The versions of all that reads a text: of our own files the moment of their last change, and their sizes."""
    here = Path(__file__).parent
    ours = [*here.rglob("*.py"), *_below(), folder("grammar") / "piece.lark"]
    lark = find_spec("lark")
    files = [*sorted(ours), *([Path(lark.origin)] if lark and lark.origin else [])]
    return (sys.version, *(f"{path} {path.stat().st_mtime_ns} {path.stat().st_size}" for path in files))


def _below() -> Iterator[Path]:
    """The files of the records that a tree takes from other rooms."""
    return (Path(__file__).parents[2].joinpath(*name.split(".")).with_suffix(".py") for name in _FROM[1:])
